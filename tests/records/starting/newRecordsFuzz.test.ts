import { fileURLToPath } from "node:url";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { newFarm } from "../../../src/records/starting/newRecordsFarm.ts";
import { newField } from "../../../src/records/starting/newRecordsField.ts";
import type { Question } from "../../../src/records/starting/newRecordsQuestions.ts";
import { depthOf, farmDetails, farmQuestions, fieldQuestions, listed, packageQuestion, samplingDetails, samplingQuestions, seasonQuestions } from "../../../src/records/starting/newRecordsQuestions.ts";
import { idFrom } from "../../../src/records/idFrom.ts";
import { planLabels } from "../../../src/records/starting/planLabels.ts";
import { readFarm } from "../../../src/records/reading/readFarm.ts";
import { planSampling } from "../../../src/views/plan/planComposites.ts";
import { planLabelsCsv } from "../../../src/views/plan/planFiles.ts";

/** `FUZZ_RUNS=10000` for a longer hunt; with another `FUZZ_SEED` it goes elsewhere. */
const runs = Number(process.env["FUZZ_RUNS"] ?? 300);
const parameters = { seed: Number(process.env["FUZZ_SEED"] ?? 20_251_127), numRuns: runs };

const marks = ['"', "'", ":", ": ", " #", "#", "- ", "{", "}", "[", "]", ",", "&a", "*a", "!!str", "|", ">", "%", "@", "`", "\\", "\n", "\t", "\u0000", "\u2028", "~", "null", "yes", "0012", "1e9", "2026-10-01", "é", "Ψ", "=1+1", "__proto__", "Netloft", "0-8 in"];
const typed = fc.oneof(fc.string({ unit: "binary", maxLength: 60 }), fc.array(fc.constantFrom(...marks), { maxLength: 6 }).map((parts) => parts.join("")), fc.string({ maxLength: 500 }));

const content = fileURLToPath(new URL("../../../content", import.meta.url));
const farm = readFarm({ content, library: content }).farm!;
const netloft = farm.fields.find((f) => f.id === "netloft")!;

/** What the question makes of an answer: the recorded form, or `undefined` with a reason of one line. */
const accepted = (q: Question, answer: string): string | undefined => {
  const given = q.as?.(answer.trim()) ?? answer.trim();
  const problem = q.problem(given);
  if (problem === undefined) return given;
  expect(problem).not.toBe("");
  return undefined;
};

describe("whatever a person types", { timeout: 30_000 + runs * 50 }, () => {
  it("is taken or refused by every question, never by a throw, and what is taken is what may be recorded", () => {
    const questions = [...farmQuestions(["us-tristate-974-2020"]), ...farmDetails(undefined), ...fieldQuestions(["netloft"]), ...seasonQuestions(farm), ...samplingQuestions(farm), ...samplingDetails(farm, netloft, "routine", "0-8 in"), packageQuestion(farm, netloft, "routine", "fulmar-soil-laboratory")];
    let taken = 0;
    fc.assert(
      fc.property(typed, fc.nat(questions.length - 1), (answer, at) => {
        const q = questions[at]!;
        const kept = accepted(q, answer);
        if (kept === undefined) return;
        taken += 1;
        expect(kept).not.toMatch(/[\u0000-\u001f\u2028\u2029]/);
        if (q.flag === "depth") expect(depthOf(kept)).toBeDefined();
      }),
      parameters,
    );
    expect(taken).toBeGreaterThan(runs / 20);
  });

  it("stands in the new record letter for letter", () => {
    const [name] = farmQuestions(["us-tristate-974-2020"]);
    const [labName, , fieldName, zoneNames] = farmDetails(undefined);
    let written = 0;
    fc.assert(
      fc.property(typed, typed, typed, typed, (farmWords, labWords, fieldWords, zoneWords) => {
        const [a, lab, field, zones] = [accepted(name!, farmWords), accepted(labName!, `L${labWords}`), accepted(fieldName!, `F${fieldWords}`), accepted(zoneNames!, zoneWords)];
        if (a === undefined || lab === undefined || field === undefined || zones === undefined) return;
        written += 1;
        const files = newFarm({ name: a, units: "us", currency: "USD", guidelines: [farm.allGuidelines.get("us-tristate-974-2020")!], lab: { id: idFrom(lab), name: lab, extractant: "mehlich3" }, field: { id: idFrom(field), name: field, zones: listed(zones) } });
        const [farmFile, labFile, fieldFile] = files.map((f) => parse(f.text) as { name: string; zones: Record<string, { name: string }> });
        expect([farmFile!.name, labFile!.name, fieldFile!.name]).toEqual([a, lab, field]);
        // A zone called 0 has a key that a map puts first.
        expect(Object.values(fieldFile!.zones).map((z) => z.name).sort()).toEqual(listed(zones).sort());
        for (const { path } of files) expect(path).toMatch(/^[a-z0-9/-]+\.yaml$/);
        expect(newField({ id: idFrom(field), name: field, zones: listed(zones), units: "us" }).text).toContain("zones:");
      }),
      parameters,
    );
    expect(written).toBeGreaterThan(runs / 20);
  });
});

describe("whatever a list of labels holds", { timeout: 30_000 + runs * 50 }, () => {
  const good = planLabelsCsv(farm, netloft, planSampling(farm, netloft, { purpose: "routine", date: "2026-10-20", seed: 1 }));

  it("reads as the bags of a plan where nothing was changed", () => {
    expect(planLabels(farm, Buffer.from(good))).toMatchObject({ field: { id: "netloft" }, purpose: "routine", plannedFor: "2026-10-20" });
  });

  it.each<[string, fc.Arbitrary<Uint8Array>]>([
    ["chance", fc.uint8Array({ maxLength: 400 })],
    ["slips of the finger", fc.array(fc.record({ at: fc.nat(good.length), over: fc.nat(6), put: fc.constantFrom(...marks) }), { minLength: 1, maxLength: 4 }).map((slips) => Buffer.from(slips.reduce((text, { at, over, put }) => text.slice(0, at) + put + text.slice(at + over), good)))],
  ])("%s: it is read or refused in a sentence, and no bag is of a zone that is not there", (_, bytes) => {
    fc.assert(
      fc.property(bytes, (file) => {
        const found = planLabels(farm, file);
        if ("fault" in found) expect(found.fault).toMatch(/^[a-z]/);
        else for (const { zone } of found.bags) expect(netloft.zones.map((z) => z.id)).toContain(zone);
      }),
      parameters,
    );
  });
});
