import type { PurposeId } from "../../interpretation/vocabulary.ts";
import type { Farm, Field, Zone } from "../../records/model.ts";
import { leavesOut, leftOutForReader } from "../leftOut.ts";
import type { NextSampling } from "./nextSamplings.ts";
import { fullSampling, isDue, phCheck } from "./nextSamplings.ts";
import { nitrogenTests } from "./nitrogenTests.ts";
import type { Slot } from "./slots.ts";
import { compareSlots, slotLabel } from "./slots.ts";
import type { TestingRow } from "./testingCosts.ts";
import { centsPerArea, farmTesting, testingRow } from "./testingCosts.ts";
import { where } from "../advice/jobs.ts";
import { listedPrice, money } from "../units.ts";
import { capital, count, list, listOrCount } from "../words.ts";
import { plannedName } from "../samplingName.ts";

export interface CalendarEntry {
  readonly field: Field;
  readonly what: string;
  readonly overdue: boolean;
  readonly purpose: PurposeId;
  /** It can be planned now, and has a plan page; an excerpt has none. */
  readonly due: boolean;
  readonly where: string;
  readonly bags: number;
  /** "$54", or why not. */
  readonly cost: string;
  readonly why: readonly string[];
}

export interface CalendarSeason {
  readonly id: string;
  readonly label: string;
  readonly total: string;
  readonly entries: readonly CalendarEntry[];
}

export interface CalendarView {
  readonly lede: string;
  readonly why: string;
  readonly seasons: readonly CalendarSeason[];
  /** Fields whose next sampling no guideline dates. */
  readonly undated: readonly CalendarEntry[];
  readonly costs: readonly TestingRow[];
  readonly farmCost: string;
}

/** Behind the field's name: "Causeway, whole field". */
const whereWords = (zones: readonly Zone[], field: Field): string => where(zones, field.zones.length).replace(/^the /, "");

const feeOf = ({ fee, bags }: NextSampling): number | undefined => (fee.kind === "answer" ? fee.value.fee * bags : undefined);

const entryOf = (farm: Farm, each: NextSampling): CalendarEntry => {
  const cost = feeOf(each);
  return {
    field: each.field,
    what: each.purpose === "routine" ? "Full sampling" : capital(plannedName(each.field.guidelines, each.purpose).label),
    overdue: each.overdue,
    purpose: each.purpose,
    due: !farm.withheld && isDue(each, farm.today),
    where: whereWords(each.zones, each.field),
    bags: each.bags,
    cost: leavesOut(farm, "costs")
      ? leftOutForReader
      : cost === undefined
        ? `not known, because ${each.fee.kind === "noAnswer" ? each.fee.because : ""}`
        : listedPrice(cost, farm.currency),
    why: each.why,
  };
};

/** "Six bags, $108" over several samplings; a cost that is not known is said to be left out. */
const totalWords = (farm: Farm, all: readonly NextSampling[]): string => {
  const bags = all.reduce((sum, each) => sum + each.bags, 0);
  const known = all.flatMap((each) => feeOf(each) ?? []);
  if (leavesOut(farm, "costs")) return `${capital(count(bags, "bag"))}, at a cost that is ${leftOutForReader}`;
  const missing = all.length - known.length;
  const cost =
    known.length === 0
      ? "at a cost that is not known"
      : `${listedPrice(
          known.reduce((a, b) => a + b, 0),
          farm.currency,
        )} to the laboratory`;
  return `${capital(count(bags, "bag"))}, ${cost}${known.length > 0 && missing > 0 ? `, without ${count(missing, "sampling")} whose cost is not known` : ""}`;
};

const known = new WeakMap<Farm, Map<Field, readonly NextSampling[]>>();

/** Every sampling of a field to come: worked out of the records alone, from the day that the site speaks from, and once for all its pages. */
export const nextSamplingsOf = (farm: Farm, field: Field): readonly NextSampling[] => {
  const fields = known.get(farm) ?? new Map<Field, readonly NextSampling[]>();
  known.set(farm, fields);
  const found = fields.get(field) ?? comingSamplings(farm, field);
  fields.set(field, found);
  return found;
};

const comingSamplings = (farm: Farm, field: Field): NextSampling[] => {
  const full = fullSampling(farm, field);
  const check = phCheck(farm, field, full);
  return [full, ...(check ? [check] : []), ...nitrogenTests(farm, field)];
};

export const nextSamplings = (farm: Farm): NextSampling[] => farm.fields.flatMap((field) => nextSamplingsOf(farm, field));

/** "full sampling of Causeway and Saltings; pH check of Netloft"; of many fields their number. */
const what = (samplings: readonly NextSampling[]): string => {
  const nameOf = ({ field, purpose }: NextSampling): string =>
    purpose === "routine" ? "full sampling" : plannedName(field.guidelines, purpose).label;
  const fieldsOf = (name: string): string[] =>
    [...new Set(samplings.filter((s) => nameOf(s) === name).map((s) => s.field))].map((field) => field.name);
  return [...new Set(samplings.map(nameOf))]
    .map((name) => `${name} of ${samplings.length <= 12 ? list(fieldsOf(name)) : count(fieldsOf(name).length, "field")}`)
    .join("; ");
};

/** The season's list for the whole farm, what it costs, and what merging or splitting zones would change. */
export const calendarView = (farm: Farm): CalendarView => {
  const all = nextSamplings(farm);
  const dated = all
    .filter((each): each is NextSampling & { slot: Slot } => each.slot !== undefined)
    .sort((a, b) => compareSlots(a.slot, b.slot));
  const bySlot = new Map<string, NextSampling[]>();
  for (const each of dated) bySlot.set(slotLabel(each.slot), [...(bySlot.get(slotLabel(each.slot)) ?? []), each]);
  const seasons = [...bySlot].map(([label, list]): CalendarSeason => ({
    id: label.toLowerCase().replace(/[^a-z0-9]+/g, "-"),
    label: capital(label),
    total: totalWords(farm, list),
    entries: list.map((each) => entryOf(farm, each)),
  }));
  const testing = farmTesting(farm);
  const [first] = bySlot;
  return {
    lede: first
      ? `Next, in ${first[0]}: ${what(first[1])}. ${totalWords(farm, first[1])}.`
      : "No sampling can be dated from these records.",
    why: "Worked out from the last samplings, the plan and the guidelines each field has chosen. A season, not a day: soil and weather set the day.",
    seasons,
    undated: all.filter((each) => each.slot === undefined).map((each) => entryOf(farm, each)),
    costs: leavesOut(farm, "costs") ? [] : farm.fields.map((field) => testingRow(farm, field)),
    farmCost: leavesOut(farm, "costs")
      ? `What sampling costs is ${leftOutForReader}.`
      : testing.perAcre === undefined
        ? "No cost for the whole farm, because none of its fields has one."
        : `Full sampling of the whole farm costs ${money(testing.perYear, farm.currency)} a year to the laboratory, ${centsPerArea(testing.perAcre, farm)} and year${
            testing.without.length > 0
              ? `, without ${listOrCount(
                  testing.without.map((f) => f.name),
                  "field",
                )}`
              : ""
          }.`,
  };
};
