import type { APIRoute } from "astro";
import { build } from "esbuild";

/** One classic script, bundled here, because module scripts do not load from a folder. */
export const GET: APIRoute = async () => {
  const result = await build({
    entryPoints: ["src/client/charts.ts"],
    absWorkingDir: process.cwd(),
    bundle: true,
    minify: true,
    format: "iife",
    target: "es2020",
    legalComments: "none",
    write: false,
  });
  return new Response(result.outputFiles[0]!.text, { headers: { "content-type": "text/javascript; charset=utf-8" } });
};
