import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import type { BagFile } from "../src/exchange/bundle/bag.ts";
import { sameFolder } from "../src/records/folder.ts";
import type { Farm } from "../src/records/model.ts";
import { shownGuidelines } from "../src/views/guidelines/comparison.ts";

/**
 * The records behind a site, as payload: the farm's own under records/own, so that `--content` can read them again, and under
 * records/installed the guidelines that have a page and the list of publications. A farm kept in the installation's own
 * folder, as the demo is, has only its own records there, not every guideline on the shelf. Call it for a farm that was read
 * without an error: then every entry below the folder was accepted, links included.
 */
export const bundleRecords = (farm: Farm, content: string, library: string): BagFile[] => {
  const own = sameFolder(content, library)
    ? ["farm.yaml", "fields", "labs", "reports"]
    : ["farm.yaml", "references.yaml", "fields", "labs", "guidelines", "reports"];
  const held = own.flatMap((name) => below(content, name));
  const names = new Set(held);
  const installed = [...shownGuidelines(farm).keys()]
    .map((id) => `guidelines/${id}.yaml`)
    .filter((name) => !names.has(name) && existsSync(join(library, name)));
  return [
    ...held.map((name) => ({ path: `records/own/${name}`, bytes: readFileSync(join(content, name)) })),
    ...[...installed, "references.yaml"].map((name) => ({ path: `records/installed/${name}`, bytes: readFileSync(join(library, name)) })),
  ];
};

/** Records below an entry: what the reader passes over (hidden files, files for people) is nobody's record and stays at home. */
const below = (root: string, name: string): string[] => {
  if (!existsSync(join(root, name))) return [];
  if (statSync(join(root, name)).isFile()) return [name];
  return readdirSync(join(root, name)).flatMap((entry) => (/^\.|^readme(\.|$)|\.txt$/i.test(entry) ? [] : below(root, `${name}/${entry}`)));
};
