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

export default defineConfig({
  output: "static",
  outDir: process.env.FIELD_WORK ?? "dist",
  build: { format: "preserve", concurrency: 16, assets: "assets" },
  compressHTML: true,
  devToolbar: { enabled: false },
  integrations: [liveRecords],
  vite: { build: { target: "node22" }, ssr: { external: ["@turf/intersect", "@turf/kinks", "yaml", "zod", "esbuild", "csv-stringify"] } },
});
