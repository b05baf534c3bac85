import { whyNotComparable } from "../../interpretation/comparable.ts";
import type { Measurement } from "../../interpretation/measurement.ts";
import type { AnalyteId } from "../../interpretation/vocabulary.ts";
import type { Field, Sampling } from "../../records/model.ts";
import { apartMark } from "../advice/apart.ts";
import { zoneMeasurements } from "../results/zoneMeasurements.ts";
import { list } from "../words.ts";

/** The result of one test in one zone of one sampling. */
export const resultOf = (sampling: Sampling, zone: string, analyte: AnalyteId): Measurement | undefined =>
  zoneMeasurements(sampling, zone).find((m) => m.analyte === analyte);

/** Why a sampling's results must not be compared with the newest of their zones: each reason, with the zones it holds of unless those are all. */
const reasonsOf = (
  field: Field,
  sampling: Sampling,
  analyte: AnalyteId,
  samplings: readonly Sampling[],
): { because: string; zones: string[] }[] => {
  const reasons = new Map<string, string[]>();
  for (const { id, name } of field.zones) {
    const own = resultOf(sampling, id, analyte);
    const newest = samplings.findLast((s) => resultOf(s, id, analyte));
    const because = own && newest && whyNotComparable(own, resultOf(newest, id, analyte)!);
    if (because !== undefined) reasons.set(because, [...(reasons.get(because) ?? []), name]);
  }
  const tested = field.zones.filter((z) => resultOf(sampling, z.id, analyte)).length;
  return [...reasons].map(([because, zones]) => ({ because, zones: zones.length === tested ? [] : zones }));
};

/** "† Not comparable with the newest results: the method changed from ammonium acetate to Mehlich-3, ICP." */
export const apartFromNewest = (
  field: Field,
  sampling: Sampling,
  analyte: AnalyteId,
  samplings: readonly Sampling[],
): string | undefined => {
  const words = reasonsOf(field, sampling, analyte, samplings).map(({ because, zones }) =>
    zones.length === 0 ? because : `${list(zones)}, because ${because}`,
  );
  return words.length === 0 ? undefined : `${apartMark} Not comparable with the newest results: ${words.join("; ")}.`;
};

/** Said of the newest map: which of the others must not be compared with it, and why. */
export const othersApart = (field: Field, analyte: AnalyteId, labels: ReadonlyMap<Sampling, string>): string | undefined => {
  const samplings = [...labels.keys()];
  const reasons = new Map<string, string[]>();
  for (const [sampling, label] of labels)
    for (const { because, zones } of reasonsOf(field, sampling, analyte, samplings)) {
      const of = `${zones.length === 0 ? "" : ` on ${list(zones)}`}, because ${because}`;
      reasons.set(of, [...(reasons.get(of) ?? []), label]);
    }
  const words = [...reasons].map(([of, years]) => `${list(years)}${of}`);
  return words.length === 0 ? undefined : `Not comparable with the newest results, and marked ${apartMark}: ${words.join("; ")}.`;
};
