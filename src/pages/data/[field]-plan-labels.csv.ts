import type { APIRoute } from "astro";
import { siteFarm } from "../../site.ts";
import { hasPlan } from "../../views/due.ts";
import { sitePlan } from "../../views/plan.ts";
import { planSampling } from "../../views/planComposites.ts";
import { planLabelsCsv } from "../../views/planFiles.ts";

export const getStaticPaths = (): { params: { field: string } }[] =>
  siteFarm()
    .fields.filter((f) => hasPlan(siteFarm(), f))
    .map(({ id }) => ({ params: { field: id } }));

export const GET: APIRoute = ({ params }) => {
  const farm = siteFarm();
  const field = farm.fields.find((f) => f.id === params["field"])!;
  return new Response(planLabelsCsv(farm, field, planSampling(farm, field, sitePlan(farm))), { headers: { "content-type": "text/csv; charset=utf-8" } });
};
