import type { Outcome } from "../outcome.ts";
import { noAnswer } from "../outcome.ts";
import type { MarginRule } from "../rules/margin.ts";
import type { AnalyteId, MethodId, SoilTestUnit } from "../vocabulary.ts";
import { analyteInSentence } from "../vocabulary.ts";
import type { Equivalence, MergeVerdict } from "./equivalence.ts";
import { compareAnalyte } from "./equivalence.ts";
import type { Classes } from "./margins.ts";
import { marginOf } from "./margins.ts";
import type { Noise } from "./noise.ts";

/** The composites of one area by one analyte: of one sampling event, or one of each event. */
export interface AreaResult {
  readonly method: MethodId;
  readonly unit: SoilTestUnit;
  readonly values: readonly number[];
}
export type AreaResults = Readonly<Partial<Record<AnalyteId, AreaResult>>>;

export interface AnalyteCompared {
  readonly analyte: AnalyteId;
  readonly outcome: Outcome<Equivalence>;
  /** What margin would have to be set, where none can be read: no number of samples would call the areas alike. */
  readonly lacks?: string | undefined;
}

export interface AreasCompared {
  /** Over every analyte with a margin: all must be alike, and one that differs keeps the areas apart. */
  readonly verdict: MergeVerdict;
  readonly analytes: readonly AnalyteCompared[];
  /** Measured in both areas and not judged, because no margin is set. */
  readonly without: readonly AnalyteId[];
}

export interface AreasQuestion {
  readonly areas: readonly [AreaResults, AreaResults];
  readonly margins: readonly MarginRule[];
  readonly noise: (analyte: AnalyteId, method: MethodId) => Outcome<Noise>;
  readonly pooled?: boolean | undefined;
  /** The values stand in the order of the sampling events, one of each area for each event. */
  readonly byEvent?: boolean | undefined;
  /** Kilograms in a liter of the ground soil, where the laboratory weighed it. */
  readonly density?: number | undefined;
  /** By which classes results of an analyte are read, in the unit of the results. */
  readonly classes?: ((analyte: AnalyteId) => readonly Classes[]) | undefined;
}

/**
 * May two areas share a sample next time? Every analyte with a margin is asked, because areas alike in pH are often unlike in
 * phosphorus. Since every one must pass its own test at 5 %, unlike areas pass together at most that often; since one alone keeps
 * them apart, each is asked for a difference at its share of 5 %. An analyte with a margin that one area lacks leaves the answer
 * open. `noAnswer` where there is nothing to compare.
 */
export const compareAreas = ({ areas, margins, noise, pooled, byEvent, density, classes }: AreasQuestion): Outcome<AreasCompared> => {
  const measured = (Object.keys({ ...areas[0], ...areas[1] }) as AnalyteId[]).sort();
  const judged = measured.filter((a) => margins.some((m) => m.analyte === a));
  if (judged.length === 0) return noAnswer("nothing was measured in the two areas that has a margin", ["a margin"]);
  const analytes = judged.map((analyte): AnalyteCompared => {
    const [first, second] = [areas[0][analyte], areas[1][analyte]];
    if (!first || !second)
      return { analyte, outcome: noAnswer(`only one of the areas has a number for ${analyteInSentence(analyte)}`, [analyte]) };
    if (first.method !== second.method || first.unit !== second.unit)
      return {
        analyte,
        outcome: noAnswer(`${analyteInSentence(analyte)} was measured differently in the two areas`, ["results by one method"]),
      };
    const margin = marginOf({ analyte, method: first.method, unit: first.unit, density, classes: classes?.(analyte) }, margins);
    return {
      analyte,
      lacks: margin.kind === "noAnswer" ? margin.missing[0] : undefined,
      outcome: compareAnalyte({
        values: [first.values, second.values],
        margin,
        noise: noise(analyte, first.method),
        pooled,
        byEvent,
        among: judged.length,
      }),
    };
  });
  const verdicts = analytes.map(({ outcome }): MergeVerdict => (outcome.kind === "answer" ? outcome.value.verdict : "not enough data"));
  const verdict = verdicts.includes("keep apart")
    ? "keep apart"
    : verdicts.includes("not enough data")
      ? "not enough data"
      : "may be sampled together next time";
  return {
    kind: "answer",
    value: { verdict, analytes, without: measured.filter((a) => !judged.includes(a)) },
    steps: [],
    cautions: analytes.flatMap(({ outcome }) => (outcome.kind === "answer" ? outcome.cautions : [])),
  };
};
