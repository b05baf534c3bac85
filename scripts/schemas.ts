import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { editorSchemas } from "../src/records/editorSchemas.ts";
import type { Command } from "./command.ts";
import { installation, optionsHelp, readOptions } from "./options.ts";

const about = optionsHelp(
  "schemas",
  "Writes the JSON Schemas of the records into .vscode/schemas, so that an editor with a YAML language server completes and\nchecks a record while it is written. Needed again only after the kinds of record changed; a test says when.",
  [],
);

/** Write the JSON Schemas that the first line of every record points an editor to. */
const run = (argv: readonly string[]): number => {
  readOptions(argv, []);
  const folder = join(installation, ".vscode", "schemas");
  mkdirSync(folder, { recursive: true });
  for (const [name, text] of editorSchemas()) writeFileSync(join(folder, name), text);
  console.log(`${editorSchemas().size} schemas written into ${join(".vscode", "schemas")}.`);
  return 0;
};

export const command: Command = { about, run };
