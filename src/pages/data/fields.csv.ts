import type { APIRoute } from "astro";
import { siteFarm } from "../../site.ts";
import { fieldsCsv } from "../../views/home/fieldsCsv.ts";

export const GET: APIRoute = () => new Response(fieldsCsv(siteFarm()), { headers: { "content-type": "text/csv; charset=utf-8" } });
