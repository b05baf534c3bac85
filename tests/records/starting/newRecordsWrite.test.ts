import { describe, expect, it } from "vitest";
import { filesBelow } from "../../../scripts/checkLinks.ts";
import { scalar } from "../../../src/records/starting/newRecordsText.ts";
import { withOptions } from "../../support/newRecord.ts";
import type { NewFile } from "../../../src/records/starting/newRecordsText.ts";
import { writeNew } from "../../../src/records/starting/newRecordsWrite.ts";
import { readFast } from "../../../src/records/yaml/fastYaml.ts";
import { farmFolder } from "../../support/farmFolder.ts";

const season = (text: string, name = "2026"): NewFile => ({ path: `fields/north/seasons/${name}.yaml`, schema: "season", text });
const field = (text: string): NewFile => ({ path: "fields/south/field.yaml", schema: "field", text });

describe("a new record", () => {
  it("that is sound is written", () => {
    const farm = farmFolder();
    expect(writeNew([season("season: 2026\n")], farm.path, "")).toEqual({ problems: [] });
    expect(farm.read().farm!.fields[0]!.seasons).toHaveLength(2);
  });

  it.each([
    ["one that is wrong itself", [field("name: South\n")], "fields/south/field.yaml:1:1: zones: is missing; must be a block of keys\nNothing was written."],
    ["the sound one beside a wrong one", [season("season: 2026\n"), field("name: [\n")], undefined],
    ["the first where the second is there already", [field("name: South\nzones: { all: { letter: A, name: All } }\n"), season("season: 2025\n", "2025")], "fields/north/seasons/2025.yaml is there already and is never overwritten"],
  ])("takes back %s, with the folders made for it", (_, files, why) => {
    const farm = farmFolder();
    const before = filesBelow(farm.path);
    const { refused } = writeNew(files, farm.path, "");
    if (why === undefined) expect(refused).toMatch(/^fields\/south\/field\.yaml:.*\nNothing was written\.$/);
    else expect(refused).toBe(why);
    expect(filesBelow(farm.path)).toEqual(before);
    expect(farm.lines()).toEqual([]);
  });

  it("is no worse for a mistake in another file", () => {
    const farm = farmFolder().write("fields/north/seasons/2025.yaml", "{");
    expect(writeNew([season("season: 2026\n")], farm.path, "").refused).toBeUndefined();
  });
});

describe("the words of a person", () => {
  it.each([["yes"], ["012"], ["a: b"], ["# x"], ["[x"], ["'"], ['"'], [" \u00fc "], ["- x"], ["null"], ["x".repeat(390) + " y"], ["{ }"], ["2026-01-01"], ["*x"], ["!x"], ["@x"]])("%s stand in YAML as they are", (words) => {
    const line = `name: ${scalar(words)}\n`;
    expect(line.split("\n")).toHaveLength(2);
    expect(readFast(line)).toMatchObject({ value: { name: words } });
  });

  it("switch optional lines on and leave explanations alone", () => expect(withOptions("# Words.\n#note: x\n  #soil: y\n#  - z\n")).toBe("# Words.\nnote: x\n  soil: y\n  - z\n"));
});
