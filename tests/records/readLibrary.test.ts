import { describe, expect, it } from "vitest";
import { farmFolder, linesAfter } from "../support/farmFolder.ts";
import { paths, tinyFarm } from "../support/tinyFarm.ts";

const { guideline, references } = paths;

describe("a guideline pack", () => {
  it.each([
    ["no evidence", ", at: Table 1 }\n        evidence: read\n", ", at: Table 1 }\n", "13:9: sections[1].tables[1]: evidence is missing; write read, derived, secondary or memory"],
    ["no source", "        source: { reference: bulletin-1, at: Table 1 }\n", "", "13:9: sections[1].tables[1].source: is missing; must be common-practice or { reference, at }"],
    ["a source of another kind", "{ reference: bulletin-1, at: Table 1 }", "bulletin-1", '17:17: sections[1].tables[1].source: must be common-practice or { reference, at }, not the text "bulletin-1"'],
    ["a reference that is not known", "bulletin-1, at: Table 1", "bulletin-2, at: Table 1", '17:30: sections[1].tables[1].source.reference: reference "bulletin-2" is not in references.yaml; did you mean bulletin-1?'],
    [
      "a reference that is not known outside the sections",
      "about:",
      "intervalYears: { value: 4, source: { reference: letter }, evidence: read }\nabout:",
      '6:49: intervalYears.source.reference: reference "letter" is not in references.yaml; allowed: bulletin-1',
    ],
    ["a publication that is not known", "publication: bulletin-1", "publication: letter", '3:14: publication: reference "letter" is not in references.yaml; allowed: bulletin-1'],
    ["bands that do not rise", "from: 200", "from: 90", "14:11: sections[1].tables[1].bands: must rise: the first band without from or above, each later one beginning higher"],
    ["a band with two beginnings", "from: 100", "from: 100, above: 90", "15:13: sections[1].tables[1].bands[2]: has both from and above; keep one"],
    ["rows that do not fall", "[6.4, 1.5, 2.0]", "[6.9, 1.5, 2.0]", "29:9: sections[2].rows[2]: must have a lower buffer pH than the row before"],
    ["a row too short", "[6.4, 1.5, 2.0]", "[6.4, 1.5]", "29:9: sections[2].rows[2]: has 2 numbers; must have the buffer pH and 2 rates"],
    ["targets that do not rise", "[6.0, 6.5]", "[6.5, 6.0]", "26:14: sections[2].targets: must rise"],
    ["a kind of rule that is not known", "kind: bands", "kind: bnads", '9:11: sections[1].kind: the text "bnads" is not known; did you mean bands?'],
  ])("%s", (_, from, to, line) => {
    expect(linesAfter(guideline, from, to)).toEqual([`${guideline}:${line}`]);
  });

  it("that is broken is not also called unknown", () => {
    expect(farmFolder().write(guideline, "title: 1\n").lines().filter((l) => l.startsWith("farm.yaml"))).toEqual([]);
  });
});

describe("references.yaml", () => {
  it.each([
    ["a DOI that is none", "publisher: A publisher", "publisher: A publisher\n  doi: doi.org/10.1", "4:8: bulletin-1.doi: must be a DOI such as 10.1234/abcd"],
    ["no publisher", "  publisher: A publisher\n", "", "2:3: bulletin-1.publisher: is missing; must be text"],
  ])("%s", (_, from, to, line) => {
    expect(linesAfter(references, from, to)).toEqual([`${references}:${line}`]);
  });

  it("that is broken makes no reference unknown", () => {
    expect(farmFolder().write(references, "bulletin-1: [\n").lines()).toEqual([`${references}:2:1: file: a list opened with [ is not closed with ]`]);
  });
});

describe("an installed library", () => {
  it("serves a farm that holds no guideline of its own", () => {
    const { farm, problems } = farmFolder().remove("guidelines").remove(references).read({ library: farmFolder().path });
    expect(problems).toEqual([]);
    expect(farm?.guidelines[0]?.short).toBe("Small");
  });

  it("gives way to the farm's own pack of the same id", () => {
    const { farm } = farmFolder().change(guideline, "short: Small", "short: Mine").read({ library: farmFolder().path });
    expect(farm?.guidelines[0]?.short).toBe("Mine");
  });

  it("is named in messages, so that its files are not looked for in the farm", () => {
    const library = farmFolder().change(guideline, "publication: bulletin-1", "publication: letter").path;
    const lines = farmFolder().remove("guidelines").lines({ library });
    expect(lines).toEqual([`installed:${guideline}:3:14: publication: reference "letter" is not in references.yaml; allowed: bulletin-1`]);
  });

  it("is read once when it is the farm itself", () => {
    const farm = farmFolder();
    expect(farm.read({ library: farm.path }).farm?.files).toBe(Object.keys(tinyFarm).length);
  });
});
