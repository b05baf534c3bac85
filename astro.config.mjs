import { dirname, resolve } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { defineConfig } from "astro/config";

const content = process.env.FIELD_CONTENT ?? "content";

/**
 * Under `npm run dev`: reload the page when a record changes.
 * @type {import("astro").AstroIntegration}
 */
const liveRecords = {
  name: "live-records",
  hooks: {
    "astro:server:setup": ({ server }) => {
      server.watcher.add(content);
      server.watcher.on("all", (_event, file) => {
        if (!/\.(ya?ml|geojson)$/.test(file)) return;
        server.ws.send({ type: "full-reload" });
      });
    },
  },
};

const source = fileURLToPath(new URL("src/", import.meta.url));

/**
 * In a build the pages use the very modules that `scripts/build.ts` has loaded to read the records, not bundled copies
 * of them: they are read, compiled and warmed up once, and what a view remembers is remembered once.
 * @type {import("vite").Plugin}
 */
const modulesAsTheyAre = {
  name: "modules-as-they-are",
  enforce: "pre",
  apply: "build",
  resolveId(specifier, importer) {
    if (importer === undefined || !/^\.\.?\/.*\.ts$/.test(specifier)) return undefined;
    const file = resolve(dirname(importer), specifier);
    if (!file.startsWith(source) || file.startsWith(resolve(source, "pages"))) return undefined;
    return { id: pathToFileURL(file).href, external: true };
  },
};

export default defineConfig({
  output: "static",
  outDir: process.env.FIELD_WORK ?? "dist",
  build: { format: "preserve", concurrency: 16, assets: "assets" },
  compressHTML: true,
  devToolbar: { enabled: false },
  integrations: [liveRecords],
  vite: { plugins: [modulesAsTheyAre], build: { target: "node22" }, ssr: { external: ["@turf/intersect", "@turf/kinks", "yaml", "zod", "esbuild"] } },
});
