import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { filesBelow } from "../../scripts/checkLinks.ts";
import { squareMeters } from "../../src/exchange/geometry.ts";
import { newField } from "../../src/records/starting/newRecordsField.ts";
import { mostZones } from "../../src/records/zones/zoneNames.ts";
import { ranApart, ranHere } from "../support/command.ts";
import type { FarmFolder } from "../support/farmFolder.ts";
import { farmFolder } from "../support/farmFolder.ts";
import { mergedFarm } from "../support/mergedFarm.ts";
import { paths, tinyFarm } from "../support/tinyFarm.ts";

const merge = ["north", "--end", "west,B", "--begin", "Long piece", "--since", "2025-11-20"];
const redraw = (farm: FarmFolder, ...args: string[]) => ranHere("redraw", [...args, "--content", farm.path]);
const textOf = (farm: FarmFolder, file: string): string => readFileSync(join(farm.path, file), "utf8");
const textsOf = (farm: FarmFolder): string[][] => filesBelow(farm.path).map((file) => [file, readFileSync(join(farm.path, file), "utf8")]);

// Two cells of 8.8 acres, 3.564 ha each (tests/scripts/zones.test.ts), that share their whole inner edge.
const shown = `North Field, from 2025-11-20 on
  ends    A   West end    8.8 acres
  ends    B   East end    8.8 acres
  begins  C   Long piece  17.6 acres
`;
const apart = "Keep West end and East end apart: they differ in potassium.\n";
const day = "The newest day in the records is 2025-11-01: until something of 2025-11-20 or later is recorded, pages show the old zones; --today 2025-11-20 shows the new ones.\n";
const unsampled = (names: string): string => `Nothing is advised for ${names} before ${names.includes(" and ") ? "they are" : "it is"} sampled: the day of the next sampling is a good one to begin.\n`;
const merged = tinyFarm[paths.field]!
  .replace("West end }", "West end, until: 2025-11-20 }")
  .replace("East end }\n", "East end, until: 2025-11-20 }\n  long-piece: { letter: C, name: Long piece, since: 2025-11-20, formerly: [west, east] }\n");

describe("npm run redraw", { timeout: 60_000 }, () => {
  it("shows a merger and writes nothing, then writes it into field.yaml and zones.geojson, and nowhere else", async () => {
    const farm = farmFolder();
    const before = textsOf(farm);
    const first = await redraw(farm, ...merge);
    expect(first).toMatchObject({ status: 0, stderr: "" });
    expect(first.stdout.replace(/^Keep .*\n/m, apart)).toBe(`${shown}${apart}${unsampled("Long piece")}${day}Nothing was written. The same command with --write writes it.\n`);
    expect(textsOf(farm)).toEqual(before);
    const { status, stdout, stderr } = await redraw(farm, ...merge, "--write");
    expect([status, stderr]).toEqual([0, ""]);
    expect(stdout).toMatch(/Written to 2 files: fields\/north\/field\.yaml, fields\/north\/zones\.geojson\.\n$/);
    expect(textOf(farm, paths.field)).toBe(merged);
    // What stood in the file stays to the letter; the new feature follows it.
    const [old, now] = [tinyFarm[paths.zones]!, textOf(farm, paths.zones)];
    expect(now.startsWith(old.slice(0, old.lastIndexOf("}", old.lastIndexOf("]")) + 1))).toBe(true);
    const changed = textsOf(farm).filter(([file, text]) => !before.some(([f, t]) => f === file && t === text));
    expect(changed.map(([file]) => file)).toEqual([paths.field, paths.zones].map((file) => expect.stringMatching(new RegExp(`${file}$`)) as string));
    expect(farm.lines({ today: "2025-11-20" })).toEqual([]);
    const [field] = farm.read({ today: "2025-11-20" }).farm!.fields;
    expect(field!.zones.map((z) => [z.id, z.soil.texture, field!.plan.find((p) => p.zones.includes(z.id))?.crop])).toEqual([["long-piece", "siltLoam", "corn"]]);
    const [west, east] = field!.formerZones;
    expect(field!.zones[0]!.squareMeters).toBeCloseTo(west!.squareMeters! + east!.squareMeters!, 3);
    expect(squareMeters(field!.zones[0]!.area!)).toBeCloseTo(71290, -1);
  });

  it("splits a zone, whose soil both new ones take over; their outlines are for npm run zones", async () => {
    const farm = farmFolder()
      .change(paths.field, "East end }\nplan:", "East end, soil: { cec: 9 } }\nplan:")
      .write(paths.zones, tinyFarm[paths.zones]!);
    const { status, stdout, stderr } = await redraw(farm, "North", "--end", "East end", "--begin", "Crest, Foot", "--since", "2025-11-20", "--write");
    expect([status, stdout]).toEqual([0, `North Field, from 2025-11-20 on
  ends    B   East end  8.8 acres
  begins  C   Crest
  begins  D   Foot
Crest and Foot have no outlines yet: npm run zones brings them in.
${unsampled("Crest and Foot")}${day}Written to 1 file: fields/north/field.yaml.
`]);
    expect(stderr).toMatch(/zones\.crest: warning: has no polygon[\s\S]*zones\.foot: warning: has no polygon/);
    expect(textOf(farm, paths.field)).toContain(`  east: { letter: B, name: East end, until: 2025-11-20, soil: { cec: 9 } }
  crest: { letter: C, name: Crest, since: 2025-11-20, formerly: [east], soil: { cec: 9 } }
  foot: { letter: D, name: Foot, since: 2025-11-20, formerly: [east], soil: { cec: 9 } }
`);
    expect(textOf(farm, paths.zones)).toBe(tinyFarm[paths.zones]);
  });

  it("draws one zone anew as one, of the same ground, in a file that begins with a mark", async () => {
    const farm = farmFolder().write(paths.field, `\ufeff${tinyFarm[paths.field]!}`);
    const { status, stdout } = await redraw(farm, "north", "--end", "A", "--begin", "Ψ", "--since", "2025-11-20", "--write");
    expect([status, stdout]).toEqual([0, expect.stringContaining("  begins  C   Ψ         8.8 acres\n")]);
    expect(textOf(farm, paths.field)).toContain("\ufeffname: North Field\n");
    const { zones, formerZones } = farm.read({ today: "2025-11-20" }).farm!.fields[0]!;
    expect(zones.map((z) => z.id)).toEqual(["east", "zone-c"]);
    expect(zones[1]!.area).toEqual(formerZones[0]!.area);
  });

  it("tells of what is newly doubtful, and not of what was before", async () => {
    const farm = farmFolder().change(paths.field, "season: 2026", "season: 2060").write("fields/south/field.yaml", tinyFarm[paths.field]!.replace(/plan:[^]*/, "")).write("fields/south/zones.geojson", tinyFarm[paths.zones]!.replace('"east"', '"west"').replace(/"west"/, '"east"'));
    farm.write("fields/south/field.yaml", "name: South\nzones:\n  west: { letter: A, name: West }\n  east: { letter: B, name: East }\n  far: { letter: C, name: Far }\n");
    expect(farm.lines()).toEqual([expect.stringContaining("35 years ahead"), expect.stringMatching(/^fields\/south\/field\.yaml:\d+:\d+: zones\.far: warning: has no polygon/)]);
    const { stderr } = await redraw(farm, "north", "--end", "B", "--begin", "Crest, Foot", "--since", "2025-11-20", "--write");
    expect(stderr.trimEnd().split("\n")).toEqual(["crest", "foot"].map((zone) => expect.stringMatching(new RegExp(`^fields/north/field\\.yaml:\\d+:\\d+: zones\\.${zone}: warning: has no polygon`)) as string));
  });

  it("gives no letter twice, and says where all are used up", async () => {
    const lettered = newField({ id: "north", name: "North", zones: Array.from({ length: mostZones }, (_, i) => `Cell ${i + 1}`), units: "us" }).text;
    const farm = farmFolder().remove("fields").write(paths.field, lettered);
    const args = ["north", "--end", "ZZ", "--begin", "Top", "--since", "2025-11-20"];
    expect(await redraw(farm, ...args)).toMatchObject({ status: 1, stderr: expect.stringMatching(/^fields\/north\/field\.yaml:\d+:\d+: zones: has used up all letters from A to ZZ\n\nNothing was written\.\n$/) as string });
    farm.write(paths.field, lettered.replace(/ {2}cell-702:[^]*?702\n/, ""));
    expect((await redraw(farm, ...args.with(2, "ZY"))).stdout).toContain("  begins  ZZ  Top\n");
  });

  it("draws two zones anew as two, and needs no map", async () => {
    const farm = farmFolder().remove(paths.zones);
    const { status, stdout } = await redraw(farm, "north", "--end", "A,B", "--begin", "Top,Foot", "--since", "2025-11-20", "--write");
    expect([status, stdout]).toEqual([0, `North Field, from 2025-11-20 on\n  ends    A   West end\n  ends    B   East end\n  begins  C   Top\n  begins  D   Foot\n${unsampled("Top and Foot")}${day}Written to 1 file: fields/north/field.yaml.\n`]);
    expect(farm.read({ today: "2025-11-20" }).farm!.fields[0]!.zones.map((z) => z.formerly)).toEqual([["west", "east"], ["west", "east"]]);
  });

  it("takes over the soil that is the same, and names what differs with the value that then holds", async () => {
    const farm = farmFolder()
      .change(paths.field, "  west: { letter: A, name: West end }\n  east: { letter: B, name: East end }", "  west: { letter: A, name: West end, soil: { texture: loam, cec: 9, organicMatter: 3, subsoilPh: 6 } }\n  east: { letter: B, name: East end, soil: { texture: loam, cec: 14, organicMatter: 3.2 } }");
    const { stdout } = await redraw(farm, ...merge, "--write");
    expect(stdout).toContain(`soil.cec differs (9 on West end and 14 on East end) and of the whole field, 14, holds: write in field.yaml what is so of the new zone.
soil.organicMatter differs (3 on West end and 3.2 on East end) and is left out: write in field.yaml what is so of the new zone.
soil.subsoilPh differs (6 on West end and not stated on East end) and is left out: write in field.yaml what is so of the new zone.
`);
    expect(textOf(farm, paths.field)).toContain("formerly: [west, east], soil: { texture: loam } }\n");
  });

  it("takes soil that one zone states as the whole field's for the same, and writes nothing of it", async () => {
    const farm = farmFolder().change(paths.field, "West end }", "West end, soil: { cec: 14 } }");
    expect((await redraw(farm, ...merge, "--write")).stdout).not.toContain("differs");
    expect(textOf(farm, paths.field)).toContain("formerly: [west, east] }\n");
  });

  it("lets a crop of the year go over up to 1 July, on which it is taken to stand", async () => {
    for (const [since, zone] of [["2026-07-01", "[long-piece]"], ["2026-07-02", "[west, east]"]] as const) {
      const farm = farmFolder().change(paths.field, "crop: corn", "crop: corn\n    zones: [west, east]");
      expect((await redraw(farm, ...merge.with(-1, since), "--write")).status).toBe(0);
      expect(textOf(farm, paths.field)).toContain(`zones: ${zone}\n`);
    }
  });

  it("speaks of the day only where it is still to come", async () => {
    expect((await redraw(farmFolder(), ...merge.with(-1, "2025-11-01"))).stdout).not.toContain("newest day");
    expect((await redraw(farmFolder(), ...merge.with(-1, "2025-11-02"))).stdout).toContain("newest day in the records is 2025-11-01");
  });

  it("says where zones do not meet, so that the new one is in pieces, and whether they had proved alike", async () => {
    const farm = farmFolder().change(paths.zones, "[[[-37.002, 44], [-37, 44], [-37, 44.002], [-37.002, 44.002], [-37.002, 44]]]", "[[[-37.001, 44], [-37, 44], [-37, 44.002], [-37.001, 44.002], [-37.001, 44]]]");
    const { stdout } = await redraw(farm, ...merge);
    expect(stdout).toContain("Long piece is in two pieces, since the outlines do not meet; npm run zones brings in one of its own.\n");
    expect(stdout).toMatch(/^(Keep West end and East end apart|Whether West end and East end may share a sample cannot be said)/m);
  });

  it("lets a plan for all of the old zones go over to the new one, and those of earlier harvests stand", async () => {
    const plan = (zones: string): string => `plan:\n  - { season: 2025, crop: corn, zones: [west] }\n  - season: 2026\n    zones: ${zones}\n    crop: corn`;
    const farm = farmFolder().change(paths.field, "plan:\n  - season: 2026\n    crop: corn", plan("[east, west]"));
    expect((await redraw(farm, ...merge, "--write")).status).toBe(0);
    expect(textOf(farm, paths.field)).toContain(plan("[long-piece]"));
  });

  it.each<[string, string[], (farm: FarmFolder) => FarmFolder, string | RegExp]>([
    ["a plan for one of the old zones alone", merge, (farm) => farm.change(paths.field, "    crop: corn", "    zones: [west]\n    crop: corn"), 'fields/north/field.yaml:8:12: plan[1].zones: is for zones that end on 2025-11-20, and not for zone "east", which ends with them; plan one crop for all of them, or take this entry out\n\nNothing was written.\n'],
    ["a name whose id is taken", ["north", "--end", "A,B", "--begin", "West", "--since", "2025-11-20"], (farm) => farm, 'fields/north/field.yaml:4:9: zones.west: is there already; a zone named "West" would have the same id, so give the new one another name\n\nNothing was written.\n'],
    ["a name given twice", ["north", "--end", "A", "--begin", "Top, top", "--since", "2025-11-20"], (farm) => farm, /zones\.top: is there already; a zone named "top" would have the same id/],
    ["a record of a later day that names an old zone", merge, (farm) => farm.write("fields/north/samplings/2025-11-24.yaml", tinyFarm["fields/north/samplings/2024-10-14.yaml"]!.replace("2024-10-14", "2025-11-24").replaceAll('"00', '"10')), /2025-11-24\.yaml:\d+:\d+: composites\[1\]\.zone: zone "west" is no zone any more since 2025-11-20[\s\S]*Nothing was written\. Lines are counted with the change in place\.\n$/],
    ["a zone there is not", ["north", "--end", "wset", "--begin", "Top", "--since", "2025-11-20"], (farm) => farm, '"wset" is no zone of field "north"; did you mean west?\n'],
    ["a zone named twice", ["north", "--end", "A, west", "--begin", "Top", "--since", "2025-11-20"], (farm) => farm, '--end names zone "west" twice; name it once\n'],
    ["a field there is not", ["nroth", "--end", "A", "--begin", "Top", "--since", "2025-11-20"], (farm) => farm, 'there is no field "nroth"; did you mean north?\n'],
    ["two fields", ["north", "south", "--end", "A", "--begin", "Top", "--since", "2025-11-20"], (farm) => farm, "give one field, by the name of its folder, not 2\n"],
    ["no field", ["--end", "A", "--begin", "Top", "--since", "2025-11-20"], (farm) => farm, "give one field, by the name of its folder\n"],
    ["no day", ["north", "--end", "A", "--begin", "Top"], (farm) => farm, "--since is missing; give the day on which the old zones end and the new ones begin\n"],
    ["no calendar day", ["north", "--end", "A", "--begin", "Top", "--since", "2025-11-31"], (farm) => farm, '--since must be a calendar day written YYYY-MM-DD, not "2025-11-31"\n'],
    ["an empty name", ["north", "--end", "A,", "--begin", "Top", "--since", "2025-11-20"], (farm) => farm, '--end needs names with commas between, such as "A, B"\n'],
    ["no new zone", ["north", "--end", "A", "--since", "2025-11-20"], (farm) => farm, '--begin needs names with commas between, such as "Long piece"\n'],
    ["a day before a zone began", ["north", "--end", "B", "--begin", "Top", "--since", "2025-11-20"], (farm) => farm.change(paths.field, "name: East end }", "name: East end, since: 2025-11-20 }").remove("fields/north/samplings").remove("fields/north/seasons"), 'zone "east" is a zone only since 2025-11-20; --since must be a later day, not 2025-11-20\n'],
  ])("refuses %s, and leaves every file as it was", async (_, args, spoilt, told) => {
    const farm = spoilt(farmFolder());
    const before = textsOf(farm);
    const { status, stderr } = await redraw(farm, ...args, "--write");
    expect(status).toBe(1);
    if (typeof told === "string") expect(stderr).toBe(told);
    else expect(stderr).toMatch(told);
    expect(textsOf(farm)).toEqual(before);
  });

  it("refuses a zone that ends already, also before its day", async () => {
    const farm = farmFolder().write(paths.field, merged);
    const again = ["north", "--end", "West end", "--begin", "Top", "--since", "2026-11-20"];
    expect(await redraw(farm, ...again)).toMatchObject({ status: 1, stderr: 'zone "west" ends on 2025-11-20 already; allowed: long-piece\n' });
    expect((await redraw(farm, ...again.with(2, "C"))).stdout).toContain("  ends    C   Long piece\n  begins  D   Top\n");
    expect(await redraw(mergedFarm(), ...again)).toMatchObject({ status: 1, stderr: 'zone "west" ends on 2023-10-01 already; allowed: long\n' });
  });

  it("runs as a person starts it", () => {
    const farm = farmFolder();
    expect(ranApart("redraw", [...merge, "--content", farm.path])).toMatchObject({ status: 0, stderr: "" });
  });
});
