import type { APIRoute } from "astro";
import { siteFarm } from "../../site.ts";
import { fieldCsv } from "../../views/results/rows.ts";
import { inUnitsOf } from "../../views/units.ts";

export const getStaticPaths = (): { params: { field: string } }[] => siteFarm().fields.map(({ id }) => ({ params: { field: id } }));

export const GET: APIRoute = ({ params }) => {
  const field = siteFarm().fields.find((f) => f.id === params["field"])!;
  return new Response(fieldCsv(field, inUnitsOf(siteFarm(), field).units), { headers: { "content-type": "text/csv; charset=utf-8" } });
};
