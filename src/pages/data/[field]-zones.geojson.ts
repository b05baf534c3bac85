import type { APIRoute } from "astro";
import { siteFarm } from "../../site.ts";
import { hasZonesFile, zonesGeoJson } from "../../views/maps/zonesGeoJson.ts";

export const getStaticPaths = (): { params: { field: string } }[] =>
  siteFarm()
    .fields.filter((field) => hasZonesFile(siteFarm(), field))
    .map(({ id }) => ({ params: { field: id } }));

export const GET: APIRoute = ({ params }) => {
  const field = siteFarm().fields.find((f) => f.id === params["field"])!;
  return new Response(zonesGeoJson(field), { headers: { "content-type": "application/geo+json; charset=utf-8" } });
};
