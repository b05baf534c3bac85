import { describe, expect, it } from "vitest";
import { forAudience } from "../../../src/records/audience/forAudience.ts";
import type { Farm } from "../../../src/records/model.ts";
import type { AudienceRecord } from "../../../src/records/schemas/audience.ts";
import { withheldParts } from "../../../src/records/schemas/audience.ts";
import { otherwise, ways } from "../../support/otherwise.ts";
import { Random } from "../../support/random.ts";
import { readSecretFarm, secretFarm } from "../../support/secretFarm.ts";

/** `FUZZ_RUNS=1152` for a longer hunt; with another `FUZZ_SEED` it goes elsewhere. */
const more = Number(process.env["FUZZ_RUNS"] ?? 0);
const seed = Number(process.env["FUZZ_SEED"] ?? 20_251_018);

const years: readonly AudienceRecord["seasons"][] = [undefined, { from: 2018 }, { to: 2025 }, { from: 2018, to: 2025 }];
const scopes: readonly Pick<AudienceRecord, "fields" | "tenure">[] = [{ fields: ["quay", "pier"] }, { tenure: "rented" }, {}];
/** How many choices there are: each part in or out, the years, the fields, and how the hidden differs. */
const choices = [...withheldParts.map(() => 2), years.length, scopes.length, ways.length];

/** So few rows that each choice stands beside each choice of every other kind in one of them. */
const pairwise = (sizes: readonly number[]): number[][] => {
  const all = sizes.reduce<number[][]>((rows, size) => rows.flatMap((row) => Array.from({ length: size }, (_, i) => [...row, i])), [[]]);
  const pairsOf = (row: readonly number[]): string[] => row.flatMap((a, i) => row.slice(i + 1).map((b, j) => `${i}:${a} ${i + 1 + j}:${b}`));
  const left = new Set(all.flatMap(pairsOf));
  const fresh = (row: readonly number[]): number => pairsOf(row).filter((pair) => left.has(pair)).length;
  const rows: number[][] = [];
  while (left.size > 0) {
    const best = all.reduce((a, b) => (fresh(b) > fresh(a) ? b : a));
    rows.push(best);
    for (const pair of pairsOf(best)) left.delete(pair);
  }
  return rows;
};

const random = new Random(seed);
const rows = [...pairwise(choices), ...Array.from({ length: more }, () => choices.map((size) => random.below(size)))];

const readerOf = (row: readonly number[]): AudienceRecord => ({ name: "A reader", leaveOut: withheldParts.filter((_, i) => row[i] === 1), seasons: years[row[5]!], ...scopes[row[6]!] });

/**
 * What tells two files apart by what they hold, and nothing of what: fingerprints of the whole, lines where a hidden one stood above, and
 * whether there are other fields at all.
 */
const untold = new Set(["fingerprint", "sha256", "line", "column", "someFields", "allGuidelines", "references"]);

/** All that a farm holds, place by place: `.fields.quay.name`. Guidelines and publications count by their ids. */
const placesOf = (farm: Farm): Map<string, unknown> => {
  const found = new Map<string, unknown>();
  const visit = (value: unknown, at: string): void => {
    if (value instanceof Map || value instanceof Set) return visit(Object.fromEntries(value instanceof Map ? value : [...(value as Set<unknown>)].entries()), at);
    if (typeof value !== "object" || value === null) return void found.set(at, typeof value === "string" ? value.replace(/\.yaml:\d+/g, ".yaml") : value);
    for (const [key, each] of Object.entries(value)) if (!untold.has(key) && each !== undefined) visit(each, `${at}.${key}`);
  };
  visit({ ...farm, shelf: [...farm.allGuidelines.keys(), ...farm.references.keys()] }, "");
  return found;
};

const differences = (a: ReadonlyMap<string, unknown>, b: ReadonlyMap<string, unknown>): string[] =>
  [...new Set([...a.keys(), ...b.keys()])].filter((at) => a.get(at) !== b.get(at)).map((at) => `${at}: ${String(a.get(at))} or ${String(b.get(at))}`);

/** Written as `otherwise` writes, with nothing changed. */
const whole = readSecretFarm(otherwise(secretFarm, { leaveOut: [] }, "more"));

describe("two farms that differ in nothing but what a reader is not shown", () => {
  const hidden: [string, Parameters<typeof otherwise>[1]][] = [...withheldParts.map((part): [string, Parameters<typeof otherwise>[1]] => [part, { leaveOut: [part] }]), ["years", { leaveOut: [], seasons: years[3] }], ["fields", { leaveOut: [], fields: ["quay"] }]];
  it.each(hidden)("differ in %s", (_, reader) => expect(differences(placesOf(whole), placesOf(readSecretFarm(otherwise(secretFarm, reader, "more")))).length).toBeGreaterThan(3));

  it.each(rows.map((row) => [`${JSON.stringify(readerOf(row))}, ${ways[row[7]!]!}`, row] as const))("are one to %s", (_, row) => {
    const reader = readerOf(row);
    const other = readSecretFarm(otherwise(secretFarm, reader, ways[row[7]!]!));
    expect(differences(placesOf(forAudience(whole, reader)), placesOf(forAudience(other, reader)))).toEqual([]);
  });
});
