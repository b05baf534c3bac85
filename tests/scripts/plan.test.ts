import { existsSync, lstatSync, mkdirSync, readdirSync, readFileSync, renameSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { filesBelow } from "../../scripts/checkLinks.ts";
import { ranApart, ranHere } from "../support/command.ts";
import { farmFolder, temporaryFolder } from "../support/farmFolder.ts";

/** Run the command on the demo farm, unless another is given, as a person standing in `here`. */
const plan = (here: string, ...args: string[]) => ranHere("plan", args, { from: here });

const bytes = (folder: string): string[] => ["labels.csv", "plan.geojson", "plan.gpx"].map((f) => readFileSync(join(folder, f), "utf8"));

describe("npm run plan", { timeout: 60_000 }, () => {
  it("writes three files into a folder of its own, and says what to do", async () => {
    const here = temporaryFolder();
    const { status, stdout, stderr } = await plan(here, "netloft", "--date", "2025-10-28");
    expect([status, stderr]).toEqual([0, ""]);
    expect(readdirSync(here)).toEqual(["plan-netloft-2025-10-28"]);
    expect(readdirSync(join(here, "plan-netloft-2025-10-28")).sort()).toEqual(["labels.csv", "plan.geojson", "plan.gpx"]);
    expect(stdout).toContain("Take 15 cores from each of two zones, 0 to 8 in deep, into a bag each.");
    expect(stdout).toContain("Label NE-A-2510-1: Upper, 15 cores");
    expect(stdout).toContain("Have buried lines located before a probe goes into the ground.");
    expect(stdout).toMatch(/2 bags, 30 positions\. Written to plan-netloft-2025-10-28\.\n$/);
  });

  it("plans a June test as the site's page does, unless told otherwise", async () => {
    const here = temporaryFolder();
    const { stdout } = await plan(here, "netloft", "--purpose", "nitrate");
    expect(stdout).toContain("Nitrate sampling plan for Netloft");
    expect(stdout).toContain("A nitrate sampling, planned for June 2026.");
    expect(stdout).toContain("Label NE-B-2606-N1: Lower");
    expect(readdirSync(here)).toEqual(["plan-netloft-nitrate-2026-06"]);
    expect((await plan(here, "netloft", "--purpose", "nitrate", "--date", "2026-06-10", "--zones", "lower")).stdout).toMatch(/from Lower, [\s\S]*planned for 10 June 2026\.[\s\S]*1 bag, \d+ positions\. Written to plan-netloft-nitrate-2026-06-10\./);
  });

  it("writes the same bytes for the same seed, over an older plan, and others for another", async () => {
    const here = temporaryFolder();
    const out = join(here, "out");
    const written = async (...args: string[]): Promise<string[]> => {
      expect((await plan(here, "netloft", "--date", "2025-10-28", "--out", out, ...args)).status).toBe(0);
      return bytes(out);
    };
    const first = await written();
    expect(ranApart("plan", ["netloft", "--date", "2025-10-28", "--out", out], { from: here }).status).toBe(0);
    expect(bytes(out)).toEqual(first);
    expect((await written("--seed", "2"))[2]).not.toBe(first[2]);
    expect(readdirSync(here)).toEqual(["out"]);
  });

  it("replaces nothing but an older plan of its own", async () => {
    const here = temporaryFolder();
    mkdirSync(join(here, "photos"));
    writeFileSync(join(here, "photos", "gate.txt"), "mine");
    writeFileSync(join(here, "file"), "mine");
    mkdirSync(join(here, "theirs"));
    writeFileSync(join(here, "theirs", "plan.gpx"), '<gpx creator="another"/>');
    for (const [name, why] of [["photos", "holds files that are not a plan of this program"], ["file", "is not a folder"], ["theirs", "holds files that are not a plan of this program"]] as const) {
      const { status, stderr } = await plan(here, "netloft", "--out", name);
      expect(status).toBe(1);
      expect(stderr).toContain(`--out ${join(here, name)} ${why}`);
    }
    expect(readFileSync(join(here, "photos", "gate.txt"), "utf8")).toBe("mine");
    expect(readdirSync(here).sort()).toEqual(["file", "photos", "theirs"]);
  });

  it("writes where a link leads, and leaves the link", async () => {
    const here = temporaryFolder();
    mkdirSync(join(here, "served"));
    symlinkSync("served", join(here, "out"));
    expect((await plan(here, "netloft", "--date", "2025-10-28", "--out", "out")).status).toBe(0);
    expect(lstatSync(join(here, "out")).isSymbolicLink()).toBe(true);
    expect(readdirSync(join(here, "served"))).toHaveLength(3);
    expect(readdirSync(here).sort()).toEqual(["out", "served"]);
  });

  it.each([
    ["where the person stands in the farm's folder", ".", []],
    ["below the farm's folder", ".", ["--out", "fields/north/plans"]],
    ["in the farm's folder by a link", "..", ["--out", "shortcut/plans"]],
  ])("writes no plan among the records: %s", async (_, from, args) => {
    const farm = farmFolder();
    const home = temporaryFolder();
    renameSync(farm.path, join(home, "farm"));
    symlinkSync("farm", join(home, "shortcut"));
    const before = filesBelow(join(home, "farm"));
    const { status, stderr } = await plan(join(home, "farm", from), "north", "--date", "2025-11-03", "--content", join(home, "farm"), ...args);
    expect([status, stderr]).toEqual([1, expect.stringMatching(/^--out .*plan.* is inside the records; choose a place outside them\n$/)]);
    expect(filesBelow(join(home, "farm"))).toEqual(before);
  });

  it.each([
    [["netlof"], 'there is no field "netlof"; did you mean netloft?'],
    [[], "give one field, by the name of its folder, such as north"],
    [["netloft", "causeway"], 'give one field, by the name of its folder, such as north, not "netloft causeway"'],
    [["netloft", "--purpose", "nitrat"], '--purpose: there is no purpose "nitrat"; did you mean nitrate?'],
    [["netloft", "--date", "2025-02-30"], '--date must be a calendar day written YYYY-MM-DD, not "2025-02-30"'],
    [["netloft", "--zones", "upper, lowr"], '--zones: Netloft has no zone "lowr"; did you mean lower?'],
    [["netloft", "--seed", "x"], '--seed must be a whole number of up to nine digits, not "x"'],
    [["netloft", "--seed", "1.5"], '--seed must be a whole number of up to nine digits, not "1.5"'],
    [["netloft", "--label", "=1+1"], '--label must be letters, digits and hyphens, at most twenty, and not "=1+1": a label must be the same on the bag, in a spreadsheet and at the laboratory'],
    [["netloft", "--label", "A,B"], '--label must be letters, digits and hyphens, at most twenty, and not "A,B": a label must be the same on the bag, in a spreadsheet and at the laboratory'],
    [["netloft", "--error", "20"], "--error and --cv are given together"],
    [["netloft", "--error", "0", "--cv", "40"], '--error must be a percentage above 0 and up to 500, not "0"'],
    [["netloft", "--error", "10", "--cv", "501"], '--cv must be a percentage above 0 and up to 500, not "501"'],
    [["netloft", "--out", ""], "--out needs a folder"],
    [["netloft", "--colour", "red"], "Unknown option '--colour'. Options: --purpose, --date, --zones, --seed, --error, --cv, --label, --content, --out, --help"],
  ])("refuses %j in a line, and writes nothing", async (args, message) => {
    const here = temporaryFolder();
    const { status, stdout, stderr } = await plan(here, ...args);
    expect([status, stdout, stderr]).toEqual([1, "", `${message}\n`]);
    expect(readdirSync(here)).toEqual([]);
  });

  it("takes cores by a wanted error, and labels as one wants them", async () => {
    const here = temporaryFolder();
    const { stdout } = await plan(here, "netloft", "--error", "15", "--cv", "10", "--label", "yard-7", "--date", "2025-10-28", "--out", "out");
    // scipy 1.10.1: CV 10, within 15 at 0.95: 5 cores (tests/cases/coresNeeded.yaml).
    expect(stdout).toContain("Label yard-7-A-2510-1: Upper, 5 cores");
  });

  it("asks for the day where the records hold none", async () => {
    const farm = farmFolder().remove("fields/north/samplings").remove("fields/north/seasons");
    expect(await plan(farm.path, "north", "--content", farm.path)).toMatchObject({ status: 1, stderr: "the records hold no day yet; say with --date YYYY-MM-DD when you will sample\n" });
    expect(readdirSync(farm.path).filter((name) => name.startsWith("plan"))).toEqual([]);
  });

  it("writes nothing where the records have a mistake", async () => {
    const farm = farmFolder().change("fields/north/field.yaml", "corn", "cron");
    const { status, stderr } = await plan(farm.path, "north", "--content", farm.path);
    expect(status).toBe(1);
    expect(stderr).toContain("did you mean corn?");
    expect(existsSync(join(farm.path, "plan-north-2025-11-01"))).toBe(false);
  });
});
