import { rmSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import * as z from "zod";
import { decode } from "../../src/records/decode.ts";
import { readFast } from "../../src/records/yaml/fastYaml.ts";
import { formatProblems, Problems, type Problem } from "../../src/records/problem.ts";
import type { ReadResult } from "../../src/records/reading/readFarm.ts";
import { explainRecord } from "../../src/records/yaml/yamlFile.ts";
import { corrupt } from "../support/corrupt.ts";
import { farmFolder, type FarmFolder } from "../support/farmFolder.ts";
import { generateFarm, type FarmPlan } from "../support/generateFarm.ts";
import { namedShelf } from "../support/namedShelf.ts";
import { paths, tinyFarm } from "../support/tinyFarm.ts";

/** `FUZZ_RUNS=5000` for a longer hunt; with another `FUZZ_SEED` it goes elsewhere. */
const runs = Number(process.env["FUZZ_RUNS"] ?? 60);
const parameters = { seed: Number(process.env["FUZZ_SEED"] ?? 20_251_018), numRuns: runs };
const patience = 30_000 + runs * 300;

const library = namedShelf();

const plans: fc.Arbitrary<FarmPlan> = fc.record({
  seed: fc.nat(),
  fields: fc.integer({ min: 1, max: 2 }),
  samplings: fc.integer({ min: 0, max: 3 }),
  zones: fc.integer({ min: 1, max: 4 }),
});

const readOnce = (farm: FarmFolder): ReadResult => {
  const result = farm.read({ library });
  rmSync(farm.path, { recursive: true });
  return result;
};

/** A problem must lead a person to something they can see: a place in a file, or a file that is not there and must be. */
const misplaced = ({ file, line, column, message }: Problem, files: ReadonlyMap<string, string>): string | undefined => {
  if (/[\n\r]/.test(formatProblems([{ file, line, column, field: "", message, severity: "error" }]))) return "more than one line";
  const text = files.get(file);
  if (text === undefined) {
    const needed = file === "farm.yaml" || file === "fields" || /^fields\/[^/]+\/field\.yaml$/.test(file);
    return needed && /^(is missing|holds no field)/.test(message) ? undefined : "no such file";
  }
  const lines = text.replace(/^\ufeff/, "").split("\n");
  if (line < 1 || line > lines.length) return `no line ${line} of ${lines.length}`;
  return column < 1 || column > lines[line - 1]!.length + 1 ? `no column ${column} in line ${line}` : undefined;
};

describe("a generated farm", () => {
  it("is the same for the same plan and another for another seed", () => {
    const plan = { seed: 7, fields: 2, samplings: 2 };
    expect(generateFarm(plan)).toEqual(generateFarm(plan));
    expect(generateFarm({ ...plan, seed: 8 })).not.toEqual(generateFarm(plan));
    expect(generateFarm({ ...plan, mistakes: 3 })).not.toEqual(generateFarm(plan));
  });

  it("has files as long as real ones", () => {
    const samplings = [...generateFarm({ seed: 1, fields: 3, samplings: 6 })].filter(([file, text]) => file.includes("/samplings/") && text.includes("routine"));
    expect(samplings.length).toBeGreaterThan(9);
    for (const [, text] of samplings) expect(text.split("\n").length).toBeGreaterThan(50);
  });

  it("reads without a word", { timeout: patience }, () => {
    fc.assert(
      fc.property(plans, (plan) => {
        const { farm, problems } = readOnce(farmFolder(generateFarm(plan)));
        expect(problems).toEqual([]);
        expect(farm?.fields.map((f) => [f.zones.length, f.samplings.length])).toEqual(Array.from({ length: plan.fields }, () => [plan.zones, plan.samplings]));
      }),
      parameters,
    );
  });

  it("with slips in it reads, or is refused with places that exist", { timeout: patience }, () => {
    let refused = 0;
    fc.assert(
      fc.property(plans, fc.nat(), fc.integer({ min: 1, max: 6 }), (plan, seed, howMany) => {
        const files = corrupt(generateFarm(plan), seed, howMany);
        const { farm, problems } = readOnce(farmFolder(files));
        expect(problems.map((p) => misplaced(p, files)).filter((m) => m !== undefined)).toEqual([]);
        expect(farm === undefined).toBe(problems.some((p) => p.severity === "error"));
        if (!farm) refused += 1;
      }),
      parameters,
    );
    // Or the slips would prove nothing.
    expect(refused).toBeGreaterThan(runs / 3);
  });
});

it("a record that the fast reader takes holds the same for the explaining one", { timeout: patience }, () => {
  const records = new Map(Object.entries(tinyFarm).filter(([file]) => file.endsWith(".yaml")));
  fc.assert(
    fc.property(fc.nat(), (seed) => {
      for (const [file, spoiled] of corrupt(records, seed, 4)) {
        const problems = new Problems();
        const text = decode(Buffer.from(spoiled), file, problems);
        const quick = text === undefined ? undefined : readFast(text);
        if (text === undefined || !quick) continue;
        const slow = explainRecord(text, file, z.any(), problems);
        // A list or a bare word alone is no record for either.
        if (typeof quick.value === "object" && quick.value !== null) expect([text, slow?.value]).toEqual([text, quick.value]);
      }
    }),
    parameters,
  );
});

describe("anything at all in place of a record", () => {
  const scraps = fc
    .array(fc.constantFrom("a", "date", "zones", ":", ": ", "- ", "\n", "\n  ", "[", "]", "{", "}", ",", '"', "'", "&a ", "*a", "!!str ", "? ", "| ", "> ", "# ", "---\n", "%YAML 1.1\n", "~", "1e9", "\t", "<<: ", "__proto__: "))
    .map((parts) => Buffer.from(parts.join("")));
  const anything = fc.oneof(fc.uint8Array({ maxLength: 300 }), fc.string({ unit: "binary" }).map((s) => Buffer.from(s)), scraps);

  it("no publications at all are sound in their own file, and missed where they are cited", () => {
    const farm = farmFolder().write(paths.references, "{}");
    const { farm: read, problems } = farm.read();
    expect(read).toBeUndefined();
    expect(problems.filter((p) => p.file === paths.references)).toEqual([]);
    expect(problems.some((p) => p.message.includes("is not in references.yaml"))).toBe(true);
  });

  it.each(Object.values(paths))("%s is refused in words, never by a throw", { timeout: patience }, (path) => {
    fc.assert(
      fc.property(anything, (bytes) => {
        const text = Buffer.from(bytes).toString();
        const farm = farmFolder();
        const { farm: read, problems } = farm.write(path, bytes).read();
        rmSync(farm.path, { recursive: true });
        expect(read).toBeUndefined();
        const own = problems.filter((p) => p.file === path);
        // A list of no publications, {}, is sound in itself; what it lacks is told where it is cited.
        const blamed = path === paths.references && text.trim() === "{}" ? problems : own;
        expect(blamed.length).toBeGreaterThan(0);
        expect(own.map((p) => misplaced(p, new Map([[path, text]]))).filter((m) => m !== undefined)).toEqual([]);
      }),
      { ...parameters, numRuns: Math.ceil(runs / 3) },
    );
  });
});
