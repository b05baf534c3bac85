import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { installation } from "../../../scripts/options.ts";
import { farmFolder, linesAfter } from "../../support/farmFolder.ts";
import { paths, tinyFarm } from "../../support/tinyFarm.ts";

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
      "remarks: [{ statement: So., source: { reference: letter }, evidence: read }]\nabout:",
      '6:50: remarks[1].source.reference: reference "letter" is not in references.yaml; allowed: bulletin-1',
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

  it("is read anew once its text is another, and told of each time it is read", () => {
    const farm = farmFolder();
    const bands = () => (farm.read().farm!.allGuidelines.get("small-guide")!.sections[0] as { tables: { bands: { from?: number }[] }[] }).tables[0]!.bands[1]!.from;
    expect([bands(), bands()]).toEqual([100, 100]);
    farm.change(guideline, "from: 100", "from: 110");
    expect(bands()).toBe(110);
    farm.change(guideline, "about: For tests only.", "about: For test #2");
    const told = farm.lines();
    expect(told).toEqual([expect.stringContaining(`${guideline}:6:8: about: warning: is read as "For test"`)]);
    expect(farm.lines()).toEqual(told);
  });

  it("is the farm's own where it lies in the farm's folder, which a reader is not shown without need", () =>
    expect(farmFolder().read({ library: join(installation, "content") }).farm!.ownGuidelines).toEqual(new Set(["small-guide"])));

  it("that is broken is not also called unknown", () => {
    expect(farmFolder().write(guideline, "title: 1\n").lines().filter((l) => l.startsWith("farm.yaml"))).toEqual([]);
  });
});

/** A second pack that extends the small one, with one section of its own. */
const own = (more = "extends: small-guide", section = "  - { id: potassium, kind: bands, analyte: K, limits: { method: mehlich3, unit: ppm }, tables: [{ bands: [{ name: little, position: below }, { name: much, position: above, from: 90 }], source: common-practice }] }\n") => `title: Ours
short: Ours
publication: bulletin-1
region: here
status: current
about: For tests only.
${more}
sections:
${section}`;

describe("a guideline that extends another", () => {
  it("takes its sections over in their order, with its own in place of those of the same id, and the rest after them", () => {
    const added = "  - { id: more, kind: cationSum, equivalents: { Ca: 200, Mg: 121, K: 390, Na: 230, source: common-practice }, acidity: [] }\n";
    const { farm, problems } = farmFolder().write("guidelines/ours.yaml", own()).write("guidelines/theirs.yaml", own("extends: ours", added)).read();
    expect(problems).toEqual([]);
    const [ours, theirs] = [farm!.allGuidelines.get("ours")!, farm!.allGuidelines.get("theirs")!];
    expect(ours.sections.map((s) => s.id)).toEqual(["potassium", "lime"]);
    expect(ours.sections[0]).toMatchObject({ tables: [{ bands: [{ name: "little" }, { name: "much" }] }] });
    expect(ours.inherited).toEqual({ from: new Map([["lime", "small-guide"]]), replaced: ["potassium"] });
    expect(theirs.sections.map((s) => s.id)).toEqual(["potassium", "lime", "more"]);
    expect(theirs.inherited).toEqual({ from: new Map([["potassium", "ours"], ["lime", "small-guide"]]), replaced: [] });
    expect([ours.title, ours.region]).toEqual(["Ours", "here"]);
  });

  it("keeps its environmental limit, unless it sets its own", () => {
    const limit = (above: number) => `environmentalLimits: [{ analyte: P, method: mehlich3, unit: ppm, above: ${above}, source: common-practice }]`;
    const { farm } = farmFolder()
      .write("guidelines/limited.yaml", own(limit(150)))
      .write("guidelines/silent.yaml", own("extends: limited"))
      .write("guidelines/stricter.yaml", own(`extends: limited\n${limit(100)}`))
      .read();
    expect(["limited", "silent", "stricter"].map((id) => farm!.allGuidelines.get(id)!.environmentalLimits?.[0]?.above)).toEqual([150, 150, 100]);
  });

  it.each([
    ["an id that is not known", own("extends: small-giude"), '7:10: extends: guideline "small-giude" is not known; did you mean small-guide?'],
    ["itself", own("extends: ours"), "7:10: extends: goes in a circle: ours extends ours"],
    ["another, with a section of another kind", own().replace("id: potassium", "id: lime"), '9:23: sections[1].kind: "lime" is of kind bufferTable in small-guide, so bands cannot stand in its place; give it another id or that kind'],
  ])("%s", (_, text, line) => expect(farmFolder().write("guidelines/ours.yaml", text).lines()).toEqual([`guidelines/ours.yaml:${line}`]));

  it("in a circle is told once", () => {
    const farm = farmFolder().write("guidelines/a.yaml", own("extends: b")).write("guidelines/b.yaml", own("extends: c")).write("guidelines/c.yaml", own("extends: a"));
    expect(farm.lines()).toEqual(["guidelines/c.yaml:7:10: extends: goes in a circle: a extends b extends c extends a"]);
  });

  it("that is broken is the only one told of", () => {
    const farm = farmFolder().write("guidelines/a.yaml", own("extends: b")).write("guidelines/b.yaml", "title: 1\n").change("farm.yaml", "[small-guide]", "[a]");
    expect(new Set(farm.lines().map((line) => line.split(":")[0]))).toEqual(new Set(["guidelines/b.yaml"]));
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

  it("lays superseded editions at hand, and uses none that a farm does not name; nor does a guideline in force take one over", () => {
    const { farm } = farmFolder().read({ library: join(installation, "content") });
    const all = [...farm!.allGuidelines.values()];
    const superseded = all.filter((g) => g.status === "superseded").map((g) => g.id);
    expect(superseded.length).toBeGreaterThan(5);
    expect([...farm!.usedGuidelines.keys()]).toEqual(["small-guide"]);
    for (const g of all.filter((each) => each.status === "current")) expect(superseded, g.id).not.toContain(g.extends);
  });

  it("is read once when it is the farm itself", () => {
    const farm = farmFolder();
    expect(farm.read({ library: farm.path }).farm?.files).toBe(Object.keys(tinyFarm).length);
  });
});
