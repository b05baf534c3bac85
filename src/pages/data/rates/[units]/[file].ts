import type { APIRoute } from "astro";
import { siteFarm } from "../../../../site.ts";
import { filesOf, rateMapFiles } from "../../../../views/season/seasonMapFiles.ts";

const types: Readonly<Record<string, string>> = { csv: "text/csv; charset=utf-8", geojson: "application/geo+json", zip: "application/zip" };

export const getStaticPaths = (): { params: { units: string; file: string } }[] =>
  rateMapFiles(siteFarm()).flatMap((files) => filesOf(files).map(({ file }) => ({ params: { units: files.map.units, file } })));

export const GET: APIRoute = ({ params }) => {
  const { content } = rateMapFiles(siteFarm())
    .filter((files) => files.map.units === params["units"])
    .flatMap(filesOf)
    .find((f) => f.file === params["file"])!;
  // A fresh copy: the types of a response know no bytes of a shared buffer.
  return new Response(typeof content === "string" ? content : new Uint8Array(content), {
    headers: { "content-type": types[params["file"]!.split(".").at(-1)!]! },
  });
};
