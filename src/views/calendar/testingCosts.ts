import type { Outcome } from "../../interpretation/outcome.ts";
import { answer, noAnswer } from "../../interpretation/outcome.ts";
import { counted } from "../../interpretation/show.ts";
import { testingCost } from "../../interpretation/statistics/testingCost.ts";
import { costPerArea, money as moneyOf, unitChoices } from "../../interpretation/unitChoices.ts";
import { convert } from "../../interpretation/units.ts";
import type { Farm, Field } from "../../records/model.ts";
import { bagsAdded, bagsOf, bagsSaved } from "../alike/bagCounts.ts";
import { intervalOf } from "./nextSamplings.ts";
import { nextFee } from "./testingFees.ts";
import { area, areaUnit, inUnitsOf, listedPrice } from "../units.ts";
import { list, pairsOrCount } from "../words.ts";
import { zonePairs } from "../alike/zonesCompared.ts";
import { zonesInPairs } from "../alike/zonesInPairs.ts";

/** What full sampling costs a field. Money in the farm's currency; areas in acres. */
export interface FieldTesting {
  readonly bags: number;
  readonly fee: number;
  readonly years: number;
  readonly acres: number;
  /** An acre and year. */
  readonly cost: number;
}

/** Laboratory fees of full sampling, an acre and year. Labor is not in it, nor pH checks and nitrate tests. */
export const fieldTesting = (farm: Farm, field: Field): Outcome<FieldTesting> => {
  const fee = nextFee(farm, field, "routine");
  if (fee.kind === "noAnswer") return fee;
  const { years, words } = intervalOf(field);
  if (years === undefined)
    return noAnswer(words.replace(/^When is not said, because (.*)\.$/, "$1"), ["a guideline on how often to sample"]);
  if (field.zones.some((z) => z.squareMeters === undefined))
    return noAnswer(`the area of ${list(field.zones.filter((z) => z.squareMeters === undefined).map((z) => z.name))} is not known`, [
      "a boundary",
    ]);
  const acres = convert(
    field.zones.reduce((sum, z) => sum + z.squareMeters!, 0),
    "sq m",
    "acre",
  );
  const bags = field.zones.reduce((sum, z) => sum + bagsOf(field, z, "routine", farm.today), 0);
  const cost = testingCost({ fee: fee.value.fee, acresPerSample: acres / bags, yearsBetween: years });
  return cost.kind === "noAnswer" ? cost : answer({ bags, fee: fee.value.fee, years, acres, cost: cost.value }, cost.steps);
};

/** "$0.37 an acre" */
export const centsPerArea = (costPerAcre: number, { units, currency }: Pick<Farm, "units" | "currency">): string =>
  `${costPerAcre < 0 ? "−" : ""}${moneyOf(Math.abs(costPerArea(costPerAcre, units)), currency, 2)} ${unitChoices[units].per}`;

export interface TestingRow {
  readonly field: Field;
  readonly bags: string;
  readonly each: string;
  readonly perYear: string;
  readonly sum: string;
  /** What a zone merged or split changes. */
  readonly change: string;
}

/** One field's line of the table of costs. */
export const testingRow = (site: Farm, field: Field): TestingRow => {
  const farm = inUnitsOf(site, field);
  const outcome = fieldTesting(farm, field);
  if (outcome.kind === "noAnswer")
    return { field, bags: "", each: "", perYear: "", sum: `No cost, because ${outcome.because}.`, change: "" };
  const { bags, fee, years, acres, cost } = outcome.value;
  const squareMeters = convert(acres, "acre", "sq m");
  return {
    field,
    bags: String(bags),
    each: listedPrice(bags * fee, farm.currency),
    perYear: centsPerArea(cost, farm),
    sum: `${bags} × ${moneyOf(fee, farm.currency, 2)} ÷ ${area(squareMeters, farm.units)} ${areaUnit(farm.units)} ÷ ${counted(years, "year")}`,
    change: changeWords(farm, field, fee, centsPerArea(fee / years / acres, farm)),
  };
};

/** "$18", "nothing", "nothing or $18": what so many bags cost, each amount once. */
const amounts = (farm: Farm, bags: readonly number[], fee: number): string =>
  list(
    [...new Set(bags)].sort((a, b) => a - b).map((n) => (n < 1 ? "nothing" : listedPrice(n * fee, farm.currency))),
    "or",
  );

/** What drawing the zones otherwise changes in fees: bags are counted anew by area, so that two zones of several bags may save none. */
const changeWords = (farm: Farm, field: Field, fee: number, step: string): string => {
  const pairs = zonesInPairs(field);
  const merged = amounts(
    farm,
    pairs.map((p) => bagsSaved(field, p, farm.today)),
    fee,
  );
  const split = amounts(
    farm,
    field.zones.map((z) => bagsAdded(field, z, farm.today)),
    fee,
  );
  const one = listedPrice(fee, farm.currency);
  const alike = zonePairs(farm, field)
    .filter((p) => p.verdict === "may be sampled together next time")
    .map((p) => `${list(p.zones.map((z) => z.name))}, which saves ${amounts(farm, [bagsSaved(field, p.zones, farm.today)], fee)}`);
  return `${drawnOtherwise(pairs.length > 0 ? merged : undefined, split)}; a bag of ${one} is ${step} and year.${alike.length > 0 ? ` Alike by their results, and so to be merged: ${pairsOrCount(alike, alike.join(", or "))}.` : ""}`;
};

/** What merging saves and splitting costs; a field of one zone has nothing to merge. */
const drawnOtherwise = (merged: string | undefined, split: string): string => {
  if (merged === undefined) return `A zone split in two costs ${split} more each time`;
  if (merged === split) return `Two zones merged save, and one split in two costs, ${split} each time`;
  return `Two zones merged save ${merged} each time${merged.includes(" or ") ? ", by which two they are" : ""}, and one split in two costs ${split}`;
};

/** Full sampling over every field that has a cost: money a year, and an acre and year. `without`: fields left out. */
export const farmTesting = (
  farm: Farm,
): { readonly perYear: number; readonly perAcre: number | undefined; readonly without: readonly Field[] } => {
  const found = farm.fields.map((field) => ({ field, outcome: fieldTesting(farm, field) }));
  const costed = found.flatMap(({ outcome }) => (outcome.kind === "answer" ? [outcome.value] : []));
  const perYear = costed.reduce((sum, c) => sum + (c.bags * c.fee) / c.years, 0);
  const acres = costed.reduce((sum, c) => sum + c.acres, 0);
  return {
    perYear,
    perAcre: acres > 0 ? perYear / acres : undefined,
    without: found.filter(({ outcome }) => outcome.kind === "noAnswer").map(({ field }) => field),
  };
};
