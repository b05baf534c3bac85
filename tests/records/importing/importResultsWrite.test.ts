import { spawnSync } from "node:child_process";
import { chmodSync, lstatSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, statSync, symlinkSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { describe, expect, it } from "vitest";
import { installation } from "../../../scripts/options.ts";
import type { AfterStep } from "../../../src/records/wholeWrite.ts";
import type { Change } from "../../../src/records/writeChanges.ts";
import { changesOf } from "../../../src/records/importing/importResultsWrite.ts";
import { writeChanges } from "../../../src/records/writeChanges.ts";
import type { FarmFolder } from "../../support/farmFolder.ts";
import { answeredSampling, awaitingFarm, awaitingSampling, planned, planOf, usualFile } from "../../support/awaitingFarm.ts";
import { paths, tinyFarm } from "../../support/tinyFarm.ts";

const earlier = "fields/north/samplings/2024-10-14.yaml";
/** The plain file, and a late result for a bag of the year before: two sampling files to write. */
const both = `${usualFile}0011,,,14,\n`;
const earlierAnswered = tinyFarm[earlier]!.replace("      K: 96\n", "      K: 96\n      P: 14\n");

const changes = (farm: FarmFolder): readonly Change[] => {
  const made = changesOf(farm.path, planOf(planned(farm, both)));
  if ("problems" in made) throw new Error("no changes");
  return made.changes;
};
const texts = (farm: FarmFolder): string[] => [earlier, paths.sampling].map((file) => readFileSync(join(farm.path, file), "utf8"));
const files = (farm: FarmFolder): string[] => readdirSync(dirname(join(farm.path, earlier))).sort();
const old = [tinyFarm[earlier]!, awaitingSampling];
const fresh = [earlierAnswered, answeredSampling];

describe("the files of an import", () => {
  it("are written, each in its place, with its rights and by its link", () => {
    const farm = awaitingFarm();
    const path = join(farm.path, earlier);
    chmodSync(path, 0o640);
    renameSync(path, join(farm.path, "fields/north/elsewhere.txt"));
    symlinkSync("../elsewhere.txt", path);
    expect(writeChanges(farm.path, changes(farm))).toEqual([]);
    expect(texts(farm)).toEqual(fresh);
    expect(lstatSync(path).isSymbolicLink()).toBe(true);
    expect(statSync(path).mode & 0o777).toBe(0o640);
    expect(files(farm)).toEqual(["2024-10-14.yaml", "2025-10-18.yaml"]);
  });

  it("are told, and none is written, where one holds its bags in a way that nothing can be put between", () => {
    const farm = awaitingFarm();
    const odd = awaitingSampling.replace('  - label: "0021" # the west end\n    zone: west\n    cores: 20\n', '  - ? label\n    : "0021"\n    ? zone\n    : west\n');
    farm.write(paths.sampling, odd);
    expect(farm.lines()).toEqual([]);
    expect(changesOf(farm.path, planOf(planned(farm, both)))).toEqual({
      problems: [{ file: paths.sampling, line: 1, column: 1, field: "composites", severity: "error", message: "is written in a way that results cannot be added to without changing more; write the bags one key a line" }],
    });
  });

  it("are put back where one of them was changed meanwhile, and that one is left alone", () => {
    const farm = awaitingFarm();
    const made = changes(farm);
    farm.write(paths.sampling, `${awaitingSampling}# by another hand\n`);
    expect(writeChanges(farm.path, made)).toMatchObject([{ file: paths.sampling, message: "was changed by another program meanwhile; run the command again" }]);
    expect(texts(farm)).toEqual([old[0], `${awaitingSampling}# by another hand\n`]);
  });

  it("are put back as far as they can be where one of them cannot, and that one is named beside what stopped the writing", () => {
    const farm = awaitingFarm();
    const told = writeChanges(farm.path, changes(farm), (step) => {
      if (step !== "in place" || texts(farm)[1] !== fresh[1]) return;
      // What holds the first file by now no writing can replace.
      renameSync(join(farm.path, earlier), join(farm.path, "kept.txt"));
      mkdirSync(join(farm.path, earlier));
      throw new Error("the disk is gone");
    });
    expect(told).toMatchObject([
      { file: paths.sampling, message: "could not be written: the disk is gone" },
      { file: earlier, message: expect.stringMatching(/^could not be put back as it was: EISDIR/) as string },
    ]);
    expect(readFileSync(join(farm.path, paths.sampling), "utf8")).toBe(old[1]);
  });

  it("are the old ones where what was prepared for one of them is gone before it takes its place", () => {
    const farm = awaitingFarm();
    const tidy = (): void => {
      for (const name of files(farm).filter((each) => each.startsWith(".2025"))) rmSync(join(farm.path, dirname(earlier), name));
    };
    let step = 0;
    const afterStep = (): void => {
      if (++step === 6) tidy();
    };
    expect(() => writeChanges(farm.path, changes(farm), afterStep)).toThrow("ENOENT");
    expect([texts(farm), step]).toEqual([old, 7]);
  });

  it("are left as another program wrote them after us", () => {
    const farm = awaitingFarm();
    const told = writeChanges(farm.path, changes(farm), (step) => {
      if (step !== "in place" || texts(farm)[1] !== fresh[1]) return;
      writeFileSync(join(farm.path, earlier), "mine\n");
      throw new Error("the disk is gone");
    });
    expect(told.map((p) => p.message)).toEqual(["could not be written: the disk is gone", "was changed by another program after it was written, so it is left as it is now"]);
    expect(texts(farm)).toEqual(["mine\n", old[1]]);
  });

  it.each([1, 2, 3, 4, 5, 6, 7, 8])("are the old ones where the disk is full at step %i", (wanted) => {
    const farm = awaitingFarm();
    let step = 0;
    const full: AfterStep = () => {
      if (++step === wanted) throw new Error("the disk is full");
    };
    expect(() => writeChanges(farm.path, changes(farm), full)).toThrow("the disk is full");
    expect(texts(farm)).toEqual(old);
    expect(files(farm)).toEqual(["2024-10-14.yaml", "2025-10-18.yaml"]);
  });
});

/** Write the changes of an import in a process of its own, which is killed after a number of steps: three to prepare each file, then one a file. */
const killedAfter = (steps: number, farm: FarmFolder): void => {
  const program = `
    import { writeChanges } from ${JSON.stringify(join(installation, "src", "records", "writeChanges.ts"))};
    const [content, changes] = process.argv.slice(1);
    let step = 0;
    writeChanges(content, JSON.parse(changes), () => { if (++step === ${steps}) process.kill(process.pid, "SIGKILL"); });`;
  const { signal, stderr } = spawnSync(process.execPath, ["--input-type=module", "-e", program, farm.path, JSON.stringify(changes(farm))], { encoding: "utf8" });
  expect(signal, stderr).toBe("SIGKILL");
};

describe("an import that is killed", { timeout: 60_000 }, () => {
  it.each([1, 2, 3, 4, 5, 6, 7, 8])("after %i of its eight steps leaves each file as it was or as it should be, and the next run ends the work", (steps) => {
    const farm = awaitingFarm();
    killedAfter(steps, farm);
    expect(texts(farm)).toEqual([steps < 7 ? old[0] : fresh[0], steps < 8 ? old[1] : fresh[1]]);
    // What is left beside them is no record.
    expect(farm.lines()).toEqual([]);
    expect(writeChanges(farm.path, changes(farm))).toEqual([]);
    expect(texts(farm)).toEqual(fresh);
    expect(files(farm)).toEqual(["2024-10-14.yaml", "2025-10-18.yaml"]);
    expect(changes(farm)).toEqual([]);
  });
});
