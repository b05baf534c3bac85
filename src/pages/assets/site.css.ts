import type { APIRoute } from "astro";
import site from "../../styles/site.css?raw";
import tokens from "../../styles/tokens.css?raw";

/** One stylesheet for the whole site, linked relatively. */
export const GET: APIRoute = () => new Response(`${tokens}\n${site}`, { headers: { "content-type": "text/css; charset=utf-8" } });
