import { spawnSync } from "node:child_process";
import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { installation } from "../../scripts/options.ts";
import { bothGeoJson, bothGpx, bothKml, east, feature, geoJson, gpx, route, shapefile, track, west } from "../support/boundaryFiles.ts";
import { ranApart, ranHere } from "../support/command.ts";
import type { FarmFolder } from "../support/farmFolder.ts";
import { farmFolder, temporaryFolder } from "../support/farmFolder.ts";
import { mergedFarm } from "../support/mergedFarm.ts";
import { paths } from "../support/tinyFarm.ts";

/** Run the command on a file outside the farm, as a person would. */
const zones = (farm: FarmFolder, name: string, content: string | Uint8Array, args: readonly string[] = ["--field", "north"]) => {
  const folder = temporaryFolder();
  writeFileSync(join(folder, name), content);
  return ranHere("zones", [name, ...args, "--content", farm.path], { from: folder });
};
const drawn = (farm: FarmFolder): string => readFileSync(join(farm.path, paths.zones), "utf8");
const withoutZones = (): FarmFolder => farmFolder().remove(paths.zones);

// A cell of 0.002 degrees at 44 degrees on the ellipsoid: 160.4 m by 222.2 m, 3.56 ha, 8.8 acres (80.21 and 111.11 km a degree).
const shown = `North Field, 17.6 acres in all
  A  West end  8.8 acres
  B  East end  8.8 acres
`;

describe("npm run zones", { timeout: 60_000 }, () => {
  it.each([
    ["a.geojson", bothGeoJson, ""],
    ["a.kml", bothKml, "Heights are left out.\n"],
    ["a.gpx", bothGpx, ""],
    ["a.zip", shapefile(), ""],
  ])("shows the areas of %s and writes nothing, then writes it whole", async (name, content, notes) => {
    const farm = withoutZones();
    expect(await zones(farm, name, content)).toEqual({ status: 0, stderr: "", stdout: `${shown}${notes}Nothing was written. With --write this becomes fields/north/zones.geojson.\n` });
    expect(existsSync(join(farm.path, paths.zones))).toBe(false);
    expect(await zones(farm, name, content, ["--field", "north", "--write"])).toEqual({ status: 0, stderr: "", stdout: `${shown}${notes}Written to fields/north/zones.geojson.\n` });
    expect(farm.lines()).toEqual([]);
    expect(farm.read().farm!.fields[0]!.zones.map((z) => z.area?.coordinates)).toEqual([[west], [east]]);
    expect(readdirSync(join(farm.path, "fields/north"))).not.toContainEqual(expect.stringMatching(/unfinished/));
  });

  // Unicode Standard Annex 15: ö may be one character or an o and two dots; programs on a Mac write the latter.
  it("knows a name again whose letters are put together otherwise", async () => {
    const farm = withoutZones().change(paths.field, "West end", "B\u00f6schung");
    const { status, stdout } = await zones(farm, "a.geojson", geoJson(feature({ name: "Bo\u0308schung" }, west)));
    expect([status, stdout]).toEqual([0, expect.stringContaining("A  Böschung  8.8 acres")]);
  });

  it("speaks the field's units", async () => {
    const farm = withoutZones().change("farm.yaml", "units: us", "units: metric");
    expect((await zones(farm, "a.gpx", gpx(track("west", [...west.slice(0, -1), [-37.004, 44.0001]])))).stdout).toBe(`North Field, 3.6 ha in all
  A  West end  3.6 ha
  B  East end  no polygon, neither in the file nor before
The boundary of "west" was open by 11.1 m and is closed.
Nothing was written. With --write this becomes fields/north/zones.geojson.
`);
  });

  it("keeps the polygon of a zone that the file leaves out, and says what was there before", async () => {
    const farm = farmFolder();
    const half = west.map(([x, y]) => [x, y === 44 ? 44.001 : y]) as number[][];
    expect((await zones(farm, "a.geojson", geoJson(feature({ name: "A" }, half)), ["--field", "north", "--write"])).stdout).toContain("  A  West end  4.4 acres (before: 8.8 acres)\n  B  East end  8.8 acres, as before: the file leaves it out\n");
    expect(farm.read().farm!.fields[0]!.zones.map((z) => z.area?.coordinates)).toEqual([[half], [east]]);
  });

  it("brings in the zones of today, and keeps the polygons of former ones for the maps of their time", async () => {
    const farm = mergedFarm();
    const half = [[-37.004, 44], [-37, 44], [-37, 44.001], [-37.004, 44.001], [-37.004, 44]];
    expect((await zones(farm, "a.geojson", geoJson(feature({ name: "West end" }, half)))).stderr).toContain('"West end" is no zone of field "north" any more since 2023-10-01; allowed: long');
    expect((await zones(farm, "a.geojson", geoJson(feature({ name: "D" }, half)), ["--field", "north", "--write"])).stdout).toBe(`North Field, 8.8 acres in all
  D  Long piece  8.8 acres (before: 17.6 acres)
  A  West end    8.8 acres, kept for the maps of its time: no zone any more
  B  East end    8.8 acres, kept for the maps of its time: no zone any more
  C  Strip       2.2 acres, kept for the maps of its time: no zone any more
Written to fields/north/zones.geojson.
`);
    const [field] = farm.read().farm!.fields;
    expect([...field!.zones, ...field!.formerZones].map((z) => [z.id, z.area?.coordinates[0]])).toEqual([["long", half], ["west", west], ["east", east], ["strip", [[-37.0045, 44], [-37.004, 44], [-37.004, 44.002], [-37.0045, 44.002], [-37.0045, 44]]]]);
  });

  it("joins shapes of one zone, by the property it is told", async () => {
    const farm = withoutZones();
    const part = east.map(([x = 0, y = 0]) => [x + 0.002, y]);
    const file = geoJson(feature({ Name: "1", part: "west" }, west), feature({ Name: "2", part: "east" }, east), feature({ Name: "3", part: "EAST END" }, part));
    expect((await zones(farm, "a.geojson", file, ["--field", "north", "--zone-name", "PART", "--write"])).status).toBe(0);
    expect(farm.read().farm!.fields[0]!.zones.map((z) => z.area?.type)).toEqual(["Polygon", "MultiPolygon"]);
  });

  it("gives one shape to the only zone, whatever it is called", async () => {
    const farm = withoutZones().change("fields/north/field.yaml", "  east: { letter: B, name: East end }\n", "");
    expect((await zones(farm, "walk.gpx", gpx(route("Tuesday", west)))).stdout).toContain("  A  West end  8.8 acres\n");
  });

  it("but not where the property it is told names another zone", async () => {
    const farm = withoutZones().change("fields/north/field.yaml", "  east: { letter: B, name: East end }\n", "");
    expect(await zones(farm, "a.geojson", geoJson(feature({ zone: "east" }, west)), ["--field", "north", "--zone-name", "zone", "--write"])).toEqual({ status: 1, stdout: "", stderr: 'a.geojson: "east" is no zone of field "north"; allowed: west, West end\n' });
  });

  // 8.8 acres x 0.40469 = 3.56 ha.
  it("tells the area in the field's own units", async () => {
    const farm = withoutZones().change("fields/north/field.yaml", "name: North Field\n", "name: North Field\nunits: metric\n");
    expect((await zones(farm, "a.geojson", bothGeoJson)).stdout).toContain("  A  West end  3.6 ha\n");
  });

  it("replaces a zones.geojson with mistakes", () => {
    const farm = farmFolder().write(paths.zones, "{");
    const from = temporaryFolder();
    writeFileSync(join(from, "a.geojson"), bothGeoJson);
    expect(ranApart("zones", ["a.geojson", "--field", "north", "--write", "--content", farm.path], { from }).status).toBe(0);
    expect(farm.lines()).toEqual([]);
  });

  it("works beside other records that have mistakes", async () => expect((await zones(farmFolder().write(paths.sampling, "{"), "a.geojson", bothGeoJson)).status).toBe(0));

  const bow = [west[0]!, west[2]!, west[1]!, west[3]!, west[0]!];
  const wide = east.map(([x = 0, y = 0]) => [x === -37.002 ? -37.0021 : x, y]);
  it.each<[string, string, string | Uint8Array, readonly string[], string]>([
    ["a boundary that crosses itself", "a.geojson", geoJson(feature({ zone: "west" }, bow)), [], 'a.geojson: the boundary of zone "west" crosses itself near -37.003000, 44.001000'],
    ["zones that overlap", "a.geojson", geoJson(feature({ zone: "west" }, west), feature({ zone: "east" }, wide)), [], 'a.geojson: zone "east" overlaps zone "west" by 5.0 % of the smaller one; at most 1 % is allowed'],
    ["a zone that overlaps one that was there", "a.geojson", geoJson(feature({ zone: "east" }, wide)), [], 'a.geojson: zone "east" overlaps zone "west" by 5.0 % of the smaller one; at most 1 % is allowed'],
    ["a name that is no zone", "a.geojson", geoJson(feature({ zone: "wset" }, west), feature({ zone: "east" }, east)), [], 'a.geojson: "wset" is no zone of field "north"; did you mean west?'],
    ["a file of other zones", "a.geojson", geoJson(feature({ name: "Cell 1" }, west), feature({ name: "Cell 2" }, east)), [], 'a.geojson: none of its 2 names is a zone of field "north"; allowed: west, east; for a new field with these zones: npm run new -- field --name NAME --zones "Cell 1, Cell 2"'],
    ["a file of other zones whose names a shell would not take", "a.geojson", geoJson(feature({ name: "Cell $(1)" }, west), feature({ name: "Cell 2" }, east)), [], 'a.geojson: "Cell $(1)" is no zone of field "north"; allowed: west, West end, east, East end'],
    ["shapes without a name", "a.geojson", geoJson(feature({}, west), feature({}, east)), [], "a.geojson: shape 1 has no name; name each shape after its zone"],
    ["shapes named otherwise", "a.geojson", geoJson(feature({ soil: "west" }, west), feature({ soil: "east" }, east)), [], "a.geojson: shape 1 has no name; say with --zone-name which of these names its zone: soil"],
    ["a property that is not there", "a.geojson", bothGeoJson, ["--zone-name", "soil"], 'a.geojson: "West end" has no property "soil"; say with --zone-name which of these names its zone: name'],
    ["a name that moves the cursor", "a.geojson", geoJson(feature({ zone: "\u001b[2J\nx" }, west)), [], 'a.geojson: " [2J x" is no zone of field "north"; allowed: west, West end, east, East end'],
    ["broken XML", "a.kml", bothKml.slice(0, 300), [], "a.kml: is not valid XML (near line 2)"],
    ["a file of 50 MB", "a.kml", new Uint8Array(50_000_000), [], "a.kml: is larger than 10 MB, too large for the zones of a field"],
  ])("refuses %s in one line and writes nothing", async (_, name, content, args, message) => {
    const farm = farmFolder();
    const before = drawn(farm);
    expect(await zones(farm, name, content, ["--field", "north", "--write", ...args])).toEqual({ status: 1, stdout: "", stderr: `${message}\n` });
    expect(drawn(farm)).toBe(before);
  });

  it.each<[string, readonly string[], string]>([
    ["no field", [], "--field is missing; say whose boundaries these are\n"],
    ["another field", ["--field", "nroth"], 'fields:1:1: file: there is no field "nroth"; did you mean north?\n'],
    ["a way out of the folder", ["--field", "../north"], 'fields:1:1: file: there is no field "../north"; did you mean north?\n'],
    ["two files", ["b.kml", "--field", "north"], "give one file of boundaries, such as walk.gpx, not 2 files\n"],
    ["an unknown option", ["--fields", "north"], "Unknown option '--fields'; did you mean --field? Options: --field, --zone-name, --write, --content, --help\n"],
  ])("is told about %s", async (_, args, message) => {
    expect(await zones(farmFolder(), "a.geojson", bothGeoJson, args)).toEqual({ status: 1, stdout: "", stderr: message });
  });

  it.each([["none.kml", "there is no file none.kml\n"], [".", ". is not a file\n"]])("does not take %s for a file", async (name, message) =>
    expect(await ranHere("zones", [name, "--field", "north"], { from: temporaryFolder() })).toEqual({ status: 1, stdout: "", stderr: message }));

  it.each(["opened", "half written", "written", "in place"])("killed when the file is %s, leaves the old boundaries or the new", async (step) => {
    const farm = farmFolder();
    const before = drawn(farm);
    const program = `
      import { replaceFile } from ${JSON.stringify(join(installation, "src", "records", "wholeWrite.ts"))};
      replaceFile(process.argv[1], process.argv[2], (step) => { if (step === ${JSON.stringify(step)}) process.kill(process.pid, "SIGKILL"); });`;
    const { signal, stderr } = spawnSync(process.execPath, ["--input-type=module", "-e", program, join(farm.path, paths.zones), bothGeoJson.replaceAll("name", "zone").replace("West end", "west").replace("East end", "east")], { encoding: "utf8" });
    expect(signal, stderr).toBe("SIGKILL");
    expect(drawn(farm) === before).toBe(step !== "in place");
    expect(farm.lines()).toEqual([]);
    expect((await zones(farm, "a.geojson", bothGeoJson, ["--field", "north", "--write"])).status).toBe(0);
    expect(readdirSync(join(farm.path, "fields/north"), { withFileTypes: true }).filter((e) => e.name.startsWith("."))).toEqual([]);
  });

  it("explains itself", async () => {
    const { status, stdout } = await ranHere("zones", ["--help"]);
    expect(status).toBe(0);
    for (const option of ["--field", "--zone-name", "--write", "--content", "--help"]) expect(stdout).toContain(`\n  ${option} `);
  });
});
