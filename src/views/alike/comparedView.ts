import type { Farm, Field } from "../../records/model.ts";
import { pairParts } from "./pairPages.ts";
import type { ZonePair } from "./zonesCompared.ts";
import { zonePairs } from "./zonesCompared.ts";
import { comparesNeighbors } from "./zonesInPairs.ts";
import { inUnitsOf } from "../units.ts";
import { count } from "../words.ts";

/** More pairs than these are no reading matter: then the field's page counts them, and names those that may share a bag. */
const mostTold = 10;

/** What is asked of two zones, wherever it is told. */
export const comparedNote =
  "Two zones may share a bag next time only where every result is shown to be alike: the mean difference within a limit, tested both ways. That no difference was found is not enough.";

export interface PairsTold {
  /** "Of 325 pairs, two may be sampled together next time; 323 must be kept apart." Absent where every pair is told. */
  readonly counts: string | undefined;
  readonly pairs: readonly ZonePair[];
}

const kinds: readonly { readonly words: string; readonly holds: (pair: ZonePair) => boolean }[] = [
  { words: "may be sampled together next time", holds: (p) => p.verdict === "may be sampled together next time" },
  { words: "cannot be judged for want of data", holds: (p) => p.verdict === "not enough data" && !p.wantsLimit },
  { words: "cannot be judged for want of a limit", holds: (p) => p.verdict === "not enough data" && p.wantsLimit },
  { words: "are better kept apart", holds: (p) => p.verdict === "keep apart" },
  { words: "cannot be compared", holds: (p) => p.verdict === "cannot be said" },
];

const countWords = (field: Field, pairs: readonly ZonePair[]): string => {
  const what = `pairs of zones${comparesNeighbors(field) ? " side by side" : ""}`;
  const counts = kinds.map(({ words, holds }) => ({ n: pairs.filter(holds).length, words })).filter(({ n }) => n > 0);
  if (counts.length === 1) return `All ${pairs.length} ${what} ${counts[0]!.words}.`;
  return `Of ${pairs.length} ${what}, ${counts.map(({ n, words }) => `${n} ${words}`).join("; ")}.`;
};

/** What the field's own page says of its pairs of zones. */
export const pairsTold = (field: Field, pairs: readonly ZonePair[]): PairsTold => {
  if (pairs.length <= mostTold) return { counts: undefined, pairs };
  return {
    counts: countWords(field, pairs),
    pairs: pairs.filter((p) => p.verdict === "may be sampled together next time").slice(0, mostTold),
  };
};

/** May they share a bag next time? Of two zones in their own words, of more than two how many. */
const ledeOf = (field: Field, pairs: readonly ZonePair[]): string => {
  const [only] = pairs;
  if (pairs.length === 1) return only!.words.says;
  return pairs.every((p) => p.verdict === "keep apart")
    ? `Keep all ${count(field.zones.length, "zone")} apart: every two ${comparesNeighbors(field) ? "side by side" : "of them"} differ.`
    : countWords(field, pairs);
};

export interface ComparedView {
  readonly title: string;
  readonly lede: string;
  readonly pairs: readonly ZonePair[];
  readonly parts: number;
  /** Which zones are not compared, where some are not. */
  readonly left: string | undefined;
}

/** One page of a field's pairs of zones, analyte by analyte. `part` counts from 1. */
export const comparedView = (site: Farm, field: Field, part: number): ComparedView => {
  const all = zonePairs(inUnitsOf(site, field), field);
  const parts = pairParts(field);
  return {
    title: parts.length === 1 ? `Zones of ${field.name} compared` : `Zones of ${field.name} compared, page ${part} of ${parts.length}`,
    lede: ledeOf(field, all),
    pairs: parts[part - 1]!.map((i) => all[i]!),
    parts: parts.length,
    left: comparesNeighbors(field)
      ? "Of so many zones only those side by side are compared, corner to corner included: ground that lies apart is hardly sampled as one."
      : undefined,
  };
};
