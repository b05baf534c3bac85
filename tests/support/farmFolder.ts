import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { onTestFinished } from "vitest";
import { formatProblems } from "../../src/records/problem.ts";
import { readFarm, type ReadOptions, type ReadResult } from "../../src/records/reading/readFarm.ts";
import { tinyFarm } from "./tinyFarm.ts";

/** A farm in a temporary folder, for one test to spoil. */
export class FarmFolder {
  readonly path: string;

  constructor(path: string) {
    this.path = path;
  }

  /** Write a file, new or in place of the old one. */
  write(file: string, content: string | Uint8Array): this {
    const full = join(this.path, file);
    mkdirSync(dirname(full), { recursive: true });
    writeFileSync(full, content);
    return this;
  }

  /** Replace the first `from` in a file of the tiny farm by `to`; a test that changes nothing is a mistake. */
  change(file: string, from: string, to: string): this {
    const text = tinyFarm[file];
    if (!text?.includes(from)) throw new Error(`${file} does not hold ${from}`);
    return this.write(file, text.replace(from, () => to));
  }

  remove(file: string): this {
    rmSync(join(this.path, file), { recursive: true });
    return this;
  }

  folder(name: string): this {
    mkdirSync(join(this.path, name), { recursive: true });
    return this;
  }

  link(file: string, target: string): this {
    symlinkSync(target, join(this.path, file));
    return this;
  }

  read(options: Partial<ReadOptions> = {}): ReadResult {
    return readFarm({ content: this.path, ...options });
  }

  /** What a person reads: one problem a line. */
  lines(options: Partial<ReadOptions> = {}): string[] {
    const { problems } = this.read(options);
    return problems.length === 0 ? [] : formatProblems(problems).split("\n");
  }
}

/** A temporary folder, gone when the test is over. */
export const temporaryFolder = (): string => {
  const path = mkdtempSync(join(tmpdir(), "field-history-"));
  onTestFinished(() => rmSync(path, { recursive: true, force: true }));
  return path;
};

/** Write a farm, the tiny one unless others are given, into a temporary folder. */
export const farmFolder = (files: Iterable<readonly [string, string | Uint8Array]> = Object.entries(tinyFarm)): FarmFolder => {
  const farm = new FarmFolder(temporaryFolder());
  for (const [file, content] of files) farm.write(file, content);
  return farm;
};

/** The lines for the tiny farm with one file changed in one place. */
export const linesAfter = (file: string, from: string, to: string): string[] => farmFolder().change(file, from, to).lines();
