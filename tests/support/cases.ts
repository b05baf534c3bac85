import { readdirSync, readFileSync } from "node:fs";
import { parse } from "yaml";
import * as z from "zod";
import { section } from "../../src/interpretation/guideline.ts";
import { evidenceGrades } from "../../src/interpretation/outcome.ts";
import { cropIds, textureIds } from "../../src/interpretation/vocabulary.ts";

const folder = new URL("../cases/", import.meta.url);

/** What every check value says of itself: where it was published and how well that is known. */
export const published = z.strictObject({
  case: z.string().min(1),
  from: z.strictObject({ source: z.string().min(12), at: z.string().min(3) }),
  evidence: z.enum(evidenceGrades),
  note: z.string().optional(),
  tolerance: z.number().positive().optional(),
});

export const facts = z.strictObject({
  crop: z.enum(cropIds).optional(),
  texture: z.enum(textureIds).optional(),
  cec: z.number().optional(),
  organicMatter: z.number().optional(),
  subsoilPh: z.number().optional(),
});

export const caseFiles = readdirSync(folder).filter((name) => name.endsWith(".yaml"));

/** A file of cases as plain data. The many cases share few sources, so the limit on aliases is lifted. */
export const rawCases = (name: string): Record<string, unknown> =>
  parse(readFileSync(new URL(name, folder), "utf8"), { maxAliasCount: -1 }) as Record<string, unknown>;

/** The cases of one list in one file, and the rules that stand in it, each through its own schema. */
export const readCases = <C extends z.ZodType>(name: string, shape: C, list = "cases") => {
  const raw = rawCases(name);
  return {
    rules: z.record(z.string(), section).parse(raw["rules"] ?? {}),
    cases: z.array(shape).min(1).parse(raw[list]),
  };
};

/** How far a sum may be from the printed number: what the publication rounded away, else only the computer's own dust. */
export const toleranceOf = (c: z.infer<typeof published>): number => c.tolerance ?? 1e-9;
