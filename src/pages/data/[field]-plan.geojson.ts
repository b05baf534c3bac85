import type { APIRoute } from "astro";
import { siteFarm } from "../../site.ts";
import { hasPlan } from "../../views/due.ts";
import { sitePlan } from "../../views/plan.ts";
import { planSampling } from "../../views/planComposites.ts";
import { planGeoJson } from "../../views/planFiles.ts";

/** Only where the owner lets the site tell where the farm lies. */
export const getStaticPaths = (): { params: { field: string } }[] =>
  siteFarm()
    .fields.filter((f) => siteFarm().publish.location && hasPlan(siteFarm(), f))
    .map(({ id }) => ({ params: { field: id } }));

export const GET: APIRoute = ({ params }) => {
  const farm = siteFarm();
  const field = farm.fields.find((f) => f.id === params["field"])!;
  return new Response(planGeoJson(field, planSampling(farm, field, sitePlan(farm))), { headers: { "content-type": "application/geo+json" } });
};
