import { createHash } from "node:crypto";
import { once } from "node:events";
import { existsSync, readdirSync, readFileSync, rmSync, statSync } from "node:fs";
import { basename, join } from "node:path";
import { Worker } from "node:worker_threads";
import { replaceFile } from "../src/records/wholeWrite.ts";
import type { ChecksView } from "../src/views/guidelines/checksView.ts";
import { filesBelow } from "./checkLinks.ts";
import { installation } from "./options.ts";

export interface WorkedChecks {
  readonly view: Promise<ChecksView>;
  readonly stop: () => Promise<unknown>;
}

/** All that the view is worked out from: the program, what it rests on, the check values and the guidelines. */
const grounds = [
  "src/interpretation",
  "src/records",
  "src/views",
  "tests/cases",
  "content/guidelines",
  "content/references.yaml",
  "package-lock.json",
];

/** Of every name and every byte of them, and of the engine that runs them. */
export const groundsPrint = (root: string): string => {
  const hash = createHash("sha256").update(process.version);
  for (const ground of grounds) {
    const path = join(root, ground);
    const names = !existsSync(path) ? [] : statSync(path).isFile() ? [""] : filesBelow(path);
    for (const name of names) {
      const bytes = readFileSync(join(path, name));
      hash.update(`\n${ground} ${name} ${bytes.length}\n`).update(bytes);
    }
  }
  return hash.digest("hex");
};

/**
 * What the published check values say of this very program and its guidelines, whatever the farm. Worked out on another core beside
 * the farm, a third of the work of a small site, and kept in `folder` until a byte of what it is worked out from changes.
 */
export const keptChecks = (folder = join(installation, "node_modules", ".cache", "field-history-checks")): WorkedChecks => {
  const kept = join(folder, `${groundsPrint(installation)}.json`);
  if (existsSync(kept))
    return { view: Promise.resolve(JSON.parse(readFileSync(kept, "utf8")) as ChecksView), stop: () => Promise.resolve() };
  const worker = new Worker(new URL("checksWorker.ts", import.meta.url), { execArgv: [] });
  const view = once(worker, "message").then(([message]) => {
    // Another build may be writing beside this one: of the folder only what is finished and of another program is taken away.
    for (const old of existsSync(folder) ? readdirSync(folder) : [])
      if (old.endsWith(".json") && old !== basename(kept)) rmSync(join(folder, old), { force: true });
    replaceFile(kept, JSON.stringify(message));
    return message as ChecksView;
  });
  // The page that asks for it tells of a failure; until then nobody listens.
  view.catch(() => undefined);
  return { view, stop: () => worker.terminate() };
};
