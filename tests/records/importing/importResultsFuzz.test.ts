import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { planImport } from "../../../src/records/importing/importResults.ts";
import type { PlannedImport } from "../../../src/records/importing/importResults.ts";
import { changesOf } from "../../../src/records/importing/importResultsWrite.ts";
import { formatProblems } from "../../../src/records/problem.ts";
import { awaitingFarm, awaitingSampling, usualColumns, usualFile } from "../../support/awaitingFarm.ts";
import { paths } from "../../support/tinyFarm.ts";
import { Random } from "../../support/random.ts";

/** `FUZZ_RUNS=10000` for a longer hunt; with another `FUZZ_SEED` it goes elsewhere. */
const runs = Number(process.env["FUZZ_RUNS"] ?? 400);
const seed = Number(process.env["FUZZ_SEED"] ?? 20_251_018);

const noise = (random: Random): Uint8Array => Uint8Array.from({ length: random.below(400) }, () => random.below(256));

/** Marks that mean something to a table, and some that mean nothing. */
const marks = [",", ";", "\t", '"', '""', "\n", "\r\n", "<", ">", "-", "=", " ", "0", "9", ".", "é", "\0", "\ufeff", "0021", "K (ppm)", "Label", "constructor", "__proto__"];

/** The plain file with a few slips in it, now and then in another encoding or with its bytes mixed up. */
const slipped = (random: Random): Uint8Array => {
  let text = usualFile;
  for (let n = random.below(4); n >= 0; n--) {
    const at = random.below(text.length + 1);
    text = text.slice(0, at) + random.pick(marks) + text.slice(at + random.below(3));
  }
  const bytes = Uint8Array.from(random.chance(0.2) ? Buffer.from(`\ufeff${text}`, "utf16le") : Buffer.from(text));
  if (random.chance(0.2)) bytes[random.below(bytes.length)] = random.below(256);
  return bytes;
};

/** Nothing but what parts values. */
const separators = (random: Random): Uint8Array => Buffer.from(Array.from({ length: random.below(12) }, () => random.pick([",", ";", "\t", "\n", "\r\n", " ", '"', '""'])).join(""));

/** Every problem must lead to a place that the file has, in one line. */
const misplaced = ({ problems }: PlannedImport, bytes: Uint8Array): string[] => {
  // Two bytes may be one line end, and a byte at least one column.
  const most = bytes.length + 2;
  return problems.filter((p) => p.line < 1 || p.column < 1 || p.line > most || p.column > most || formatProblems([p]).includes("\n")).map((p) => formatProblems([p]));
};

describe("whatever bytes a result file holds", { timeout: 30_000 + runs * 100 }, () => {
  const cases: [string, (random: Random) => Uint8Array][] = [["chance", noise], ["separators", separators], ["slips of the finger", slipped]];
  it.each(cases)("%s: nothing crashes, nothing is written, and every complaint has its place", (what, make) => {
    const folders = ["", "encoding: windows-1252\n  ", "delimiter: comma\n  ", "delimiter: semicolon\n  decimal: comma\n  bags: columns\n  "].map((more) => awaitingFarm(`${more}${usualColumns}`));
    const random = new Random(seed);
    let refused = 0;
    for (const farmFolder of folders) {
      const { farm } = farmFolder.read();
      const lab = farm!.labs.get("north-lab")!;
      for (let n = 0; n < runs / 4; n++) {
        const bytes = make(random);
        const result = planImport(farm!, lab, { file: "results.csv", bytes });
        expect(misplaced(result, bytes)).toEqual([]);
        if (!result.plan) {
          refused += 1;
          expect(result.problems.some((p) => p.severity === "error")).toBe(true);
        } else expect(changesOf(farmFolder.path, result.plan)).toHaveProperty("changes");
      }
      expect(readFileSync(join(farmFolder.path, paths.sampling), "utf8")).toBe(awaitingSampling);
    }
    // Chance never makes a file of results; a slip may leave one.
    expect(refused).toBe(what === "slips of the finger" ? refused : Math.ceil(runs / 4) * 4);
    expect(refused).toBeGreaterThan(runs / 4);
  });
});
