import { execFileSync } from "node:child_process";
import { chmodSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { farmFolder, temporaryFolder, type FarmFolder } from "../support/farmFolder.ts";
import { paths, tinyFarm } from "../support/tinyFarm.ts";

const { field, sampling, zones } = paths;
const allowedDay = "allowed: a file named by its day, such as 2025-10-18.yaml or 2025-06-10-nitrate.yaml";
const allowedYear = "allowed: a file named by its year, such as 2025.yaml";
const allowedIssue = "allowed: a file named by its day of issue, such as 2025-11-02.yaml";
type Change = (farm: FarmFolder) => FarmFolder;

const linesOf = (change: Change): string[] => change(farmFolder()).lines();

// Microsoft, "Naming Files, Paths, and Namespaces": CON, PRN, AUX, NUL, COM0 to COM9 and LPT0 to LPT9, with any ending.
describe("a name that Windows keeps for a device is doubted", () => {
  const doubt = ":1:1: file: warning: is a name that Windows keeps for a device: on such a computer neither the records nor their site can be copied or opened; choose another";
  const lab = (id: string): string[] => farmFolder().write(`labs/${id}.yaml`, tinyFarm[paths.lab]!).lines();
  it.each(["con", "prn", "aux", "nul", "com0", "com9", "lpt1"])("%s", (id) => {
    expect(lab(id)).toEqual([`labs/${id}.yaml${doubt}`]);
  });
  it.each(["con-field", "acon", "cona", "com10", "nul-1"])("not %s", (id) => {
    expect(lab(id)).toEqual([]);
  });
  it("for a field, too", () => {
    const farm = farmFolder().remove("fields/north");
    for (const [file, text] of Object.entries(tinyFarm)) if (file.startsWith("fields/north/")) farm.write(file.replace("/north/", "/aux/"), text);
    expect(farm.lines()).toEqual([`fields/aux${doubt}`]);
  });
});

describe("what is not a record is told, not passed over", () => {
  it.each<[string, Change, string[]]>([
    ["a misspelled file", (f) => f.write("fields/north/zone.geojson", "x"), ["fields/north/zone.geojson:1:1: file: is not a record known here; did you mean zones.geojson?"]],
    [
      "a misspelled file that is needed",
      (f) => f.remove(field).write("fields/north/feild.yaml", tinyFarm[field]!),
      [
        "fields/north/feild.yaml:1:1: file: is not a record known here; did you mean field.yaml?",
        "fields/north/field.yaml:1:1: file: is missing; every field's folder needs one",
      ],
    ],
    ["a misspelled folder", (f) => f.folder("fields/north/sampling"), ["fields/north/sampling:1:1: file: is not a record known here; did you mean samplings?"]],
    ["a misspelled folder at the top", (f) => f.folder("lab"), ["lab:1:1: file: is not a record known here; did you mean labs?"]],
    ["a laboratory's report in the farm's own folder", (f) => f.write("sheet.pdf", "x"), ["sheet.pdf:1:1: file: is not a record known here; a laboratory's report lies in the folder reports, beside farm.yaml"]],
    ["a laboratory's report among the samplings", (f) => f.write("fields/north/samplings/2025-10-18.JPG", "x"), ["fields/north/samplings/2025-10-18.JPG:1:1: file: is not a record known here; a laboratory's report lies in the folder reports, beside farm.yaml"]],
    ["a file of another program", (f) => f.write("plan.xlsx", "x"), ["plan.xlsx:1:1: file: is not a record known here; allowed: farm.yaml, references.yaml, fields, labs, guidelines, reports"]],
    ["a sampling without a day", (f) => f.write("fields/north/samplings/autumn.yaml", "x"), [`fields/north/samplings/autumn.yaml:1:1: file: is not a record known here; ${allowedDay}`]],
    ["a day that is none", (f) => f.write("fields/north/samplings/2025-02-30.yaml", "x"), [`fields/north/samplings/2025-02-30.yaml:1:1: file: is not a record known here; ${allowedDay}`]],
    ["a sampling named for another program", (f) => f.write("fields/north/samplings/lab-2025-10-18.yaml", "x"), [`fields/north/samplings/lab-2025-10-18.yaml:1:1: file: is not a record known here; ${allowedDay}`]],
    ["an editor's copy of a sampling", (f) => f.write("fields/north/samplings/2025-10-18.yaml~", "x"), [`fields/north/samplings/2025-10-18.yaml~:1:1: file: is not a record known here; ${allowedDay}`]],
    ["an editor's copy of a season", (f) => f.write("fields/north/seasons/2025.yaml~", "x"), [`fields/north/seasons/2025.yaml~:1:1: file: is not a record known here; ${allowedYear}`]],
    ["a season named by its crop, too", (f) => f.write("fields/north/seasons/corn2025.yaml", "x"), [`fields/north/seasons/corn2025.yaml:1:1: file: is not a record known here; ${allowedYear}`]],
    ["advice of a day that is none", (f) => f.write("fields/north/recommendations/2025-02-30.yaml", "x"), [`fields/north/recommendations/2025-02-30.yaml:1:1: file: is not a record known here; ${allowedIssue}`]],
    ["advice with more than its day in its name", (f) => f.write("fields/north/recommendations/2025-11-02-late.yaml", "x"), [`fields/north/recommendations/2025-11-02-late.yaml:1:1: file: is not a record known here; ${allowedIssue}`]],
    ["an editor's copy of advice", (f) => f.write("fields/north/recommendations/2025-11-02.yaml~", "x"), [`fields/north/recommendations/2025-11-02.yaml~:1:1: file: is not a record known here; ${allowedIssue}`]],
    ["a sampling with the other ending of YAML", (f) => f.write("fields/north/samplings/2025-10-19.yml", "x"), ["fields/north/samplings/2025-10-19.yml:1:1: file: is not a record known here; did you mean 2025-10-19.yaml?"]],
    ["a season whose ending has capitals", (f) => f.write("fields/north/seasons/2021.YAML", "x"), ["fields/north/seasons/2021.YAML:1:1: file: is not a record known here; did you mean 2021.yaml?"]],
    ["a sheet of the laboratory beside its sampling", (f) => f.write("fields/north/samplings/2025-10-18.xlsx", "x"), [`fields/north/samplings/2025-10-18.xlsx:1:1: file: is not a record known here; ${allowedDay}`]],
    ["a season without a year", (f) => f.write("fields/north/seasons/25.yaml", "x"), [`fields/north/seasons/25.yaml:1:1: file: is not a record known here; ${allowedYear}`]],
    ["a sampling that Windows saved as a text, and does not show as one", (f) => f.write("fields/north/samplings/2025-10-19.yaml.txt", "x"), ["fields/north/samplings/2025-10-19.yaml.txt:1:1: file: ends in .txt, which hides it: take that ending away"]],
    ["boundaries saved as a text", (f) => f.write("fields/north/Zones.GeoJSON.TXT", "x"), ["fields/north/Zones.GeoJSON.TXT:1:1: file: ends in .txt, which hides it: take that ending away"]],
    ["a laboratory with a space", (f) => f.write("labs/North Lab.yaml", "x"), ["labs/North Lab.yaml:1:1: file: is not a record known here; allowed: a file named <id>.yaml in lower-case letters, digits and hyphens"]],
    ["a file among the fields", (f) => f.write("fields/south.yaml", "x"), ["fields/south.yaml:1:1: file: is not a record known here; allowed: a folder named in lower-case letters, digits and hyphens"]],
  ])("%s", (_, change, lines) => {
    expect(linesOf(change)).toEqual(lines);
  });

  it("notes for people, dot files and what Windows leaves in a folder are passed over", () => {
    const notes = ["README.md", "readme", "notes.txt", "NOTES.TXT", "Thumbs.db", "fields/north/desktop.ini", ".git/config", "fields/.DS_Store", "fields/north/README.md", "fields/north/samplings/.2025-10-18.yaml.swp", "labs/fees.txt"];
    expect(linesOf((f) => notes.reduce((farm, note) => farm.write(note, "x"), f))).toEqual([]);
  });
});

describe("two records for one address", () => {
  it.each<[string, Change, string]>([
    ["two endings", (f) => f.write("fields/north/samplings/2025-10-18.yml", "x"), "fields/north/samplings/2025-10-18.yml:1:1: file: has the same address as fields/north/samplings/2025-10-18.yaml; keep one"],
    ["a capital letter", (f) => f.write("fields/North/field.yaml", tinyFarm[field]!), "fields/North:1:1: file: has the same address as fields/north; keep one"],
    ["a capital ending", (f) => f.write("labs/north-lab.YAML", "x"), "labs/north-lab.YAML:1:1: file: has the same address as labs/north-lab.yaml; keep one"],
  ])("%s", (_, change, line) => {
    expect(linesOf(change)).toEqual([line]);
  });
});

describe("links", () => {
  it.each<[string, Change, string]>([
    ["a file that leads out", (f) => f.remove(sampling).link(sampling, "/etc/hostname"), `${sampling}:1:1: file: is a link that leaves the folder of records`],
    ["farm.yaml that leads out", (f) => f.remove("farm.yaml").link("farm.yaml", "../../../etc/passwd"), "farm.yaml:1:1: file: is a link that leaves the folder of records"],
    ["a folder that leads out", (f) => f.remove("labs").link("labs", "/etc"), "labs:1:1: file: is a link that leaves the folder of records"],
    ["all fields elsewhere", (f) => f.remove("fields").link("fields", temporaryFolder()), "fields:1:1: file: is a link that leaves the folder of records"],
    ["to nothing", (f) => f.remove(zones).link(zones, "nowhere.geojson"), `${zones}:1:1: file: is a link to nothing`],
    ["farm.yaml to nothing", (f) => f.remove("farm.yaml").link("farm.yaml", "nowhere.yaml"), "farm.yaml:1:1: file: is a link to nothing"],
    ["to itself", (f) => f.remove(sampling).link(sampling, "2025-10-18.yaml"), `${sampling}:1:1: file: is a link to nothing`],
  ])("%s", (_, change, line) => {
    // A farm without its labs or fields has more to say; none of it may come from outside.
    expect(linesOf(change).filter((l) => !l.includes("has no file in labs"))).toEqual([line]);
  });

  it("within the folder are followed", () => {
    expect(linesOf((f) => f.remove(zones).write("fields/north/.shared.geojson", tinyFarm[zones]!).link(zones, ".shared.geojson"))).toEqual([]);
  });

  it("of whole folders within it, too", () => {
    const linked = farmFolder().write("fields/.south/field.yaml", "name: South Field\nzones:\n  all: { letter: A, name: All }\n").link("fields/south", ".south").read();
    expect([linked.problems, linked.farm?.fields.map((f) => f.id)]).toEqual([[], ["north", "south"]]);
  });

  it("say nothing of what they lead to", () => {
    const elsewhere = farmFolder([["secret.yaml", "word: xyzzy\n"]]).path;
    const lines = linesOf((f) => f.remove(sampling).link(sampling, join(elsewhere, "secret.yaml")));
    expect(lines).toHaveLength(1);
    expect(lines[0]).not.toContain("xyzzy");
  });
});

describe("the wrong kind of entry", () => {
  it.each<[string, Change, string]>([
    ["a folder called farm.yaml", (f) => f.remove("farm.yaml").folder("farm.yaml"), "farm.yaml:1:1: file: must be a file"],
    ["a folder called as a sampling", (f) => f.remove(sampling).folder(sampling), `${sampling}:1:1: file: must be a file`],
    ["a folder called zones.geojson", (f) => f.remove(zones).folder(zones), `${zones}:1:1: file: must be a file`],
    ["a file called fields", (f) => f.remove("fields").write("fields", "x"), "fields:1:1: file: must be a folder"],
    ["a file called samplings", (f) => f.remove("fields/north/samplings").write("fields/north/samplings", "x"), "fields/north/samplings:1:1: file: must be a folder"],
  ])("%s", (_, change, line) => {
    expect(linesOf(change)).toEqual([line]);
  });

  it("a file and a folder that may not be read, without the machine's path", () => {
    const farm = farmFolder();
    chmodSync(farm.path, 0o755);
    for (const locked of [sampling, "fields/north/seasons"]) chmodSync(join(farm.path, locked), 0);
    const root = process.geteuid?.() === 0;
    try {
      // Nothing is closed to root.
      if (root) process.seteuid!(65534);
      expect(farm.lines()).toEqual([`${sampling}:1:1: file: cannot be read: EACCES: permission denied`, "fields/north/seasons:1:1: file: cannot be read: EACCES: permission denied"]);
    } finally {
      if (root) process.seteuid!(0);
      chmodSync(join(farm.path, "fields/north/seasons"), 0o755);
    }
  });

  it("a pipe, which would never end", () => {
    const farm = farmFolder().remove("farm.yaml");
    execFileSync("mkfifo", [join(farm.path, "farm.yaml")]);
    expect(farm.lines()).toEqual(["farm.yaml:1:1: file: must be a file"]);
  });
});
