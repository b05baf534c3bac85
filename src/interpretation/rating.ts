import type { Guideline, Section } from "./guideline.ts";
import { sectionsOf } from "./guideline.ts";
import type { Measurement } from "./measurement.ts";
import type { Answer, Outcome } from "./outcome.ts";
import { noAnswer } from "./outcome.ts";
import type { Band, Rating } from "./rules/bands.ts";
import { bandOfMeasurement, rateByBands, resultStep } from "./rules/bands.ts";
import { classByBandRates, rateTableFor } from "./rules/bandRates.ts";
import { bandsOfLevel, rateAtLevel } from "./rules/buildMaintainLevels.ts";
import { firstMatch } from "./rules/conditions.ts";
import { bandsOfIndex, classesFor, rateByIndex } from "./rules/indexClasses.ts";
import { outsideLimits, readsMethod } from "./rules/limits.ts";
import { acidCropMost, acidCropMostStep } from "./rules/acidCrop.ts";
import type { TargetPh, TargetPhRule } from "./rules/targetPh.ts";
import { byOwnTargetAlone, phBands, targetPhFor } from "./rules/targetPh.ts";
import type { Sample } from "./sample.ts";
import type { AnalyteId } from "./vocabulary.ts";
import { analyteInSentence, inWater } from "./vocabulary.ts";
import type { Facts } from "./rules/facts.ts";
import type { Try } from "./firstAnswer.ts";
import { firstAnswer, isWithheld, unlessWithheld } from "./firstAnswer.ts";

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
  const hidden = tries.some(({ outcome }) => isWithheld(unlessWithheld(outcome, facts)));
  const byOwn = m.analyte === "pH" && !hidden && !tries.some(judges) ? byTheFieldItself(sample, m) : undefined;
  if (byOwn) return { measurement: m, pack: undefined, ...byOwn };
  const nobody = noAnswer(`none of the chosen guidelines rates ${analyteInSentence(m.analyte)}`, [`a guideline that rates ${m.analyte}`]);
  const first = firstAnswer(tries, nobody, facts);
  return { measurement: m, ...first, bands: tries.find((t) => t.outcome === first.outcome && t.outcome.kind === "answer")?.bands ?? [] };
};

/** Says whether a result is below its range, in or above it, and does not only describe. */
const judges = ({ outcome }: Rated): boolean => outcome.kind === "answer" && outcome.value.position !== undefined;

type PhSample = Pick<Sample, "facts" | "packs" | "own">;
const targetOf = (rule: TargetPhRule, { facts, own }: PhSample, pack: Guideline, m: Measurement): Outcome<TargetPh> =>
  targetPhFor(rule, facts, own, pack.short, m.qualifier ? undefined : m.value);

/** Where only the field's own target says when to lime, it says of a soil pH too whether lime is due: what is told to do and what stands in the tables are one. */
const byTheFieldItself = (sample: PhSample, m: Measurement): Pick<Rated, "bands" | "outcome"> | undefined => {
  const rules = sample.packs.flatMap((pack) => sectionsOf(pack, "targetPh").map((rule) => ({ rule, pack })));
  const fitting = rules.filter(({ rule }) => rule.method === m.method);
  if (fitting.length === 0 && (rules.length > 0 || !inWater(m.method))) return undefined;
  const target = byOwnTargetAlone(
    fitting.map(({ rule, pack }) => targetOf(rule, sample, pack, m)),
    sample,
  );
  return target?.kind === "answer" ? byTarget(target, undefined, sample, m) : undefined;
};

/** Soil pH against when to lime and the range to stay in. */
const phRatings = (pack: Guideline, sample: PhSample, m: Measurement): Rated[] =>
  sectionsOf(pack, "targetPh").map((rule) => {
    const outside = outsideLimits({ method: rule.method, unit: "pH" }, m, sample.facts.crop, pack.short);
    if (outside) return { pack, bands: [], outcome: outside };
    const target = targetOf(rule, sample, pack, m);
    return target.kind === "noAnswer" ? { pack, bands: [], outcome: target } : { pack, ...byTarget(target, rule.range, sample, m) };
  });

const byTarget = (
  target: Answer<TargetPh>,
  range: TargetPhRule["range"],
  { facts }: PhSample,
  m: Measurement,
): Pick<Rated, "bands" | "outcome"> => {
  const bands = phBands(range, target.value, facts.crop);
  const rating = bandOfMeasurement(m, bands);
  if (!rating) return { bands: [], outcome: noAnswer("the laboratory gives no single number", ["pH as a number"]) };
  const most = bands.some((b) => b.above === acidCropMost) && range === undefined ? [acidCropMostStep] : [];
  return {
    // Another pH might fall between the triggers that are possible, so a chart has no ground.
    bands: target.value.forThisPh ? [] : bands,
    outcome: { kind: "answer", value: rating, steps: [resultStep(m, "Laboratory result"), ...target.steps, ...most], cautions: [] },
  };
};
