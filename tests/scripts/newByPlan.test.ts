import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { installation } from "../../scripts/options.ts";
import { ranHere } from "../support/command.ts";
import { farmFolder, temporaryFolder } from "../support/farmFolder.ts";
import { soonMergedFarm } from "../support/mergedFarm.ts";
import { allSwitchedOn, make } from "../support/newRecord.ts";
import { paths, tinyFarm } from "../support/tinyFarm.ts";

const library = join(installation, "content");

describe("npm run new -- sampling --plan", () => {
  it("records the bags of a plan, with the labels that are on them", async () => {
    const farm = farmFolder().change("farm.yaml", "[small-guide]", "[small-guide, us-minnesota-sampling]");
    const out = join(temporaryFolder(), "plan");
    const planned = await ranHere("plan", ["north", "--date", "2026-10-02", "--label", "yard", "--content", farm.path, "--out", out]);
    expect(planned).toMatchObject({ status: 0, stderr: "" });
    expect(await make(farm.path, ["sampling", "--plan", out, "--date", "2026-11-05", "--field", "NORTH", "--purpose", "Routine"])).toMatchObject({ status: 0, stderr: "" });
    const { farm: read, problems } = farm.read({ library });
    expect(problems).toEqual([]);
    const event = read!.fields[0]!.samplings.find((s) => s.date === "2026-11-05")!;
    expect([event.lab.id, event.packageId, event.depth]).toEqual(["north-lab", "basic", { from: 0, to: 8, unit: "in" }]);
    // Labels of the plan's own day, zone for zone, and its cores.
    const rows = readFileSync(join(out, "labels.csv"), "utf8").split("\r\n").slice(1, -1).map((row) => row.split(","));
    expect(rows.map((r) => r[0])).toEqual(["yard-A-2610-1", "yard-B-2610-1"]);
    expect(event.composites.map((c) => [c.label, c.zone, String(c.cores)])).toEqual(rows.map((r) => [r[0], r[3] === "West end" ? "west" : "east", r[6]]));
    expect(allSwitchedOn(farm.path).lines({ library })).toEqual([]);
    expect((await make(farm.path, ["sampling", "--plan", join(out, "labels.csv"), "--date", "2026-11-06", "--purpose", "nitrate", "--bags", "2"])).stderr).toBe("--purpose: the plan is of routine\n--bags: the plan says which bags there are\n");
  });

  it("records the bags of a plan for the zones that there will be on its day", async () => {
    const farm = soonMergedFarm();
    const out = join(temporaryFolder(), "plan");
    expect(await ranHere("plan", ["north", "--date", "2025-10-10", "--content", farm.path, "--out", out])).toMatchObject({ status: 0, stdout: expect.stringContaining("Label NO-D-2510-1: Long piece, 9 cores") as unknown });
    expect(await make(farm.path, ["sampling", "--plan", out, "--date", "2025-10-12"])).toMatchObject({ status: 0, stderr: "" });
    expect(farm.read().farm!.fields[0]!.samplings.at(-1)!.composites.map((c) => [c.label, c.zone])).toEqual([["NO-D-2510-1", "long"]]);
  });

  it("refuses a folder that holds no list", async () => {
    const folder = temporaryFolder();
    mkdirSync(join(folder, "labels.csv"));
    expect(await make(farmFolder().path, ["sampling", "--plan", folder, "--date", "2026-11-05"])).toEqual({ status: 1, stdout: "", stderr: `--plan: there is no list of labels at ${folder}\n` });
  });

  it("takes of a plan no depth that it leaves open", async () => {
    const farm = farmFolder();
    const labels = join(temporaryFolder(), "labels.csv");
    writeFileSync(labels, "label,field,zone,purpose,depth_from_in,depth_to_in,depth_to_most_in\r\nX,North Field,West end,routine,0,6,9\r\n");
    // What was answered last time stands in for it, as it does where nothing is said.
    expect(await make(farm.path, ["sampling", "--plan", labels, "--date", "2026-11-05"])).toMatchObject({ status: 0, stderr: "" });
    expect(farm.read({ library }).farm!.fields[0]!.samplings.find((s) => s.date === "2026-11-05")!.depth).toEqual({ from: 0, to: 8, unit: "in" });
  });

  it("takes of a plan its laboratory and package, and at a terminal asks for the day alone", async () => {
    const farm = farmFolder().write("labs/south-lab.yaml", tinyFarm[paths.lab]!.replace("North", "South").replace("  basic:", "  routine: { name: Another test, measures: { pH: { method: water1to1, unit: pH } } }\n  basic:"));
    const labels = join(temporaryFolder(), "labels.csv");
    writeFileSync(labels, "label,field,zone,purpose,laboratory,package,depth_from_in,depth_to_in,depth_to_most_in\r\nX,North Field,West end,routine,South Laboratory,Another test,0,6,\r\n");
    expect(await make(farm.path, ["sampling", "--plan", labels], ["2026-11-05"])).toEqual({ status: 0, stderr: "The day of sampling, YYYY-MM-DD: ", stdout: "Written: fields/north/samplings/2026-11-05.yaml\n" });
    const event = farm.read({ library }).farm!.fields[0]!.samplings.find((s) => s.date === "2026-11-05")!;
    expect([event.lab.id, event.packageId, event.depth.to]).toEqual(["south-lab", "routine", 6]);
  });

  it.each([
    ["nothing", undefined, /^--plan: there is no list of labels at /],
    ["another table", "a,b\r\n1,2\r\n", /is no list of labels of a plan: it has no column label, field, zone, purpose\n$/],
    ["a field that is not there", "label,field,zone,purpose\r\nX,South,West end,routine\r\n", /is of the field "South", and the farm has none of that name\n$/],
    ["a zone that is not there", "label,field,zone,purpose\r\nX,North Field,Far end,routine\r\n", /has a bag of the zone "Far end", and North Field has none of that name\n$/],
    ["a spreadsheet", "PK\u0003\u0004", /line 1 is a spreadsheet or another packed file, not text; save it as CSV\n$/],
    ["a file too large to be one", "x".repeat(1_000_001), /is too large for a list of labels\n$/],
  ])("refuses %s as a plan in a line", async (_, content, message) => {
    const farm = farmFolder();
    const path = join(temporaryFolder(), "labels.csv");
    if (content !== undefined) writeFileSync(path, content);
    const { status, stdout, stderr } = await make(farm.path, ["sampling", "--plan", path, "--date", "2026-11-05"]);
    expect([status, stdout]).toEqual([1, ""]);
    expect(stderr).toMatch(message);
  });
});
