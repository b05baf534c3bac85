import { shareOf } from "../../interpretation/products.ts";
import type { NutrientId, SuppliedId } from "../../interpretation/vocabulary.ts";
import type { Field, Zone } from "../../records/model.ts";
import type { ZoneAdviceView } from "../advice/adviceView.ts";
import { appliedWords } from "../advice/appliedRate.ts";
import type { ZoneAdvice } from "../advice/sample.ts";

/**
 * What the records say was spread on a zone since its advice was last true: lime since the sampling; fertilizer that brings one of some nutrients,
 * and manure, which brings each of them, since the sampling and the last harvest, whichever is later, because what went on before a harvest was
 * for that crop. What was spread on the very day counts: soil is sampled before it is spread on. Fertilizer nitrogen does not count where
 * nitrogen was tested: the test saw it, or it is taken off. "120 lb/ac of potash on 3 March 2026".
 */
export const alreadySpread = (field: Field, { zone, sampling, nitrogen }: ZoneAdvice, of: "lime" | readonly SuppliedId[]): string[] => {
  const here = <T extends { readonly zones: readonly string[] }>(each: readonly T[]): T[] =>
    each.filter(({ zones }) => zones.includes(zone.id));
  const harvests = field.seasons.flatMap((s) => here(s.crops).flatMap((c) => c.harvested ?? []));
  const since = of === "lime" ? sampling.date : [sampling.date, ...harvests].sort().at(-1)!;
  const nutrients = of === "lime" ? [] : of.filter((nutrient) => nutrient !== "N" || !nitrogen?.sampling);
  return field.seasons
    .flatMap((s) => here(s.applications))
    .filter(({ date, product: { product, fertilizer, brings } }) => {
      if (date < since) return false;
      if (of === "lime") return product.kind === "lime";
      const analysis = product.kind === "lime" ? (brings ?? {}) : fertilizer?.analysis;
      return !analysis || nutrients.some((nutrient) => shareOf(analysis, nutrient) > 0);
    })
    .sort((a, b) => (a.date < b.date ? -1 : 1))
    .map(appliedWords);
};

/** A zone with what its page tells a person to spread. */
export interface ToldZone {
  readonly field: Field;
  readonly zone: Zone;
  readonly advised: { readonly advice: ZoneAdvice; readonly view: ZoneAdviceView } | undefined;
}

/** What was spread since on a zone of what it is told to spread, or of that `only` some nutrients; nothing where none of it is called for. */
export const spreadSinceAdvice = ({ field, advised }: ToldZone, job: "lime" | "fertilizer", only?: readonly NutrientId[]): string[] => {
  if (!advised) return [];
  const asked = advised.view.actions.map((action) => action.kind);
  if (job === "lime") return asked.includes("lime") ? alreadySpread(field, advised.advice, "lime") : [];
  const nutrients = asked.filter((kind) => kind !== "lime" && (!only || only.includes(kind)));
  return nutrients.length > 0 ? alreadySpread(field, advised.advice, nutrients as NutrientId[]) : [];
};
