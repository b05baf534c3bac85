import type { FarmProduct, Field } from "../../records/model.ts";
import { appliedRate } from "../advice/appliedRate.ts";
import type { ZoneAdvice } from "../advice/sample.ts";
import { longDate } from "../words.ts";

/**
 * What the records say was spread on a zone since its advice was last true: lime since the sampling, fertilizer and manure since the sampling
 * and the last harvest, whichever is later, because what went on before a harvest was for that crop. Not what brings nitrogen alone where
 * nitrogen was tested: the test saw it, or it is taken off. "120 lb/ac of potash on 3 March 2026".
 */
export const alreadySpread = (
  field: Field,
  { zone, sampling, nitrogen }: ZoneAdvice,
  job: "lime" | "fertilizer",
  holds: (product: FarmProduct) => boolean = () => true,
): string[] => {
  const here = <T extends { readonly zones: readonly string[] }>(each: readonly T[]): T[] =>
    each.filter(({ zones }) => zones.includes(zone.id));
  const harvests = field.seasons.flatMap((s) => here(s.crops).flatMap((c) => c.harvested ?? []));
  const since = job === "lime" ? sampling.date : [sampling.date, ...harvests].sort().at(-1)!;
  return field.seasons
    .flatMap((s) => here(s.applications))
    .filter((a) => a.date > since && (a.product.product.kind === "lime") === (job === "lime") && holds(a.product))
    .filter((a) => !nitrogen?.sampling || !isNitrogenAlone(a.product))
    .sort((a, b) => (a.date < b.date ? -1 : 1))
    .map((a) => `${appliedRate(a)} of ${a.product.product.name} on ${longDate(a.date)}`);
};

const isNitrogenAlone = ({ fertilizer }: FarmProduct): boolean =>
  fertilizer !== undefined && Object.entries(fertilizer.analysis).every(([nutrient, share]) => nutrient === "N" || share === 0);
