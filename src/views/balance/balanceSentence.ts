import type { PlaceRecords } from "../../interpretation/balance/balance.ts";
import { balanceBetween } from "../../interpretation/balance/balance.ts";
import { balanceAndTest, testOf } from "../../interpretation/balance/balanceAndTest.ts";
import { splitIntoSeries, whyNotComparable } from "../../interpretation/comparable.ts";
import type { CoefficientSet } from "../../interpretation/balance/harvestRemoval.ts";
import type { Measurement } from "../../interpretation/measurement.ts";
import { measurementLabel, numberLabel } from "../../interpretation/measurement.ts";
import type { AnalyteId } from "../../interpretation/vocabulary.ts";
import { analyteInSentence, nutrients } from "../../interpretation/vocabulary.ts";
import type { Farm, Field, Zone } from "../../records/model.ts";
import { zoneMeasurements } from "../results/zoneMeasurements.ts";
import { nutrientRate } from "../units.ts";
import { monthYear } from "../words.ts";

/** The least change of a test between two samplings of a zone that has a direction, in the test's unit: the least significant change, 0 where a trend shows; `undefined` where it is not known. */
export type LeastChange = (zone: Zone, first: Measurement, last: Measurement) => number | undefined;

/** The comparable measurements that the newest one stands in, oldest first, and the newest before them that does not compare. */
const newestSeries = (
  field: Field,
  zone: Zone,
  analyte: AnalyteId,
): { series: readonly Measurement[]; before: Measurement | undefined } | undefined => {
  const all = field.samplings.flatMap((s) => zoneMeasurements(s, zone.id).filter((m) => m.analyte === analyte && m.purpose === "routine"));
  const newest = all.at(-1);
  const series = splitIntoSeries(all).find((s) => newest && s.measurements.includes(newest))?.measurements;
  if (!newest || !series) return undefined;
  return { series, before: all.findLast((m) => m.date < series[0]!.date) };
};

/** "More potash went out than in from October 2018 to October 2025 (112 lb/ac), and the potassium test fell from 131 to 96 ppm: the two agree." */
export const balanceSentence = (
  farm: Farm,
  field: Field,
  zone: Zone,
  nutrient: "P2O5" | "K2O",
  records: PlaceRecords,
  sets: readonly CoefficientSet[],
  leastChange: LeastChange,
): string => {
  const analyte = testOf[nutrient];
  const test = `the ${analyteInSentence(analyte)} test`;
  const found = newestSeries(field, zone, analyte);
  if (!found) return `Nothing to set it beside: ${analyteInSentence(analyte)} was not tested.`;
  const { series, before } = found;
  const [first, last] = [series[0]!, series.at(-1)!];
  if (first === last) {
    const why = before ? (whyNotComparable(before, last) ?? "one sampling stands alone") : "it was tested once";
    return `Whether it agrees with ${test} cannot be told, because ${why}: ${numberLabel(last)} in ${monthYear(last.date)} stands alone.`;
  }
  const period = balanceBetween(records, nutrient, sets, first.date, last.date);
  const change = `${numberLabel(first)} in ${monthYear(first.date)}, ${measurementLabel(last)} in ${monthYear(last.date)}`;
  if (period.kind === "noAnswer") return `Whether it agrees with ${test} cannot be told, because ${period.because}: ${change}.`;
  const { net } = period.value;
  const { value, unit } = nutrientRate({ value: Math.abs(net), unit: "lb/ac" }, farm.units);
  // Less than is shown is no direction either: "more out than in (0 lb/ac)" would contradict itself.
  const shown = Number(value) === 0 ? 0 : net;
  const outcome = balanceAndTest(first, last, leastChange(zone, first, last), shown);
  const ways = (["lower", "upper"] as const)
    .map((end) => balanceBetween(records, nutrient, sets, first.date, last.date, end))
    .map((o) => (o.kind === "answer" ? Math.sign(o.value.net) : 0));
  if (ways[0] !== ways[1])
    return `Whether it agrees with ${test} cannot be told, because the balance goes either way within the printed ranges of what a harvest takes away: ${change}.`;
  const label = nutrients[nutrient].label.toLowerCase();
  // The years after the newest sampling are in the sum above, and not in this one.
  const span = `from ${monthYear(first.date)} to ${monthYear(last.date)}`;
  const went =
    shown === 0
      ? `As much ${label} went in as out ${span}`
      : `More ${label} went ${net < 0 ? "out than in" : "in than out"} ${span} (${value} ${unit})`;
  if (outcome.kind === "noAnswer") return `${went}. Whether ${test} agrees cannot be told, because ${outcome.because}: ${change}.`;
  const { test: way, agree } = outcome.value;
  const moved = `${test} ${way} from ${numberLabel(first)} to ${measurementLabel(last)}`;
  return agree
    ? `${went}, and ${moved}: the two agree.`
    : `${went}, yet ${moved}: the two disagree, which the balance alone does not explain.`;
};
