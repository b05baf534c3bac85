import type { APIRoute } from "astro";
import { siteFarm } from "../../site.ts";
import { latestRows } from "../../views/home.ts";
import { resultsCsv } from "../../views/rows.ts";

export const GET: APIRoute = () => new Response(resultsCsv(latestRows(siteFarm())), { headers: { "content-type": "text/csv; charset=utf-8" } });
