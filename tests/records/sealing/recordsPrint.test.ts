import { spawnSync } from "node:child_process";
import { describe, expect, it } from "vitest";
import { recordsPrint } from "../../../src/records/sealing/recordsPrint.ts";
import { farmFolder } from "../../support/farmFolder.ts";
import { library } from "../../support/gardenFarm.ts";
import { paths, tinyFarm } from "../../support/tinyFarm.ts";

/** What the command that a sheet prints says, run as a reader would run it; the programs are the system's own. */
const byCommand = (folder: string, command: string): string => {
  const { stdout, stderr } = spawnSync("sh", ["-c", command], { cwd: folder, encoding: "utf8" });
  expect(stderr).toBe("");
  return stdout.trim().split(" ")[0]!;
};

describe("the fingerprint of records", () => {
  it("is what the printed command says, for a field and for the farm", () => {
    const folder = farmFolder().write("fields/north/README.md", "for people").write("fields/north/.draft.yaml", "not: read");
    const farm = folder.read().farm!;
    const [field] = farm.fields;
    expect(field!.fingerprint.sha256).toBe(byCommand(folder.path, field!.fingerprint.command));
    expect(farm.fingerprint.sha256).toBe(byCommand(folder.path, farm.fingerprint.command));
    // field.yaml, zones.geojson, two samplings and a season; with them farm.yaml and the laboratory, and no guideline.
    expect([field!.fingerprint.files, farm.fingerprint.files]).toEqual([5, 7]);
  });

  it("changes with any byte of any record of the field, and with nothing else", () => {
    const before = farmFolder().read().farm!.fields[0]!.fingerprint.sha256;
    const after = farmFolder().change(paths.sampling, "K: 104", "K: 105").read().farm!;
    expect(after.fields[0]!.fingerprint.sha256).not.toBe(before);
    const elsewhere = farmFolder().change(paths.farm, "name: Tiny Farm", "name: Another Farm").read().farm!;
    expect(elsewhere.fields[0]!.fingerprint.sha256).toBe(before);
    expect(farmFolder().write(paths.sampling, `${tinyFarm[paths.sampling]!}# a comment\n`).read().farm!.fields[0]!.fingerprint.sha256).not.toBe(before);
  });

  it("holds no record of the installation's own shelf", () => {
    expect(farmFolder().read({ library }).farm!.fingerprint).toEqual(farmFolder().read().farm!.fingerprint);
  });

  it("holds no record of a field whose name only begins alike", () => {
    const north = new Map([["fields/north/field.yaml", "0".repeat(64)]]);
    const both = new Map([...north, ["fields/north-east/field.yaml", "1".repeat(64)]]);
    expect(recordsPrint(both, ["fields/north"])).toEqual(recordsPrint(north, ["fields/north"]));
  });

  it("looks in no folder that the farm does not have", () =>
    expect(recordsPrint(new Map([["farm.yaml", "0".repeat(64)]]), ["farm.yaml", "fields", "labs"]).command).toMatch(/^find farm\.yaml -name /));

  // SHA-256 of nothing, FIPS 180-4's empty message, as every implementation prints it.
  it("of no file is the hash of nothing", () => expect(recordsPrint(new Map(), ["fields"]).sha256).toBe("e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"));
});
