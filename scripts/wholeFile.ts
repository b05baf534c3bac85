import { closeSync, fsyncSync, mkdirSync, openSync, renameSync, rmSync, writeSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import { withPath } from "../src/records/wholeWrite.ts";

/** Write a file as a whole or not at all: beside its place, brought to the disk, then renamed. An older file stands until then. */
export const writeWhole = (path: string, bytes: Uint8Array): void => {
  mkdirSync(dirname(path), { recursive: true });
  const beside = join(dirname(path), `.${basename(path)}.unfinished-${process.pid}`);
  try {
    const file = openSync(beside, "w");
    try {
      for (let done = 0; done < bytes.length;) done += writeSync(file, bytes, done);
      fsyncSync(file);
    } finally {
      closeSync(file);
    }
    renameSync(beside, path);
  } catch (cause) {
    throw withPath(cause, path);
  } finally {
    rmSync(beside, { force: true });
  }
};
