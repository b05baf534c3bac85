import { expect, it } from "vitest";
import { readSample } from "../../../src/records/reading/readSample.ts";
import { formatProblems } from "../../../src/records/problem.ts";
import { farmFolder } from "../../support/farmFolder.ts";
import { paths, tinyFarm } from "../../support/tinyFarm.ts";

it("of the installed guidelines only those that the sample names must be sound, and every one of these", () => {
  const library = farmFolder().write("guidelines/other-guide.yaml", tinyFarm[paths.guideline]!.replace("evidence: read", "evidence: rumor"));
  const said = (guideline: string): string => {
    library.write("sample.yaml", `guideline: ${guideline}\ndepth: { from: 0, to: 6, unit: in }\nresults: { K: { value: 150, unit: ppm, method: mehlich3 } }\n`);
    const { sample, problems } = readSample(library.path, "sample.yaml", library.path);
    return `${sample === undefined ? "not read" : "read"}: ${formatProblems(problems)}`;
  };
  expect(said("small-guide")).toBe("read: ");
  expect(said("[small-guide, other-guide]")).toMatch(/^not read: installed:guidelines\/other-guide\.yaml:\d+:\d+: sections\[1\]\..*evidence/m);
});
