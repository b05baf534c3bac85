import type { APIRoute } from "astro";
import { siteFarm } from "../../site.ts";
import { sitePlanFiles } from "../../views/plan/sitePlanFiles.ts";

/** Labels of each due plan, and its positions where the owner lets the site tell where the farm lies. */
export const getStaticPaths = (): { params: { plan: string } }[] =>
  sitePlanFiles(siteFarm()).map(({ path }) => ({ params: { plan: path.replace("data/", "") } }));

export const GET: APIRoute = ({ params }) => {
  const { content, type } = sitePlanFiles(siteFarm()).find(({ path }) => path === `data/${params["plan"]!}`)!;
  return new Response(content(), { headers: { "content-type": type } });
};
