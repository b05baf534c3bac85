import type { APIRoute } from "astro";
import { siteFarm, siteReport } from "../../../site.ts";
import { shownReports } from "../../../views/sampling/reports.ts";

const types: Readonly<Record<string, string>> = {
  pdf: "application/pdf",
  png: "image/png",
  jpg: "image/jpeg",
  jpeg: "image/jpeg",
  csv: "text/csv",
};

export const getStaticPaths = (): { params: { report: string } }[] => shownReports(siteFarm()).map((report) => ({ params: { report } }));

export const GET: APIRoute = ({ params }) => {
  const name = params["report"]!;
  return new Response(siteReport(name), { headers: { "content-type": types[name.split(".").at(-1)!.toLowerCase()]! } });
};
