import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { describe, expect, it } from "vitest";
import { installation } from "../../scripts/options.ts";
import { filesBelow } from "../../scripts/checkLinks.ts";
import { ranApart, ranOn } from "../support/command.ts";
import { FarmFolder, farmFolder, temporaryFolder } from "../support/farmFolder.ts";
import { mergedFarm, soonMergedFarm } from "../support/mergedFarm.ts";
import { allSwitchedOn, make } from "../support/newRecord.ts";

const library = join(installation, "content");

const farmArgs = ["farm", "--name", "Tern's Farm: west", "--units", "us", "--currency", "USD", "--guidelines", "us-tristate-974-2020, us-oregon-lime-2025", "--lab", "Petrel Laboratory", "--extractant", "mehlich3", "--field", "Low Meadow", "--zones", "Knoll, Böschung, Ψ"];
const samplingArgs = ["sampling", "--field", "north", "--date", "2026-10-01"];

describe("npm run new", { timeout: 120_000 }, () => {
  it("makes a farm that checks without a word, and with every optional line", () => {
    const folder = join(temporaryFolder(), "farm");
    expect(ranApart("new", [...farmArgs, "--content", folder])).toEqual({
      status: 0,
      stderr: "",
      stdout: "Written: farm.yaml\nWritten: labs/petrel-laboratory.yaml\nWritten: fields/low-meadow/field.yaml\nRead the comments in each file, draw the zones with `npm run zones`, and run `npm run check`.\n",
    });
    const { farm, problems } = new FarmFolder(folder).read({ library });
    expect(problems).toEqual([]);
    expect(farm!.name).toBe("Tern's Farm: west");
    expect(farm!.fields[0]!.zones.map((z) => [z.id, z.letter, z.name])).toEqual([["knoll", "A", "Knoll"], ["boschung", "B", "Böschung"], ["zone-c", "C", "Ψ"]]);
    expect(allSwitchedOn(folder).lines({ library })).toEqual([]);
  });

  it("makes a farm that builds, before and while its first results are awaited", { timeout: 300_000 }, async () => {
    const folder = join(temporaryFolder(), "farm");
    const out = join(temporaryFolder(), "site");
    const build = () => ranOn("build", ["--content", folder, "--out", out]);
    await make(folder, farmArgs);
    expect(await build()).toMatchObject({ status: 0, stderr: "" });
    expect(await make(folder, ["sampling", "--field", "low-meadow", "--date", "2026-10-01", "--package", "routine", "--depth", "0-8 in"])).toMatchObject({ status: 0, stderr: "" });
    expect(await build()).toMatchObject({ status: 0, stderr: "" });
    expect(readFileSync(join(out, "fields", "low-meadow.html"), "utf8")).toContain("Results are awaited. Three bags of 1 October 2026 are at Petrel Laboratory.");
  });

  it.each([
    ["metric", "ca-ontario-pub811", "olsen"],
    ["garden", "us-tristate-e2567-1995", "bray1"],
  ])("makes a farm in %s units whose every line is sound", async (units, guideline, extractant) => {
    const folder = join(temporaryFolder(), "farm");
    const known = readdirSync(join(library, "guidelines")).map((name) => name.replace(".yaml", ""));
    const chosen = known.find((id) => id.startsWith(guideline)) ?? known[0]!;
    const args = farmArgs.map((a) => (a === "us" ? units : a === "mehlich3" ? extractant : a.includes("us-oregon") ? chosen : a));
    expect((await make(folder, args)).status).toBe(0);
    expect(allSwitchedOn(folder).lines({ library })).toEqual([]);
    // Manure is asked for as the laboratories of the country print it.
    expect(/^ *manure: .*(?<solid>perTon\w*).*\n *slurry: .*(?<liquid>per[CT][uh]\w+)/m.exec(readFileSync(join(folder, "farm.yaml"), "utf8"))?.groups).toEqual(
      units === "metric" ? { solid: "perTonne", liquid: "perCubicMeter" } : { solid: "perTon", liquid: "perThousandGal" },
    );
  });

  // As each guideline's own limits say; an extractant that is given is the laboratory's, and is never changed.
  it.each<[string, string | undefined, Readonly<Record<string, string>>]>([
    ["ie-teagasc", undefined, { pH: "water1to2 pH", P: "morgan mg/l", K: "morgan mg/l", nitrateN: "potassiumChloride ppm" }],
    ["uk-rb209-2010", undefined, { pH: "water1to2half pH", P: "olsen mg/l", K: "ammoniumNitrate mg/l" }],
    ["us-oregon-lime-2025, ca-ontario-pub811", undefined, { pH: "water1to1 pH", bufferPh: "sikora pH", P: "olsen ppm", K: "ammoniumAcetate ppm" }],
    ["us-northcarolina-circular1-2014", undefined, { bufferPh: "mehlichBuffer pH", P: "mehlich3 icp index", K: "mehlich3 icp index" }],
    ["us-connecticut-agronomic", undefined, { P: "modifiedMorgan lb/ac", K: "modifiedMorgan lb/ac" }],
    ["us-iowa-pm1688-2013", undefined, { P: "bray1 ppm", K: "ammoniumAcetate ppm" }],
    ["us-iowa-pm1688-2013", "mehlich3", { P: "mehlich3 icp ppm", K: "mehlich3 icp ppm" }],
    ["us-kansas-mf2586-2003", "mehlich3", { P: "mehlich3 colorimetric ppm", K: "mehlich3 icp ppm" }],
    // It reads phosphorus for a limit alone; German laboratories measure pH in calcium chloride (common practice).
    ["de-ordinance-2017", undefined, { pH: "calciumChloride pH", P: "calciumAcetateLactate ppm", K: "calciumAcetateLactate ppm", mineralN: "calciumChlorideNitrogen kg/ha" }],
    ["uk-rb209-2023", undefined, { pH: "water1to2half pH", P: "olsen mg/l", K: "ammoniumNitrate mg/l", mineralN: "potassiumChloride kg/ha" }],
    ["pl-iung-lime", "double lactate", { pH: "potassiumChloridePh pH", P: "doubleLactate ppm", K: "doubleLactate ppm" }],
    ["us-wisconsin-a2809", undefined, { P: "bray1 ppm", K: "bray1 ppm" }],
    ["ie-teagasc", "mehlich3", { pH: "water1to2 pH", P: "mehlich3 icp ppm", K: "mehlich3 icp ppm" }],
    ["us-oregon-lime-2025", "bray1", { P: "bray1 ppm", K: "ammoniumAcetate ppm" }],
  ])("writes the laboratory as %s reads it, extractant %s", async (guidelines, extractant, expected) => {
    const folder = join(temporaryFolder(), "farm");
    const at = farmArgs.indexOf("--extractant");
    const args = [...farmArgs.slice(0, at), ...(extractant === undefined ? [] : ["--extractant", extractant]), ...farmArgs.slice(at + 2)].map((a) => (a.includes("us-tristate") ? guidelines : a));
    const { status, stderr } = await make(folder, args);
    expect(status).toBe(0);
    expect(stderr.includes("warning: no chosen guideline reads phosphorus by Mehlich-3 (ICP) in ppm, so nothing is advised by it; Teagasc")).toBe(guidelines === "ie-teagasc" && extractant === "mehlich3");
    const { packages } = allSwitchedOn(folder).read({ library }).farm!.labs.get("petrel-laboratory")!;
    const said = Object.fromEntries(Object.values(packages).flatMap(({ measures }) => Object.entries(measures).map(([analyte, { method, finish, unit }]) => [analyte, [method, finish, unit].filter(Boolean).join(" ")])));
    expect(said).toMatchObject(expected);
  });

  it("samples a new farm's first field as deep as its guideline reads", async () => {
    const folder = join(temporaryFolder(), "farm");
    await make(folder, farmArgs.map((a) => (a.includes("us-tristate") ? "ie-teagasc" : a)));
    expect(await make(folder, ["sampling", "--field", "low-meadow", "--date", "2026-10-01"])).toMatchObject({ status: 0 });
    expect(new FarmFolder(folder).read({ library }).farm!.fields[0]!.samplings[0]!.depth).toEqual({ from: 0, to: 10, unit: "cm" });
  });

  it("makes a sampling with a labeled bag for each zone, a field and a season, all sound with every line", async () => {
    const farm = farmFolder();
    expect(await make(farm.path, [...samplingArgs, "--bags", "2"])).toMatchObject({ status: 0, stderr: "" });
    expect(await make(farm.path, [...samplingArgs, "--bags", "1", "--purpose", "nitrate", "--lab", "north-lab", "--depth", "0-12 in"])).toMatchObject({ status: 0, stderr: "" });
    expect(await make(farm.path, ["field", "--name", "Nord-Feld"])).toMatchObject({ status: 0, stderr: "" });
    expect(await make(farm.path, ["season", "--field", "nord-feld", "--year", "2026", "--crop", "corn"])).toMatchObject({ status: 0, stderr: "" });
    const { farm: read, problems } = farm.read();
    expect(problems).toEqual([]);
    const field = read!.fields.find((f) => f.id === "north")!;
    const [nitrate, routine] = field.samplings.filter((s) => s.date === "2026-10-01").sort((a, b) => (a.purpose < b.purpose ? -1 : 1));
    // Laboratory, package and depth are those of the sampling before.
    expect([routine!.lab.id, routine!.packageId, routine!.depth.to]).toEqual(["north-lab", "basic", 8]);
    expect(routine!.composites.map((c) => [c.label, c.zone, c.measurements.length])).toEqual([["NO-A-2610-1", "west", 0], ["NO-A-2610-2", "west", 0], ["NO-B-2610-1", "east", 0], ["NO-B-2610-2", "east", 0]]);
    expect(nitrate!.id).toBe("2026-10-01-nitrate");
    const labels = field.samplings.flatMap((s) => s.composites.map((c) => c.label));
    expect(new Set(labels).size).toBe(labels.length);
    for (const label of labels) expect(label).toMatch(/^[A-Z0-9][A-Z0-9-]*$/);
    expect(allSwitchedOn(farm.path).lines()).toEqual([]);
  });

  it("comments on a nitrate sampling what the field's guidelines read: the crop's height in June, or the sum of the layers in spring", async () => {
    const text = async (guideline: string, purpose: string): Promise<string> => {
      const farm = farmFolder().change("farm.yaml", "[small-guide]", `[${guideline}]`);
      farm.write("farm.yaml", readFileSync(join(farm.path, "farm.yaml"), "utf8").replace("units: us", "units: metric"));
      expect(await make(farm.path, [...samplingArgs, "--purpose", purpose, "--depth", "0-90 cm"])).toMatchObject({ status: 0 });
      const [made] = filesBelow(farm.path).filter((f) => f.includes("2026-10-01"));
      return readFileSync(join(farm.path, made!), "utf8");
    };
    const spring = await text("small-guide, de-ordinance-2017", "nitrate");
    expect(spring).toContain("# Mineral nitrogen is one result for each zone: the sum of all layers in kg/ha.");
    expect(spring).toContain("# results: { mineralN: 42 }");
    expect(spring).toContain('tool: "tube probe, 2 cm", moisture: moist, keeping: chilled');
    expect(spring).not.toContain("cropHeight");
    expect(spring).not.toContain("shoots");
    expect(await text("uk-rb209-2023", "nitrate")).toContain("#nitrate: { shoots: 900 }");
    const june = await text("small-guide, us-iowa-nitrate", "nitrate");
    expect(june).toContain("#nitrate: { cropHeight: { value: 25, unit: cm }");
    expect(june).not.toContain("Mineral nitrogen");
    expect(await text("small-guide, de-ordinance-2017", "routine")).not.toContain("Mineral nitrogen");
  });

  it("makes bags and a season of the zones of their own day, before zones were merged and on the eve of it", async () => {
    const on = async (farm: FarmFolder, date: string) => {
      expect(await make(farm.path, ["sampling", "--field", "north", "--date", date])).toMatchObject({ status: 0, stderr: "" });
      return farm.read().farm!.fields[0]!.samplings.find((s) => s.date === date)!.composites.map((c) => c.zone);
    };
    expect(await on(mergedFarm(), "2020-10-10")).toEqual(["west", "east", "strip"]);
    expect(await on(soonMergedFarm(), "2025-10-10")).toEqual(["long"]);
    const farm = mergedFarm();
    expect(await make(farm.path, ["season", "--field", "north", "--year", "2020", "--crop", "corn"])).toMatchObject({ status: 0, stderr: "" });
    expect(readFileSync(join(farm.path, "fields/north/seasons/2020.yaml"), "utf8")).toContain("zones: of west, east, strip; left out, the whole field.");
  });

  it("names the schema that an editor completes from, as the demo farm does", async () => {
    const farm = farmFolder();
    await make(farm.path, samplingArgs);
    const path = join(farm.path, "fields/north/samplings/2026-10-01.yaml");
    const [, way] = /^# yaml-language-server: \$schema=(\S+)\n/.exec(readFileSync(path, "utf8"))!;
    expect(resolve(path, "..", way!)).toBe(join(installation, ".vscode/schemas/sampling.json"));
    expect(existsSync(resolve(path, "..", way!))).toBe(true);
  });

  it("never overwrites, and takes nothing away", async () => {
    const farm = farmFolder();
    expect((await make(farm.path, samplingArgs)).status).toBe(0);
    const path = join(farm.path, "fields/north/samplings/2026-10-01.yaml");
    writeFileSync(path, readFileSync(path, "utf8").replace("results: {}", "results: { pH: 6.4 }"));
    const kept = readFileSync(path, "utf8");
    expect(await make(farm.path, samplingArgs)).toEqual({ status: 1, stdout: "", stderr: "fields/north/samplings/2026-10-01.yaml is there already and is never overwritten\n" });
    expect(readFileSync(path, "utf8")).toBe(kept);
    expect(await make(farm.path, farmArgs)).toEqual({ status: 1, stdout: "", stderr: "the folder holds other files already; give a new one with --content\n" });
  });

  it("makes a farm beside a README and a repository's own folder", async () => {
    const folder = temporaryFolder();
    mkdirSync(join(folder, ".git"));
    writeFileSync(join(folder, "README.md"), "mine");
    expect((await make(folder, farmArgs)).status).toBe(0);
    expect(readFileSync(join(folder, "README.md"), "utf8")).toBe("mine");
  });

  it("makes a farm beside guidelines of its own, and chooses one; a mistake in them is told where it stands", async () => {
    const own = `title: Our advice
short: Our adviser
publication: letter
region: this farm
status: current
about: As IUNG, sampled every four years.
extends: pl-iung-lime
sections:
  - { id: how-often, kind: samplingSpec, purpose: routine, years: [{ most: 4, source: { reference: letter }, evidence: read }] }
`;
    const args = farmArgs.map((a) => (a.includes("us-tristate") ? "our-adviser" : a));
    const farm = new FarmFolder(temporaryFolder()).write("references.yaml", "letter: { title: Letter, publisher: the adviser, year: 2025 }\n").write("guidelines/our-adviser.yaml", own.replace("purpose:", "porpose:"));
    expect((await make(farm.path, args)).stderr).toMatch(/^guidelines\/our-adviser\.yaml:9:\d+: sections\[1\]\.porpose: is not a key known here; did you mean purpose\?\n[^]*Put this right first; nothing was written\.\n$/);
    expect(filesBelow(farm.path)).toHaveLength(2);
    farm.write("guidelines/our-adviser.yaml", own);
    expect(await make(farm.path, args)).toMatchObject({ status: 0, stderr: expect.not.stringContaining("error") as unknown });
    expect(farm.read({ library }).farm!.guidelines.map((g) => g.id)).toEqual(["our-adviser"]);
  });

  it("takes answers in any case, and with blanks or hyphens of their own", async () => {
    const folder = join(temporaryFolder(), "farm");
    const loose: Readonly<Record<string, string>> = { farm: "Farm", us: "US", USD: " usd", mehlich3: "Mehlich-3", "us-tristate-974-2020, us-oregon-lime-2025": "US-Tristate-974-2020 , us oregon lime 2025" };
    expect(await make(folder, farmArgs.map((a) => loose[a] ?? a))).toMatchObject({ status: 0, stderr: "" });
    const { farm: made } = new FarmFolder(folder).read({ library });
    expect([made!.units, made!.currency, made!.guidelines.map((g) => g.id), made!.labs.get("petrel-laboratory")!.packages["routine"]!.measures.P!.method]).toEqual(["us", "USD", ["us-tristate-974-2020", "us-oregon-lime-2025"], "mehlich3"]);

    const farm = farmFolder();
    expect(await make(farm.path, ["sampling", "--field", "North", "--date", "2026-10-01", "--purpose", "PH check", "--lab", "North Lab", "--package", "BASIC", "--depth", "0–8 IN"])).toMatchObject({ status: 0, stderr: "" });
    expect(await make(farm.path, ["season", "--field", "NORTH", "--year", "2026", "--crop", "Winter wheat"])).toMatchObject({ status: 0, stderr: "" });
    const [field] = farm.read().farm!.fields;
    const event = field!.samplings.find((s) => s.date === "2026-10-01")!;
    expect([event.purpose, event.lab.id, event.packageId, event.depth]).toEqual(["phCheck", "north-lab", "basic", { from: 0, to: 8, unit: "in" }]);
    expect(field!.seasons.find((s) => s.season === 2026)!.crops[0]!.crop).toBe("winterWheat");
  });

  it("says what is missing where nobody can be asked", async () => {
    const folder = join(temporaryFolder(), "farm");
    const { status, stderr } = await make(folder, farmArgs.slice(0, 5));
    expect(status).toBe(1);
    expect(stderr).toMatch(/^missing: --currency \(currency, three letters such as USD\); --guidelines \(.*; --lab \(.*; --extractant \(.*; --field \(the first field's name\)\n$/);
    expect(existsSync(folder)).toBe(false);
  });

  it("tells all that is wrong or missing in one go", async () => {
    const farm = farmFolder();
    const told = async (...args: string[]): Promise<string[]> => (await make(farm.path, args)).stderr.trimEnd().split("\n");
    expect(await told("sampling", "--feild", "north", "--depth", "0-8", "--bags", "0", "--lab", "north-lb")).toEqual([
      "--feild: is no option of sampling; did you mean --field?",
      '--lab: "north-lb" is not known here; did you mean north-lab?',
      '--depth: must be written like 0-8 in or 0-15 cm, not "0-8"',
      '--bags: must be a number from 1 to 9, not "0"',
      "missing: --date (the day of sampling, YYYY-MM-DD)",
    ]);
    // With the field known, what its last sampling does not answer is told beside the rest; the depth of a first nitrate test is common practice.
    expect(await told("sampling", "--field", "north", "--purpose", "nitrate", "--package", "bsic")).toEqual(['--package: "bsic" is not known here; did you mean basic?', "missing: --date (the day of sampling, YYYY-MM-DD)"]);
    expect(await told("season", "--field", "nroth", "--crop", "cron")).toEqual(['--field: "nroth" is not known here; did you mean north?', '--crop: "cron" is not known here; did you mean corn?', "missing: --year (which year)"]);
    expect((await told("farm", "--units", "metrc", "--color"))[0]).toContain("other files");
    expect(filesBelow(farm.path)).toEqual(filesBelow(farmFolder().path));
  });

  it.each<[string, readonly string[], string]>([
    ["nothing to make", [], "say what to make, first of all: allowed: farm, field, sampling, season\n"],
    ["an option before what to make", ["--field", "north"], "say what to make, first of all: allowed: farm, field, sampling, season\n"],
    ["a slip in what to make", ["feild"], "say what to make, first of all: did you mean field?\n"],
    ["a field that is not there", ["sampling", "--field", "nroth", "--date", "2026-10-01"], '--field: "nroth" is not known here; did you mean north?\n'],
    ["a day that is none", ["sampling", "--field", "north", "--date", "2026-02-30"], '--date: must be a calendar day written YYYY-MM-DD, not "2026-02-30"\n'],
    ["a depth without its unit", [...samplingArgs, "--depth", "0-8"], '--depth: must be written like 0-8 in or 0-15 cm, not "0-8"\n'],
    ["a depth upside down", [...samplingArgs, "--depth", "8-0 in"], '--depth: must be written like 0-8 in or 0-15 cm, not "8-0 in"\n'],
    ["a crop with a slip", ["season", "--field", "north", "--year", "2026", "--crop", "cron"], '--crop: "cron" is not known here; did you mean corn?\n'],
    ["a crop with a slip and in capitals", ["season", "--field", "north", "--year", "2026", "--crop", "WINTER WHAET"], '--crop: "WINTER WHAET" is not known here; did you mean winterWheat?\n'],
    ["a name of a field that is there", ["field", "--name", "North"], "--name: gives the id north, which another field has\n"],
    ["a name without a letter for its folder", ["field", "--name", "../.."], "--name: needs a Latin letter or a digit, for the names of files\n"],
    ["two zones of one name", ["field", "--name", "South", "--zones", "Knoll, knoll"], "--zones: gives two zones the id knoll\n"],
    ["a name of blanks", ["field", "--name", "  "], "--name: must be one line of 1 to 400 characters\n"],
    ["a name of two lines", ["field", "--name", "South\nfield"], "--name: must be one line of 1 to 400 characters\n"],
    ["an option of another kind", ["field", "--crop", "corn"], "--crop: is no option of field; allowed: --name, --zones, --content\nmissing: --name (the field's name)\n"],
  ])("is told about %s in one line, with nothing written", async (_, args, message) => {
    const farm = farmFolder();
    const before = filesBelow(farm.path);
    expect(await make(farm.path, args)).toEqual({ status: 1, stdout: "", stderr: message });
    expect(filesBelow(farm.path)).toEqual(before);
  });

  it("adds nothing to a farm with mistakes", async () => {
    const farm = farmFolder().write("fields/north/seasons/2025.yaml", "{");
    const { status, stderr } = await make(farm.path, samplingArgs);
    expect(status).toBe(1);
    expect(stderr).toMatch(/^fields\/north\/seasons\/2025\.yaml:1:\d+: .*\nPut this right first; nothing was written\.\n$/);
  });

  it("letters as many zones as there are letters and pairs of them, and no more", async () => {
    const farm = farmFolder();
    const cells = (many: number): string => Array.from({ length: many }, (_, i) => `Cell ${i + 1}`).join(", ");
    expect(await make(farm.path, ["field", "--name", "Grid", "--zones", cells(702)])).toMatchObject({ status: 0 });
    const letters = [...readFileSync(join(farm.path, "fields/grid/field.yaml"), "utf8").matchAll(/letter: ([A-Z]+)$/gm)].map(([, letter]) => letter);
    expect([letters.length, new Set(letters).size, letters[25], letters[26], letters.at(-1)]).toEqual([702, 702, "Z", "AA", "ZZ"]);
    expect(await make(farm.path, ["field", "--name", "Finer", "--zones", cells(703)])).toEqual({ status: 1, stdout: "", stderr: "--zones: names more than 702 zones, and each needs a letter of its own, A to ZZ\n" });
  });

  it("makes the first field of a farm that has none yet", async () => {
    const farm = farmFolder().remove("fields/north");
    expect(await make(farm.path, ["field", "--name", "South"])).toMatchObject({ status: 0, stderr: "" });
    expect(farm.lines()).toEqual([]);
  });

  it("explains itself", async () => {
    const { status, stdout } = await make(temporaryFolder(), ["--help"]);
    expect(status).toBe(0);
    for (const kind of ["farm", "field", "sampling", "season"]) expect(stdout).toMatch(new RegExp(`^${kind} `, "m"));
  });
});
