import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { filesBelow } from "../../scripts/checkLinks.ts";
import type { Ran } from "./command.ts";
import { ranHere } from "./command.ts";
import { FarmFolder } from "./farmFolder.ts";

/** Run `npm run new` in a farm's folder; without answers that a person types, nobody can be asked. */
export const make = (folder: string, args: readonly string[], types?: readonly string[]): Promise<Ran> => ranHere("new", [...args, "--content", folder], types && { types });

/** Takes the marks of optional lines away, as a person would; what explains begins with a capital and stays. */
export const withOptions = (text: string): string => text.replace(/^(\s*)#(?=[a-z]|\s{2})/gm, "$1");

/** The farm as a person has it once every optional line is switched on. */
export const allSwitchedOn = (folder: string): FarmFolder => {
  for (const file of filesBelow(folder).filter((f) => f.endsWith(".yaml"))) {
    const path = join(folder, file);
    writeFileSync(path, withOptions(readFileSync(path, "utf8")));
  }
  return new FarmFolder(folder);
};
