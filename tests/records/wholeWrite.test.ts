import { spawnSync } from "node:child_process";
import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { installation } from "../../scripts/options.ts";
import { type AfterStep, createFile, replaceFile } from "../../src/records/wholeWrite.ts";
import { archivedFarm, advisedFarm, frozenPath, issuedText } from "../support/archived.ts";
import { farmFolder, temporaryFolder } from "../support/farmFolder.ts";

const steps = ["opened", "half written", "written", "in place"] as const;
const stopAt =
  (wanted: Parameters<AfterStep>[0]): AfterStep =>
  (step) => {
    if (step === wanted) throw new Error("the disk is full");
  };

describe("a new file", () => {
  it("is written whole, into a folder that is made for it, and nothing is left beside it", () => {
    const path = join(temporaryFolder(), "a", "b", "c.yaml");
    expect(createFile(path, "text: ü\n")).toBe(true);
    expect(readFileSync(path, "utf8")).toBe("text: ü\n");
    expect(readdirSync(join(path, ".."))).toEqual(["c.yaml"]);
  });

  it("is never written in place of another", () => {
    const path = join(temporaryFolder(), "c.yaml");
    writeFileSync(path, "mine\n");
    expect(createFile(path, "yours\n")).toBe(false);
    expect(readFileSync(path, "utf8")).toBe("mine\n");
    expect(readdirSync(join(path, ".."))).toEqual(["c.yaml"]);
  });

  it("is not written in place of another that comes while it is written", () => {
    const path = join(temporaryFolder(), "c.yaml");
    const meanwhile: AfterStep = (step) => {
      if (step === "written") writeFileSync(path, "first\n");
    };
    expect(createFile(path, "second\n", meanwhile)).toBe(false);
    expect(readFileSync(path, "utf8")).toBe("first\n");
    expect(readdirSync(join(path, ".."))).toEqual(["c.yaml"]);
  });

  it("clears away what a dead run or this one has left of it, and nothing that a living one writes, or of another file", () => {
    const folder = temporaryFolder();
    const { pid: dead } = spawnSync(process.execPath, ["--version"]);
    const kept = [`.c.yaml.unfinished-${process.ppid}`, `.b.yaml.unfinished-${dead}`, "a.yaml"];
    for (const name of [...kept, `.c.yaml.unfinished-${dead}`, `.c.yaml.unfinished-${process.pid}`]) writeFileSync(join(folder, name), "half");
    createFile(join(folder, "c.yaml"), "whole\n");
    expect(readdirSync(folder).sort()).toEqual([...kept, "c.yaml"].sort());
  });

  it("in place of another clears the same away, and may hold any bytes", () => {
    const path = join(temporaryFolder(), "map.zip");
    writeFileSync(path, "of last year");
    writeFileSync(join(path, "..", `.map.zip.unfinished-${process.pid}`), "half");
    replaceFile(path, Uint8Array.of(0x50, 0x4b, 0xff, 0));
    expect([...readFileSync(path)]).toEqual([0x50, 0x4b, 0xff, 0]);
    expect(readdirSync(join(path, ".."))).toEqual(["map.zip"]);
  });

  it.each(steps)("leaves the old state, or the whole file, where writing fails once it is %s", (step) => {
    const path = join(temporaryFolder(), "c.yaml");
    expect(() => createFile(path, "0123456789\n", stopAt(step))).toThrow("the disk is full");
    expect(readdirSync(join(path, ".."))).toEqual(step === "in place" ? ["c.yaml"] : []);
  });
});

/** Write the archive of the tiny farm in a process of its own, which is killed after a step. */
const killedAt = (step: string, path: string): void => {
  const program = `
    import { createFile } from ${JSON.stringify(join(installation, "src", "records", "wholeWrite.ts"))};
    const text = process.argv[1];
    createFile(${JSON.stringify(path)}, text, (step) => { if (step === ${JSON.stringify(step)}) process.kill(process.pid, "SIGKILL"); });`;
  const { signal, stderr } = spawnSync(process.execPath, ["--input-type=module", "-e", program, issuedText], { encoding: "utf8" });
  expect(signal, stderr).toBe("SIGKILL");
};

describe("a run that is killed", { timeout: 60_000 }, () => {
  it.each(steps)("once it is %s leaves records that read as before, or the whole advice", (step) => {
    const farm = farmFolder(Object.entries(advisedFarm));
    const path = join(farm.path, frozenPath);
    killedAt(step, path);
    expect(existsSync(path)).toBe(step === "in place");
    const left = readdirSync(join(path, ".."));
    for (const name of left) if (name !== "2025-11-10.yaml") expect(name).toMatch(/^\.2025-11-10\.yaml\.unfinished-\d+$/);
    expect(farm.lines()).toEqual([]);
    expect(farm.read().farm!.fields[0]!.recommendations).toHaveLength(step === "in place" ? 1 : 0);
    // The next run finishes the work, and clears what was left.
    expect(createFile(path, issuedText)).toBe(step !== "in place");
    expect(readdirSync(join(path, ".."))).toEqual(["2025-11-10.yaml"]);
    expect(farm.lines()).toEqual([]);
  });
});

it("what a killed run left is no record, whatever it holds", () => {
  expect(archivedFarm().write("fields/north/recommendations/.2025-12-01.yaml.unfinished-1", "format: [").lines()).toEqual([]);
});
