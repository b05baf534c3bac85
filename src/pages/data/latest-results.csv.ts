import type { APIRoute } from "astro";
import { siteFarm } from "../../site.ts";
import { latestRows } from "../../views/home.ts";
import { resultsCsv } from "../../views/rows.ts";

export const GET: APIRoute = () => new Response(resultsCsv(latestRows(siteFarm()), siteFarm().units), { headers: { "content-type": "text/csv; charset=utf-8" } });
