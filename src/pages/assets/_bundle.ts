import { build } from "esbuild";

/** One classic script, bundled here, because module scripts do not load from a folder. */
export const bundle = async (entry: string): Promise<Response> => {
  const result = await build({
    entryPoints: [entry],
    absWorkingDir: process.cwd(),
    bundle: true,
    minify: true,
    format: "iife",
    target: "es2020",
    legalComments: "none",
    write: false,
  });
  return asScript(result.outputFiles[0]!.text);
};

export const asScript = (text: string): Response => new Response(text, { headers: { "content-type": "text/javascript; charset=utf-8" } });
