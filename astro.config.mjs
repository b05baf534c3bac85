import { dirname, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { defineConfig } from "astro/config";
import { handover } from "./src/handover.ts";

const content = process.env.FIELD_CONTENT ?? "content";

/**
 * Under `npm run dev`: reload the page when a record changes. Which pages there are is asked anew with every request, where Astro
 * keeps its first answer: a field that was added had no page, and that of a sampling taken away failed.
 * @type {import("astro").AstroIntegration}
 */
const liveRecords = {
  name: "live-records",
  hooks: {
    "astro:server:setup": ({ server }) => {
      server.watcher.add(content);
      server.watcher.on("all", (_event, file) => {
        if (!/\.(ya?ml|geojson)$/.test(file)) return;
        handover().farm = undefined;
        server.ws.send({ type: "full-reload" });
      });
      server.middlewares.use((_request, _response, next) => {
        for (const [name, { hot }] of Object.entries(server.environments)) if (name !== "client") hot.send("astro:content-changed", {});
        setImmediate(next);
      });
    },
  },
};

/**
 * The build reads the records with these rooms' modules before Astro starts. The pages import the same files instead of copies in
 * a bundle: nothing is loaded, or worked out of the farm, a second time.
 * @type {import("vite").Plugin}
 */
const sameModules = {
  name: "same-modules",
  apply: "build",
  enforce: "pre",
  resolveId(source, importer) {
    if (!importer || !source.startsWith(".")) return undefined;
    const file = resolve(dirname(importer), source);
    return /[\\/]src[\\/](views|interpretation|exchange|records)[\\/].*\.ts$/.test(file) ? { id: pathToFileURL(file).href, external: true } : undefined;
  },
};

export default defineConfig({
  output: "static",
  outDir: process.env.FIELD_WORK ?? "dist",
  build: { format: "preserve", concurrency: 16, assets: "assets" },
  compressHTML: true,
  devToolbar: { enabled: false },
  integrations: [liveRecords],
  vite: { plugins: [sameModules], build: { target: "node22" }, ssr: { external: ["@turf/intersect", "@turf/kinks", "yaml", "zod", "esbuild", "csv-stringify"] } },
});
