import { readOptions, installation, run } from "./options.ts";

/** Serve the site while records are edited; the page reloads when a record changes. */
await run(async () => {
  const { content } = readOptions("dev", "Serves the site on this machine and reloads it when a record changes. Stop with Ctrl-C.", ["content"]);
  process.chdir(installation);
  process.env["FIELD_CONTENT"] = content;
  process.env["ASTRO_TELEMETRY_DISABLED"] = "1";
  const { dev } = await import("astro");
  const server = await dev({ root: installation });
  await new Promise<void>((stop) => process.once("SIGINT", stop));
  await server.stop();
  return 0;
});
