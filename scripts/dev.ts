import { isFolder } from "../src/records/folder.ts";
import type { Command } from "./command.ts";
import { installation, optionsHelp, readOptions, refuseReadOnly, UsageError } from "./options.ts";

const wanted = ["content"] as const;
const about = optionsHelp("dev", "Serves the site on this machine and reloads it when a record changes. Stop with Ctrl-C.", wanted);

/** Serve the site while records are edited; the page reloads when a record changes. */
const run = async (argv: readonly string[]): Promise<number> => {
  const { content } = readOptions(argv, wanted);
  // Any other mistake is shown on the page, and mended while it is looked at.
  if (!isFolder(content)) throw new UsageError(`${content} is not a folder; give the folder that holds farm.yaml with --content`);
  refuseReadOnly();
  process.chdir(installation);
  process.env["FIELD_CONTENT"] = content;
  process.env["ASTRO_TELEMETRY_DISABLED"] = "1";
  const { dev } = await import("astro");
  const server = await dev({ root: installation });
  await new Promise<void>((stop) => process.once("SIGINT", stop));
  await server.stop();
  return 0;
};

export const command: Command = { about, run };
