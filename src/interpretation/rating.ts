import type { Guideline, Section } from "./guideline.ts";
import { sectionsOf } from "./guideline.ts";
import type { Measurement } from "./measurement.ts";
import type { Outcome } from "./outcome.ts";
import { noAnswer } from "./outcome.ts";
import type { Band, Rating } from "./rules/bands.ts";
import { bandOfMeasurement, rateByBands, resultStep } from "./rules/bands.ts";
import { classByBandRates, rateTableFor } from "./rules/bandRates.ts";
import { bandsOfLevel, rateAtLevel } from "./rules/buildMaintainLevels.ts";
import { firstMatch } from "./rules/conditions.ts";
import { bandsOfIndex, classesFor, rateByIndex } from "./rules/indexClasses.ts";
import { outsideLimits, readsMethod } from "./rules/limits.ts";
import { phBands, targetPhFor } from "./rules/targetPh.ts";
import type { Sample } from "./sample.ts";
import type { AnalyteId } from "./vocabulary.ts";
import { analyteInSentence } from "./vocabulary.ts";
import type { Facts } from "./rules/facts.ts";
import type { Try } from "./firstAnswer.ts";
import { firstAnswer } from "./firstAnswer.ts";

export interface RatingAdvice {
  readonly measurement: Measurement;
  readonly outcome: Outcome<Rating>;
  /** The guideline that gave the answer, or the first that was asked. */
  readonly pack: Guideline | undefined;
  /** The bands the rating was read from, for charts and maps. */
  readonly bands: readonly Band[];
}

/** In the order in which they are asked. */
const raterKinds = ["buildMaintain", "bands", "bandRates", "indexOfftake"] as const;
type Rater = Extract<Section, { kind: (typeof raterKinds)[number] }>;

const raters = new WeakMap<Guideline, ReadonlyMap<AnalyteId, readonly Rater[]>>();

/** A pack's rules that rate one analyte, sorted out once. */
const ratersOf = (pack: Guideline, analyte: AnalyteId): readonly Rater[] => {
  let found = raters.get(pack);
  if (!found)
    raters.set(
      pack,
      (found = Map.groupBy(
        raterKinds.flatMap((kind): readonly Rater[] => sectionsOf(pack, kind)),
        (rule) => rule.analyte,
      )),
    );
  return found.get(analyte) ?? [];
};

type Rated = Try<Rating> & { readonly bands: readonly Band[] };

const rateBy = (rule: Rater, m: Measurement, facts: Facts, pack: Guideline): Rated => {
  const reads = readsMethod(rule.limits, m);
  switch (rule.kind) {
    case "buildMaintain": {
      const rated = rateAtLevel(rule, m, { facts, pack: pack.short });
      return rated.kind === "answer"
        ? { pack, reads, bands: bandsOfLevel(rule, rated.value.level), outcome: { ...rated, value: rated.value.rating } }
        : { pack, reads, bands: [], outcome: rated };
    }
    case "bands":
      // The classes of an index are no classes of the test, so a chart of the test cannot be banded by them.
      return {
        pack,
        reads,
        bands: rule.index ? [] : (firstMatch(rule.tables, facts).found?.bands ?? []),
        outcome: rateByBands(rule, m, facts, pack.short),
      };
    case "bandRates": {
      const table = rateTableFor(rule, facts, pack.short);
      // Classes in lb/ac are none of a chart in ppm.
      return {
        pack,
        reads,
        bands: table.kind === "answer" && m.unit === rule.limits.unit ? table.value.classes : [],
        outcome: classByBandRates(rule, m, facts, pack.short),
      };
    }
    case "indexOfftake": {
      const table = classesFor(rule, facts, pack.short);
      return {
        pack,
        reads,
        bands: table.kind === "answer" ? bandsOfIndex(rule, table.value.classes) : [],
        outcome: rateByIndex(rule, m, facts, pack.short),
      };
    }
  }
};

/** Rate one measurement by the first guideline that can. */
export const rate = (sample: Pick<Sample, "facts" | "packs" | "own">, m: Measurement): RatingAdvice => {
  const { facts, packs } = sample;
  const tries: Rated[] = [];
  for (const pack of packs) {
    for (const rule of ratersOf(pack, m.analyte)) tries.push(rateBy(rule, m, facts, pack));
    if (m.analyte === "pH") tries.push(...phRatings(pack, sample, m));
  }
  const nobody = noAnswer(`none of the chosen guidelines rates ${analyteInSentence(m.analyte)}`, [`a guideline that rates ${m.analyte}`]);
  const first = firstAnswer(tries, nobody, facts);
  return { measurement: m, ...first, bands: tries.find((t) => t.outcome === first.outcome && t.outcome.kind === "answer")?.bands ?? [] };
};

/** Soil pH against when to lime and the range to stay in. */
const phRatings = (pack: Guideline, { facts, own }: Pick<Sample, "facts" | "own">, m: Measurement): Rated[] =>
  sectionsOf(pack, "targetPh").map((rule) => {
    const outside = outsideLimits({ method: rule.method, unit: "pH" }, m, facts.crop, pack.short);
    if (outside) return { pack, bands: [], outcome: outside };
    const target = targetPhFor(rule, facts, own, pack.short, m.qualifier ? undefined : m.value);
    if (target.kind === "noAnswer") return { pack, bands: [], outcome: target };
    const bands = phBands(rule, target.value);
    const rating = bandOfMeasurement(m, bands);
    if (!rating) return { pack, bands: [], outcome: noAnswer("the laboratory gives no single number", ["pH as a number"]) };
    return {
      pack,
      // Another pH might fall between the triggers that are possible, so a chart has no ground.
      bands: target.value.forThisPh ? [] : bands,
      outcome: { kind: "answer", value: rating, steps: [resultStep(m, "Laboratory result"), ...target.steps], cautions: [] },
    };
  });
