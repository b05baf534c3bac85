import type { APIRoute } from "astro";
import { siteFarm } from "../../site.ts";
import { balanceCsv } from "../../views/balance/balanceCsv.ts";
import { hasBalance } from "../../views/balance/placeRecords.ts";

export const getStaticPaths = (): { params: { field: string } }[] =>
  siteFarm()
    .fields.filter(hasBalance)
    .map(({ id }) => ({ params: { field: id } }));

export const GET: APIRoute = ({ params }) => {
  const field = siteFarm().fields.find((f) => f.id === params["field"])!;
  return new Response(balanceCsv(siteFarm(), field), { headers: { "content-type": "text/csv; charset=utf-8" } });
};
