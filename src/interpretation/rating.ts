import type { Guideline } from "./guideline.ts";
import { sectionsOf, sectionsReading } from "./guideline.ts";
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
import type { Sample, Try } from "./sample.ts";
import { firstAnswer } from "./sample.ts";
import { analyteInSentence } from "./vocabulary.ts";

export interface RatingAdvice {
  readonly measurement: Measurement;
  readonly outcome: Outcome<Rating>;
  /** The guideline that gave the answer, or the first that was asked. */
  readonly pack: Guideline | undefined;
  /** The bands the rating was read from, for charts and maps. */
  readonly bands: readonly Band[];
}

/** Rate one measurement by the first guideline that can. */
export const rate = (sample: Pick<Sample, "facts" | "packs" | "own">, m: Measurement): RatingAdvice => {
  const { facts, packs } = sample;
  const tries: (Try<Rating> & { bands: readonly Band[] })[] = [];
  for (const pack of packs) {
    for (const rule of sectionsReading(pack, "buildMaintain", m.analyte)) {
      const rated = rateAtLevel(rule, m, { facts, pack: pack.short });
      const [bands, outcome] = rated.kind === "answer" ? [bandsOfLevel(rule, rated.value.level), { ...rated, value: rated.value.rating }] : [[], rated];
      tries.push({ pack, bands, reads: readsMethod(rule.limits, m), outcome });
    }
    for (const rule of sectionsReading(pack, "bands", m.analyte))
      // The classes of an index are no classes of the test, so a chart of the test cannot be banded by them.
      tries.push({ pack, reads: readsMethod(rule.limits, m), bands: rule.index ? [] : (firstMatch(rule.tables, facts).found?.bands ?? []), outcome: rateByBands(rule, m, facts, pack.short) });
    for (const rule of sectionsReading(pack, "bandRates", m.analyte)) {
      const table = rateTableFor(rule, facts, pack.short);
      tries.push({ pack, reads: readsMethod(rule.limits, m), bands: table.kind === "answer" ? table.value.classes : [], outcome: classByBandRates(rule, m, facts, pack.short) });
    }
    for (const rule of sectionsReading(pack, "indexOfftake", m.analyte)) {
      const table = classesFor(rule, facts, pack.short);
      tries.push({ pack, reads: readsMethod(rule.limits, m), bands: table.kind === "answer" ? bandsOfIndex(rule, table.value.classes) : [], outcome: rateByIndex(rule, m, facts, pack.short) });
    }
    if (m.analyte === "pH") tries.push(...phRatings(pack, sample, m));
  }
  const nobody = noAnswer(`none of the chosen guidelines rates ${analyteInSentence(m.analyte)}`, [
    `a guideline that rates ${m.analyte}`,
  ]);
  const best = tries.find((t) => t.outcome.kind === "answer") ?? tries[0];
  return { measurement: m, ...firstAnswer(tries, nobody), bands: best?.outcome.kind === "answer" ? best.bands : [] };
};

/** Soil pH against when to lime and the range to stay in. */
const phRatings = (pack: Guideline, { facts, own }: Pick<Sample, "facts" | "own">, m: Measurement): (Try<Rating> & { bands: readonly Band[] })[] =>
  sectionsOf(pack, "targetPh").map((rule) => {
    const outside = outsideLimits({ method: rule.method, unit: "pH" }, m, facts.crop, pack.short);
    if (outside) return { pack, bands: [], outcome: outside };
    const target = targetPhFor(rule, facts, own, pack.short);
    if (target.kind === "noAnswer") return { pack, bands: [], outcome: target };
    const bands = phBands(rule, target.value);
    const rating = bandOfMeasurement(m, bands);
    if (!rating) return { pack, bands: [], outcome: noAnswer("the laboratory gives no single number", ["pH as a number"]) };
    return { pack, bands, outcome: { kind: "answer", value: rating, steps: [resultStep(m, "Laboratory result"), ...target.steps], cautions: [] } };
  });
