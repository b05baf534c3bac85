import type { Evidence, Outcome } from "../../interpretation/outcome.ts";
import { weakestEvidence } from "../../interpretation/outcome.ts";
import { shareOf } from "../../interpretation/products.ts";
import type { UnitChoice } from "../../interpretation/unitChoices.ts";
import { unitChoices } from "../../interpretation/unitChoices.ts";
import type { RateUnit, Unit } from "../../interpretation/units.ts";
import { convert } from "../../interpretation/units.ts";
import type { NutrientId, SuppliedId } from "../../interpretation/vocabulary.ts";
import { nutrientIds, nutrients, supplied } from "../../interpretation/vocabulary.ts";
import { unadvisedBecause } from "../results/awaited.ts";
import type { Farm } from "../../records/model.ts";
import type { SpreadJob } from "./seasonJobs.ts";
import { spreadJobs } from "./seasonJobs.ts";
import { alreadySpread } from "./seasonSpread.ts";
import type { SeasonZone } from "./seasonZones.ts";
import { byUnits } from "./seasonZones.ts";
import type { ZoneAdvice } from "../advice/sample.ts";
import { currentNitrogen } from "../advice/zonePurchase.ts";

/** A zone on a rate map. A rate of 0 is an answer; where there is none, `because` says why. */
export interface RateMapRow {
  readonly zone: SeasonZone;
  /** In the map's `rate` unit, over all applications. */
  readonly rate: number | undefined;
  /** The upper end, where the guideline prints a range. */
  readonly to?: number | undefined;
  readonly applications: number;
  /** The applications differ in size: the rate is spread in doses. */
  readonly unequal?: boolean;
  /** In the farm's currency; products only. */
  readonly cost?: number | undefined;
  readonly because?: string | undefined;
  /** What was spread since the sampling, and is not taken off. */
  readonly already?: readonly string[];
  readonly packs: readonly string[];
  readonly evidence: Evidence | undefined;
}

/** The rates of one product or one nutrient in every zone that is told in the same units. */
export interface RateMap {
  /** `lime-ground-limestone`, `fertilizer-potash`, `nutrient-k2o`: the name of its files. */
  readonly key: string;
  readonly title: string;
  readonly units: UnitChoice;
  readonly rateUnit: RateUnit;
  readonly massUnit: Unit;
  /** Its kind, which heads the column of what is spread. */
  readonly of: "product" | "nutrient";
  /** The product's name, or the nutrient's id in the vocabulary. */
  readonly name: string;
  readonly rows: readonly RateMapRow[];
}

const known = new WeakMap<Farm, readonly RateMap[]>();

/** A map of each product that is to be spread and of each nutrient that is asked for; worked out once a farm. */
export const rateMaps = (farm: Farm): readonly RateMap[] => {
  let maps = known.get(farm);
  if (!maps)
    known.set(
      farm,
      (maps = byUnits(farm).flatMap(({ units, zones }) => [
        ...spreadJobs(farm)
          .filter((j) => j.units === units)
          .map((job) => productMap(job, zones)),
        ...nutrientMaps(units, zones),
      ])),
    );
  return maps;
};

const productMap = (job: SpreadJob, zones: readonly SeasonZone[]): RateMap => {
  const choice = unitChoices[job.units];
  const rateUnit = job.kind === "lime" ? choice.lime : choice.rate;
  return {
    key: job.key,
    title: job.title,
    units: job.units,
    rateUnit,
    massUnit: job.kind === "lime" ? choice.limeMass : choice.mass,
    of: "product",
    name: job.product.name,
    rows: zones.map((zone): RateMapRow => {
      const line = zone.lines.find((l) => l.job === job.key);
      if (line)
        return {
          zone,
          rate: convert(line.rate, "lb/ac", rateUnit),
          applications: Math.max(line.parts, ...line.doses.map((d) => d.doses.length)),
          unequal: line.doses.some((d) => d.doses.length > 1),
          cost: line.cost,
          already: line.already,
          packs: line.packs.map((p) => p.id),
          evidence: line.evidence?.grade,
        };
      const because =
        zone.advised && !zone.advised.advice.nitrogenAlone ? whyNone(job, zone.advised.advice) : unadvisedBecause(zone.field, zone.zone);
      const { needed } = zone.advised?.advice.advice.lime ?? {};
      const evidence = job.kind === "lime" && needed?.kind === "answer" ? weakestEvidence(needed.steps) : undefined;
      return { zone, rate: because === undefined ? 0 : undefined, applications: 0, because, packs: [], evidence };
    }),
  };
};

/** Why a zone without this product may still need it: a question that had no answer. `undefined`: it is surely not called for. */
const whyNone = ({ kind, rows }: SpreadJob, zone: ZoneAdvice): string | undefined => {
  if (kind === "starter") return undefined;
  if (kind === "lime") {
    const { needed, rates } = zone.advice.lime;
    if (needed.kind === "noAnswer") return needed.because;
    const refused = rates.map((r) => r.outcome).find((o) => o.kind === "noAnswer");
    // Another of the farm's materials was taken where one of them has a rate.
    return rates.some((r) => r.outcome.kind === "answer") ? undefined : refused?.because;
  }
  const analysis = rows[0]?.line.fertilizer?.analysis ?? {};
  const open = [...currentNitrogen(zone), ...zone.advice.rates].find(
    ({ nutrient, outcome }) => outcome.kind === "noAnswer" && nutrient in supplied && shareOf(analysis, nutrient as SuppliedId) > 0,
  );
  return open?.outcome.kind === "noAnswer" ? open.outcome.because : undefined;
};

const nutrientMaps = (units: UnitChoice, zones: readonly SeasonZone[]): RateMap[] =>
  nutrientIds.flatMap((nutrient): RateMap[] => {
    const { rate: rateUnit, mass: massUnit } = unitChoices[units];
    const rows = zones.map((zone) => nutrientRow(zone, nutrient, rateUnit));
    if (!rows.some((r) => (r.to ?? r.rate ?? 0) > 0)) return [];
    const { label, symbol } = nutrients[nutrient];
    return [
      {
        key: `nutrient-${nutrient.toLowerCase()}`,
        title: `${label} (${symbol})`,
        units,
        rateUnit,
        massUnit,
        of: "nutrient",
        name: nutrient,
        rows,
      },
    ];
  });

const nutrientRow = (zone: SeasonZone, nutrient: NutrientId, rateUnit: RateUnit): RateMapRow => {
  const none = (because: string): RateMapRow => ({ zone, rate: undefined, applications: 0, because, packs: [], evidence: undefined });
  if (!zone.advised) return none(unadvisedBecause(zone.field, zone.zone));
  const asked = [...currentNitrogen(zone.advised.advice), ...zone.advised.advice.advice.rates].find((r) => r.nutrient === nutrient);
  if (!asked && zone.advised.advice.nitrogenAlone) return none(unadvisedBecause(zone.field, zone.zone));
  if (!asked) return none(`no rate of ${nutrients[nutrient].symbol} was asked of a guideline for this crop`);
  const {
    outcome,
    pack,
  }: { outcome: Outcome<{ rate: { value: number; unit: RateUnit }; to?: number | undefined }>; pack: { id: string } | undefined } = asked;
  if (outcome.kind === "noAnswer") return none(outcome.because);
  const { rate, to } = outcome.value;
  return {
    zone,
    rate: convert(rate.value, rate.unit, rateUnit),
    to: to === undefined ? undefined : convert(to, rate.unit, rateUnit),
    applications: rate.value > 0 ? 1 : 0,
    already: rate.value > 0 ? alreadySpread(zone.field, zone.advised.advice, [nutrient]) : [],
    packs: pack ? [pack.id] : [],
    evidence: weakestEvidence(outcome.steps),
  };
};
