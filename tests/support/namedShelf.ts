import { cpSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll } from "vitest";
import { installation } from "../../scripts/options.ts";
import { generateFarm } from "./generateFarm.ts";

/** Of the installation's shelf what generated farms name, and every publication: the other guidelines are read by their own tests, and would be read here hundreds of times. */
export const namedShelf = (): string => {
  const shelf = mkdtempSync(join(tmpdir(), "field-history-shelf-"));
  afterAll(() => rmSync(shelf, { recursive: true }));
  const named = /^guidelines: \[(.*)\]$/m.exec(generateFarm({ seed: 1, fields: 1, samplings: 1 }).get("farm.yaml")!)![1]!.split(", ");
  for (const file of ["references.yaml", ...named.map((id) => `guidelines/${id}.yaml`)]) cpSync(join(installation, "content", file), join(shelf, file));
  return shelf;
};
