import type { Outcome } from "../../interpretation/outcome.ts";
import { answer, noAnswer } from "../../interpretation/outcome.ts";
import { limeCounted } from "../../interpretation/lime/lime.ts";
import { round } from "../../interpretation/show.ts";
import type { Amount, RateUnit } from "../../interpretation/units.ts";
import { convert, oxidePerElement, rateUnits } from "../../interpretation/units.ts";
import { crops } from "../../interpretation/vocabulary.ts";
import type { ReplacedId, Worth } from "../../interpretation/balance/worthOfTesting.ts";
import { replaced, worthOfTesting } from "../../interpretation/balance/worthOfTesting.ts";
import type { Farm, Field, Zone } from "../../records/model.ts";
import { awaitedOf } from "../results/awaited.ts";
import { coefficientSets } from "../balance/placeRecords.ts";
import { laterCropsLeftOut, leavesOutProducts, leftOutForReader } from "../leftOut.ts";
import type { ZoneAdvice } from "../advice/sample.ts";
import { latestAdvice } from "../advice/sample.ts";
import type { EvidenceMark, StepRow } from "../steps.ts";
import { outcomeEvidence, stepRows } from "../steps.ts";
import { fieldTesting } from "./testingCosts.ts";
import { inUnitsOf, money, moneyPerArea } from "../units.ts";
import { count, list, longDate } from "../words.ts";

export interface ZoneWorth {
  readonly zone: Zone;
  readonly says: string;
  readonly steps: readonly StepRow[];
  readonly evidence: EvidenceMark | undefined;
}

export interface WorthView {
  readonly says: string;
  readonly zones: readonly ZoneWorth[];
}

type Rate = Outcome<Amount<RateUnit>>;

/** The rate as it was issued from this sampling for this crop, where advice was kept. */
const issuedRate = (field: Field, zone: ZoneAdvice, id: ReplacedId): { readonly rate: Rate; readonly issued: string } | undefined => {
  const kept = field.recommendations.findLast((r) => r.record.sampling.id === zone.sampling.id);
  const own = kept?.record.zones.find((z) => z.zone === zone.zone.id);
  if (!kept || !own || own.inputs.crop?.["crop"] !== zone.crop?.crop || own.inputs.crop?.["season"] !== zone.crop?.season) return undefined;
  const figures = own.answers.find((a) => a.question === id.toLowerCase())?.figures;
  const [value, unit] = [figures?.["value"], rateUnits.find((u) => u === figures?.["unit"])];
  return typeof value === "number" && unit
    ? {
        rate: answer({ value, unit }, [
          { what: `As issued on ${longDate(kept.id)}`, result: "", source: { record: { file: kept.file, line: 1, column: 1 } } },
        ]),
        issued: kept.id,
      }
    : undefined;
};

/** What is advised of a nutrient, as its oxide. */
const advisedRate = (zone: ZoneAdvice, id: ReplacedId): Rate => {
  const of = (nutrient: string) => zone.advice.rates.find((r) => r.nutrient === nutrient)?.outcome;
  const asOxide = of(id);
  if (asOxide?.kind === "answer") return answer(asOxide.value.rate, asOxide.steps);
  const asElement = of(replaced[id]);
  if (asElement?.kind === "answer")
    return answer({ ...asElement.value.rate, value: asElement.value.rate.value * oxidePerElement[id] }, asElement.steps);
  return asOxide ?? asElement ?? noAnswer("none of the chosen guidelines gives one", ["a guideline"]);
};

/** What the lime that is called for costs an acre. */
const limeCost = ({ advice: { lime } }: ZoneAdvice): Outcome<number> => {
  if (lime.needed.kind === "noAnswer") return lime.needed;
  if (lime.needed.value === "none") return answer(0, []);
  const counted = limeCounted(lime);
  if (!counted) return noAnswer("the farm lists no liming material", ["a liming material in farm.yaml"]);
  if (counted.outcome.kind === "noAnswer") return counted.outcome;
  const { costPerAcre } = counted.outcome.value;
  return costPerAcre === undefined ? noAnswer(`${counted.material.name} has no price`, ["a price in farm.yaml"]) : answer(costPerAcre, []);
};

interface Found {
  readonly outcome: Outcome<Worth>;
  readonly advice: ZoneAdvice | undefined;
  /** The day of the kept advice that both rates are taken from. */
  readonly issued?: string | undefined;
}

const known = new WeakMap<Farm, Map<Zone, Found>>();

/** What the newest full sampling of a zone is worth against feeding it blind; worked out once for its field's page and the calendar. */
const zoneWorth = (farm: Farm, field: Field, zone: Zone): Found => {
  let zones = known.get(farm);
  if (!zones) known.set(farm, (zones = new Map<Zone, Found>()));
  let found = zones.get(zone);
  if (!found) zones.set(zone, (found = workOut(farm, field, zone)));
  return found;
};

const workOut = (farm: Farm, field: Field, zone: Zone): Found => {
  const advice = latestAdvice(farm, field, zone);
  if (!advice && awaitedOf(field, zone).length > 0)
    return { outcome: noAnswer("its results are awaited", ["the results of its bags"]), advice };
  if (!advice) return { outcome: noAnswer("it has no full sampling yet", ["a sampling"]), advice };
  const { crop } = advice;
  if (!crop?.source && laterCropsLeftOut(farm)) return { outcome: noAnswer(`the next crop is ${leftOutForReader}`), advice };
  if (!crop?.source) return { outcome: noAnswer("no crop is planned", ["a planned crop in field.yaml"]), advice };
  const harvest = { season: crop.season, crop: crop.crop, yield: crop.yieldGoal, straw: crop.straw, source: crop.source };
  if (crop.yieldGoal === undefined)
    return { outcome: noAnswer(`no yield goal is set for ${crops[crop.crop].label}`, ["a yield goal in the plan of field.yaml"]), advice };
  const [phosphate, potash] = [issuedRate(field, advice, "P2O5"), issuedRate(field, advice, "K2O")];
  const outcome = worthOfTesting({
    advised:
      phosphate && potash
        ? { P2O5: phosphate.rate, K2O: potash.rate }
        : { P2O5: advisedRate(advice, "P2O5"), K2O: advisedRate(advice, "K2O") },
    harvest,
    coefficients: coefficientSets(field),
    fertilizers: [...farm.products.values()].flatMap((p) => p.fertilizer ?? []),
    lime: limeCost(advice),
    testing: fieldTesting(farm, field),
    written: farm,
  });
  return { outcome, advice, issued: phosphate && potash?.issued };
};

const signed = (value: number, farm: Farm): string =>
  value < 0 ? `${moneyPerArea(-value, farm)} more is spent than without` : `${moneyPerArea(value, farm)} is left`;

/** `shared`: cautions that are told once for the whole field. */
const zoneWords = (farm: Farm, { outcome, advice, issued }: Found, shared: readonly string[]): string => {
  if (outcome.kind === "noAnswer") return `No comparison, because ${outcome.because}.`;
  const { advised, blind, lime, left } = outcome.value;
  const crop = `${crops[advice!.crop!.crop].label} ${advice!.crop!.season}`;
  const results = `${moneyPerArea(advised, farm)} of phosphate and potash by the results${issued ? `, as issued on ${longDate(issued)}` : ""}`;
  const limeWords = lime ? `, lime ${moneyPerArea(lime, farm)} a year` : "";
  const says = `For ${crop}: ${results}, ${moneyPerArea(blind, farm)} to replace the harvest${limeWords}; after the laboratory ${signed(left, farm)} each year.`;
  return [says, ...outcome.cautions.filter((c) => !shared.includes(c))].join(" ");
};

/** Cautions that hold for every zone of several that have an answer, such as lime that no guideline has a word on. */
const sharedCautions = (found: readonly Found[]): readonly string[] => {
  const cautions = found.flatMap(({ outcome }) => (outcome.kind === "answer" ? [outcome.cautions] : []));
  return cautions.length < 2 ? [] : cautions[0]!.filter((c) => cautions.every((of) => of.includes(c)));
};

interface Sum {
  /** Zones in the sum. */
  readonly zones: number;
  readonly saved: number;
  readonly lime: number;
  readonly testing: number;
  readonly left: number;
  readonly without: readonly string[];
  /** Zones in the sum whose lime has no cost that is known. */
  readonly withoutLime: readonly string[];
}

/** Money a year over the zones that have both an answer and an area. */
const sumOf = (farm: Farm, field: Field): Sum => {
  let sum: Omit<Sum, "without" | "withoutLime"> = { zones: 0, saved: 0, lime: 0, testing: 0, left: 0 };
  const [without, withoutLime]: [string[], string[]] = [[], []];
  for (const zone of field.zones) {
    const { outcome } = zoneWorth(farm, field, zone);
    if (outcome.kind === "noAnswer" || zone.squareMeters === undefined) {
      without.push(zone.name);
      continue;
    }
    const acres = convert(zone.squareMeters, "sq m", "acre");
    if (outcome.value.lime === undefined) withoutLime.push(zone.name);
    const { saved, lime = 0, testing, left } = outcome.value;
    sum = {
      zones: sum.zones + 1,
      saved: sum.saved + saved * acres,
      lime: sum.lime + lime * acres,
      testing: sum.testing + testing * acres,
      left: sum.left + left * acres,
    };
  }
  return { ...sum, without, withoutLime };
};

const plus = (a: Sum, b: Sum): Sum => ({
  zones: a.zones + b.zones,
  saved: a.saved + b.saved,
  lime: a.lime + b.lime,
  testing: a.testing + b.testing,
  left: a.left + b.left,
  without: [...a.without, ...b.without],
  withoutLime: [...a.withoutLime, ...b.withoutLime],
});
const amount = (value: number, farm: Farm): string => `${value < 0 ? "−" : ""}${money(Math.abs(value), farm.currency)}`;

/** More than these are counted in place of being named. */
const mostNamed = 12;

const namedOrCounted = (names: readonly string[]): string =>
  names.length > mostNamed ? `${count(names.length, "field or zone", "fields or zones")}, each told on its field's page` : list(names);

/** "Over the whole field: ..." */
const sumWords = (farm: Farm, where: string, { zones, saved, lime, testing, left, without, withoutLime }: Sum): string => {
  const fed = saved < 0 ? `${amount(-saved, farm)} more` : `${amount(saved, farm)} less`;
  const limed = lime > 0 ? `, lime costs ${amount(lime, farm)}` : "";
  const end = left < 0 ? `${amount(-left, farm)} more is spent than without testing` : `${amount(left, farm)} is left`;
  const rounded = round(saved, 0) - round(lime, 0) - round(testing, 0) === round(left, 0) ? "" : ", each rounded";
  const says = `${where}, a year: phosphate and potash cost ${fed} than replacing the harvests${limed}, the laboratory ${amount(testing, farm)}: ${end}${rounded}.`;
  const named = [
    ...(without.length > 0 ? [namedOrCounted(without)] : []),
    ...(withoutLime.length > 0 ? [withoutLime.length === zones ? "lime" : `lime on ${namedOrCounted(withoutLime)}`] : []),
  ];
  return named.length === 0 ? says : `${says} Not in the sum: ${named.join("; ")}.`;
};

/** What lime costs a field; of zones that are all without an answer it is not known, and not nothing. */
const limeAmount = (farm: Farm, field: Field, { lime, without, withoutLime }: Sum): string => {
  if (withoutLime.length === 0) return amount(lime, farm);
  return withoutLime.length + without.length === field.zones.length ? "not known" : `${amount(lime, farm)}, in part`;
};

/** What the sum leaves out, once for a page. */
export const worthLimits: readonly string[] = [
  "Set against feeding blind: phosphate and potash that replace what the planned harvest takes away, and no lime at all. Prices are those on the farm's list.",
  "It prices no yield, lost or gained. Where the results call for more than the harvest takes, or for lime, they cost money here, and what poor or acid soil would have cost is not counted. Where they call for less, it is the soil that pays: that saving ends when it has come down.",
];

/** It is a sum of money that rests on yields. */
export const worthLeftOut = (farm: Farm): string | undefined =>
  leavesOutProducts(farm) ? `The worth of testing is ${leftOutForReader}.` : undefined;

/** Is testing worth it? One field, zone by zone. */
export const worthView = (site: Farm, field: Field): WorthView => {
  if (worthLeftOut(site)) return { says: worthLeftOut(site)!, zones: [] };
  const farm = inUnitsOf(site, field);
  const all = field.zones.map((zone) => ({ zone, found: zoneWorth(farm, field, zone) }));
  const shared = sharedCautions(all.map(({ found }) => found));
  const zones = all.map(({ zone, found }): ZoneWorth => {
    return {
      zone,
      says: zoneWords(farm, found, shared),
      steps: found.outcome.kind === "answer" ? stepRows(found.outcome.steps, farm.references) : [],
      evidence: outcomeEvidence(found.outcome),
    };
  });
  const sum = sumOf(farm, field);
  return {
    says: [
      ...(sum.zones === 0 ? [] : [sumWords(farm, "Over the whole field", shared.length > 0 ? { ...sum, withoutLime: [] } : sum)]),
      ...shared,
    ].join(" "),
    zones,
  };
};

export interface FarmWorth {
  readonly says: string;
  readonly rows: readonly {
    readonly field: Field;
    readonly saved: string;
    readonly lime: string;
    readonly testing: string;
    readonly left: string;
    readonly none: string | undefined;
  }[];
}

/** The same summed over the farm. */
export const farmWorth = (farm: Farm): FarmWorth => {
  if (worthLeftOut(farm)) return { says: worthLeftOut(farm)!, rows: [] };
  const found = farm.fields.map((field) => ({ field, sum: sumOf(inUnitsOf(farm, field), field) }));
  const answered = found.filter(({ field, sum }) => sum.without.length < field.zones.length);
  const named = found.map(({ field, sum }): Sum => ({
    ...sum,
    without: sum.without.length === field.zones.length ? [field.name] : sum.without.map((zone) => `${zone} of ${field.name}`),
    withoutLime: sum.withoutLime.map((zone) => `${zone} of ${field.name}`),
  }));
  return {
    says:
      answered.length === 0
        ? "Whether testing pays cannot be told of any field; each field's page says why."
        : sumWords(farm, "Over the farm", named.reduce(plus)),
    rows: found.map(({ field, sum }) => {
      const outcome = zoneWorth(inUnitsOf(farm, field), field, field.zones[0]!).outcome;
      const none =
        sum.without.length < field.zones.length
          ? undefined
          : `not told${outcome.kind === "noAnswer" ? `, because ${outcome.because}` : ", because no area is known"}`;
      return {
        field,
        saved: amount(sum.saved, farm),
        lime: limeAmount(farm, field, sum),
        testing: amount(sum.testing, farm),
        left: amount(sum.left, farm),
        none,
      };
    }),
  };
};
