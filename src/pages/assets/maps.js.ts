import type { APIRoute } from "astro";
import { bundle } from "./_bundle.ts";

export const GET: APIRoute = () => bundle("src/client/maps.ts");
