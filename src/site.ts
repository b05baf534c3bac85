import { join } from "node:path";
import type { Farm } from "./records/model.ts";
import { RecordError } from "./records/problem.ts";
import { readFarm } from "./records/readFarm.ts";

/**
 * The one bridge between pages and records. A build reads the records before Astro starts and leaves them here, so they
 * are read once; under `npm run dev` they are read when a page first asks, and again after a record changed.
 */
interface Handover {
  farm?: Farm | undefined;
}

const key = Symbol.for("field-history.farm");

const handover = (): Handover => ((globalThis as { [key]?: Handover })[key] ??= {});

export const setFarm = (farm: Farm | undefined): void => {
  handover().farm = farm;
};

/** The farm whose site is built. Throws `RecordError` when its records have errors. */
export const siteFarm = (): Farm => {
  const held = handover();
  if (!held.farm) {
    const root = process.cwd();
    const { farm, problems } = readFarm({ content: process.env["FIELD_CONTENT"] ?? join(root, "content"), library: join(root, "content") });
    if (!farm) throw new RecordError(problems.filter((p) => p.severity === "error"));
    held.farm = farm;
  }
  return held.farm;
};
