import { readFileSync } from "node:fs";
import { join } from "node:path";
import { handover } from "./handover.ts";
import type { Farm } from "./records/model.ts";
import { RecordError } from "./records/problem.ts";
import type { Checks } from "./records/reading/readChecks.ts";
import { readChecks } from "./records/reading/readChecks.ts";
import { readFarm } from "./records/reading/readFarm.ts";
import type { ChecksView } from "./views/guidelines/checksView.ts";

/**
 * The one bridge between pages and records. A build reads the records before Astro starts and leaves them in the handover,
 * so they are read once. Under `npm run dev` nobody leaves them: they are read when a page asks, and shared only by the
 * questions of so many milliseconds, because a watcher can miss the second of two quick saves; a change that it sees ends that at once.
 */
const sharedFor = 500;

/** The farm whose site is built. Throws `RecordError` when its records have errors. */
export const siteFarm = (): Farm => {
  const held = handover();
  const fresh = held.readAt === undefined || performance.now() - held.readAt < sharedFor;
  if (held.farm && fresh) return held.farm;
  const root = process.cwd();
  const { farm, problems } = readFarm({ content: process.env["FIELD_CONTENT"] ?? join(root, "content"), library: join(root, "content") });
  if (!farm) throw new RecordError(problems.filter((p) => p.severity === "error"));
  held.readAt = performance.now();
  held.farm = farm;
  return farm;
};

/** A laboratory's report as it came. */
export const siteReport = (name: string): Uint8Array<ArrayBuffer> => new Uint8Array(readFileSync(siteFarm().reports.get(name)!.at));

/** What a build has worked out of the published check values beside the reading of the records; under `npm run dev` nobody has. */
export const siteChecksView = (): Promise<ChecksView> | undefined => handover().checks;

/** The published check values that the installation ships, for the page that works them out again. */
export const siteChecks = (): Checks => readChecks(join(process.cwd(), "tests", "cases"), join(process.cwd(), "content"));
