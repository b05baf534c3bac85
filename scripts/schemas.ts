import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { editorSchemas } from "../src/records/editorSchemas.ts";
import { installation, readOptions, run } from "./options.ts";

/** Write the JSON Schemas that the first line of every record points an editor to. */
await run(() => {
  readOptions(
    "schemas",
    "Writes the JSON Schemas of the records into .vscode/schemas, so that an editor with a YAML language server completes and\nchecks a record while it is written. Needed again only after the kinds of record changed; a test says when.",
    [],
  );
  const folder = join(installation, ".vscode", "schemas");
  mkdirSync(folder, { recursive: true });
  for (const [name, text] of editorSchemas()) writeFileSync(join(folder, name), text);
  console.log(`${editorSchemas().size} schemas written into ${join(".vscode", "schemas")}.`);
  return 0;
});
