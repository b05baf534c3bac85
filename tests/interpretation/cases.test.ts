import { describe, expect, it } from "vitest";
import * as z from "zod";
import { section } from "../../src/interpretation/guideline.ts";
import { evidenceGrades } from "../../src/interpretation/outcome.ts";
import { caseFiles, published, rawCases } from "../support/cases.ts";

const cases = caseFiles.flatMap((file) => {
  const raw = rawCases(file);
  const lists = [raw["cases"], raw["oxides"] ?? []].flatMap((list) => z.array(z.looseObject({ case: z.string() })).parse(list));
  return lists.map((each) => ({ file, name: each.case, each }));
});

describe("published check values", () => {
  it("stand in a file for every kind of rule", () => {
    const kinds = section.options.map((rule) => rule.shape.kind.value);
    expect(caseFiles).toEqual(expect.arrayContaining(kinds.map((kind) => `${kind}.yaml`)));
  });

  it("are at least 120", () => expect(cases.length).toBeGreaterThanOrEqual(120));

  it.each(cases)("$file: $name: has a source and a grade", ({ each }) => {
    const header = z.looseObject(published.shape).parse(each);
    expect(header.from.source).toMatch(/[A-Z]/);
    expect(evidenceGrades).toContain(header.evidence);
  });

  it.each(caseFiles)("%s: no two cases have one name", (file) => {
    const names = cases.filter((c) => c.file === file).map((c) => c.name);
    expect(names.filter((name, i) => names.indexOf(name) !== i)).toEqual([]);
  });
});
