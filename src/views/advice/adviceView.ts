import type { RateAdvice } from "../../interpretation/nutrientRates.ts";
import type { CautionPlace } from "../../interpretation/caution.ts";
import { standsBeside } from "../../interpretation/cautions.ts";
import type { LimeRate } from "../../interpretation/lime/lime.ts";
import { isTooLittleLime } from "../../interpretation/lime/limeForDepth.ts";
import type { Outcome } from "../../interpretation/outcome.ts";
import { limeName } from "../../interpretation/rules/limeBasis.ts";
import type { NutrientRate } from "../../interpretation/rules/nutrientRate.ts";
import type { NutrientId } from "../../interpretation/vocabulary.ts";
import { analyteInSentence, crops, nutrients } from "../../interpretation/vocabulary.ts";
import { plain } from "../../interpretation/show.ts";
import { unitChoices } from "../../interpretation/unitChoices.ts";
import { convert } from "../../interpretation/units.ts";
import type { Farm, Zone } from "../../records/model.ts";
import { cautionView } from "./cautionViews.ts";
import { doseList } from "./doses.ts";
import { limeGoal } from "./limeGoal.ts";
import { missingWords } from "./missingWords.ts";
import { nitrogenOutcomes, nitrogenRows } from "./nitrogenView.ts";
import type { Bought } from "./productsView.ts";
import { zoneProducts } from "./productsView.ts";
import type { ZoneAdvice } from "./sample.ts";
import { outcomeEvidence, stepRows } from "../steps.ts";
import { currentNitrogen } from "./zonePurchase.ts";
import { isNothing, limeMass, limeRate, limeWords, money, nutrientSpan } from "../units.ts";
import type { AdviceRow } from "./adviceRow.ts";

/** What a person does with it, for the first sentence of a page. */
export interface Action {
  readonly zone: Zone;
  readonly kind: "lime" | NutrientId;
  readonly amount: string;
  /** The amount as a number, of one unit for each kind: which of two is the greater. */
  readonly size: number;
  /** The material, of lime alone. */
  readonly material?: string;
}

export interface ZoneAdviceView {
  readonly rows: readonly AdviceRow[];
  readonly actions: readonly Action[];
  readonly outcomes: readonly Outcome<unknown>[];
  readonly limeCost: number | undefined;
  /** What the whole zone takes of each fertilizer. */
  readonly bought: readonly Bought[];
}

const noCrop = "no crop planned";
/** "For corn 2026, 180 bu/ac": how a crop's words begin its advice. */
export const forCrop = (crop: string): string => (crop === noCrop ? "No crop is planned" : `For ${crop}`);

/** What is advised for, where no crop is known. */
export const noCropFor = (zone: ZoneAdvice): string => (zone.sample.facts.cropWithheld ? "a crop after the years shown" : noCrop);

export const cropWords = (zone: ZoneAdvice): string => {
  if (!zone.crop) return noCropFor(zone);
  const goal = zone.crop.yieldGoal;
  return `${crops[zone.crop.crop].label} ${zone.crop.season}${goal ? `, ${plain(goal.value)} ${goal.unit}` : ""}`;
};

export const noRate = (what: string, because: string): string => `No ${what}, because ${because}.`;

const nutrientRow = (farm: Farm, zone: ZoneAdvice, rate: RateAdvice): AdviceRow => {
  const { label, symbol } = nutrients[rate.nutrient];
  const base = {
    id: `${zone.zone.id}-${rate.nutrient.toLowerCase()}`,
    zone: zone.zone,
    subject: `${label} (${symbol})`,
    guideline: rate.pack && { id: rate.pack.id, short: rate.pack.short },
    evidence: outcomeEvidence(rate.outcome),
  };
  if (rate.outcome.kind === "noAnswer")
    return {
      ...base,
      value: "",
      unit: "",
      detail: "",
      none: noRate(`${label.toLowerCase()} rate`, rate.outcome.because),
      noRate: { of: label.toLowerCase(), because: rate.outcome.because },
      missing: missingWords(rate.outcome.missing),
      steps: [],
    };
  const { rating } = rate.outcome.value;
  const shown = nutrientSpan(rate.outcome.value, farm.units);
  return {
    ...base,
    value: shown.value,
    unit: shown.unit,
    detail: `for ${cropWords(zone)}${doseWords(rate.outcome.value, farm.units)}${rating ? `; ${analyteInSentence(rate.analyte)} is ${rating.band}` : ""}`,
    none: undefined,
    missing: [],
    steps: stepRows(rate.outcome.steps, farm.references),
  };
};

/** "; in doses: 60 in the autumn before, 80 for the first cut; doubtful: ..." */
const doseWords = ({ doses, doubt, rate }: NutrientRate, units: Farm["units"]): string =>
  [doses && `; in doses: ${doseList({ rate, doses }, units)}`, doubt && `; doubtful: ${doubt}`].filter(Boolean).join("");

const limeRows = (farm: Farm, zone: ZoneAdvice): AdviceRow[] => {
  const { needed, rates } = zone.advice.lime;
  const subject = zone.nitrogenAlone ? "All else" : "Lime";
  const base = { id: `${zone.zone.id}-lime`, zone: zone.zone, subject, evidence: outcomeEvidence(needed) };
  const ownPack = { guideline: undefined };
  if (needed.kind === "noAnswer")
    return [
      {
        ...base,
        ...ownPack,
        value: "",
        unit: "",
        detail: "",
        none: noRate(zone.nitrogenAlone ? "advice but on nitrogen" : "lime rate", needed.because),
        missing: missingWords(needed.missing),
        steps: [],
      },
    ];
  const steps = stepRows(needed.steps, farm.references);
  if (needed.value === "none")
    return [
      {
        ...base,
        ...ownPack,
        value: "0",
        unit: unitChoices[farm.units].lime,
        // Below its target by less than a guideline has spread: the table calls it "lime due".
        detail: isTooLittleLime(needed) ? "lime is due, and too little of it to spread" : "no lime is called for",
        none: undefined,
        missing: [],
        steps,
      },
    ];
  const { pack, requirement, basis, target } = needed.value;
  const guideline = { id: pack.id, short: pack.short };
  const inTons = limeRate(requirement, farm.units);
  const goal = limeGoal(zone.advice.ratings, target);
  const requirementDetail = `of ${limeName(basis)}${goal}`;
  if (rates.length === 0)
    return [
      {
        ...base,
        guideline,
        value: inTons.value,
        unit: inTons.unit,
        detail: `${requirementDetail}; the farm lists no liming material`,
        none: undefined,
        missing: ["a liming material in farm.yaml"],
        steps,
      },
    ];
  return rates.map(({ material, outcome }, i): AdviceRow => {
    const id = i === 0 ? base.id : `${base.id}-${i + 1}`;
    if (outcome.kind === "noAnswer")
      return {
        ...base,
        id,
        guideline,
        value: inTons.value,
        unit: inTons.unit,
        detail: requirementDetail,
        none: noRate(`rate of ${material.name}`, outcome.because),
        missing: missingWords(outcome.missing),
        steps,
      };
    return {
      ...base,
      id,
      guideline,
      evidence: outcomeEvidence(outcome),
      none: undefined,
      missing: [],
      steps: stepRows(outcome.steps, farm.references),
      ...limeCells(farm, zone, outcome.value, goal),
    };
  });
};

const limeCells = (farm: Farm, zone: ZoneAdvice, lime: LimeRate, goal: string): { value: string; unit: string; detail: string } => {
  const shown = limeRate(lime.rate, farm.units);
  const parts = [`of ${lime.material.name}${goal}`];
  const inParts = lime.applications.length > 1;
  if (inParts)
    parts.push(`in ${lime.applications.length} applications of ${limeRate(lime.applications[0]!, farm.units).value} ${shown.unit}`);
  const acres = zone.zone.squareMeters && convert(zone.zone.squareMeters, "sq m", "acre");
  if (acres !== undefined && acres > 0) {
    const tons = lime.rate.value * acres;
    const cost = lime.costPerAcre === undefined ? "" : `, ${money(lime.costPerAcre * acres, farm.currency)}`;
    parts.push(`${limeMass(tons, farm.units)} in all${cost}`);
  }
  return { ...shown, detail: `${parts.join("; ")}${inParts && lime.then ? `. ${lime.then}` : ""}` };
};

/** Everything the guidelines say of a zone, laid out as rows. */
export const zoneAdviceView = (farm: Farm, zone: ZoneAdvice): ZoneAdviceView => {
  const { lime, rates } = zone.advice;
  const products = zoneProducts(farm, zone);
  const limes = withCautions(limeRows(farm, zone), zone, "lime");
  const rows = [
    ...(zone.nitrogenAlone ? [] : limes),
    ...withCautions(nitrogenRows(farm, zone), zone, "nitrogen"),
    ...(zone.nitrogenAlone ? limes : []),
    ...rates.flatMap((rate) => {
      const row = [nutrientRow(farm, zone, rate)];
      const place = placeOf(rate.nutrient);
      return place ? withCautions(row, zone, place) : row;
    }),
    ...products.rows,
  ];
  const actions: Action[] = [];
  const limed = lime.rates.flatMap((r) => (r.outcome.kind === "answer" ? [r.outcome.value] : []))[0];
  if (limed)
    actions.push({
      zone: zone.zone,
      kind: "lime",
      amount: `${limeWords(limed.rate, farm.units)}${limed.applications.length > 1 ? `, in ${limed.applications.length} applications,` : ""}`,
      size: limed.rate.value,
      material: limed.material.name,
    });
  // Nitrogen to spread stands among them; what a law allows at most is nobody's dose.
  for (const rate of [...currentNitrogen(zone), ...rates.filter((r) => r.nutrient !== "N")]) {
    if (rate.outcome.kind !== "answer") continue;
    const shown = nutrientSpan(rate.outcome.value, farm.units);
    if (!isNothing(shown.value))
      actions.push({ zone: zone.zone, kind: rate.nutrient, amount: `${shown.value} ${shown.unit}`, size: rate.outcome.value.rate.value });
  }
  const acres = zone.zone.squareMeters && convert(zone.zone.squareMeters, "sq m", "acre");
  return {
    rows,
    actions,
    outcomes: [
      lime.needed,
      ...lime.rates.map((r) => r.outcome),
      ...nitrogenOutcomes(zone),
      ...rates.map((r) => r.outcome),
      ...products.outcomes,
    ],
    bought: products.bought,
    limeCost: limed?.costPerAcre !== undefined && acres !== undefined ? limed.costPerAcre * acres : undefined,
  };
};

/** Put a zone's cautions beside the first row of the advice each belongs to. */
const withCautions = (rows: readonly AdviceRow[], zone: ZoneAdvice, beside: CautionPlace): AdviceRow[] => {
  const views = zone.advice.cautions.filter((id) => standsBeside(id, beside)).map(cautionView);
  return rows.map((row, i) => (i === 0 && views.length > 0 ? { ...row, cautions: views } : row));
};

const placeOf = (nutrient: NutrientId): CautionPlace | undefined =>
  (({ P2O5: "phosphorus", P: "phosphorus", K2O: "potassium", K: "potassium" }) as const)[nutrient as "P2O5" | "P" | "K2O" | "K"];
