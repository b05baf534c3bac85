import type { APIRoute } from "astro";
import { siteFarm } from "../../site.ts";
import { latestCsv } from "../../views/advice/latestResults.ts";

export const GET: APIRoute = () => new Response(latestCsv(siteFarm()), { headers: { "content-type": "text/csv; charset=utf-8" } });
