import type { Farm, Withheld } from "../records/model.ts";
import { list } from "./words.ts";

type Part = Withheld["parts"] extends ReadonlySet<infer P> ? P : never;

/** Whether this part of the farm was taken out for the reader. False for the owner's own site. */
export const leavesOut = (farm: Pick<Farm, "withheld">, part: Part): boolean => farm.withheld?.parts.has(part) ?? false;

/** What stands in place of a value or a section that was taken out. */
export const leftOutForReader = "left out for this reader";

/** What to buy goes by prices and by every rate: without one of them another product would be chosen than the farm's own. */
export const leavesOutProducts = (farm: Pick<Farm, "withheld">): boolean =>
  leavesOut(farm, "costs") || leavesOut(farm, "yields") || leavesOut(farm, "nitrogen");

const partWords: Record<Part, string> = {
  costs: "prices, fees and every sum of money",
  yields: "yields, yield goals, and the rates and balances that rest on them",
  notes: "the owner's notes and reasons",
  positions: "where the fields lie, and their outlines",
  nitrogen: "nitrogen: its tests, rates and what was spread of it",
};

/** "everything before 2018 and after 2024"; empty where every year is shown. */
const yearWords = ({ years }: Withheld): string[] => {
  if (!years) return [];
  const bounds = [years.from !== undefined && `before ${years.from}`, years.to !== undefined && `after ${years.to}`];
  return [`everything ${list(bounds.filter((b) => b !== false))}`];
};

/** What a page for one reader says of itself; nothing on the owner's own site. */
export const excerptWords = (farm: Farm): string | undefined => {
  const { withheld } = farm;
  if (!withheld) return undefined;
  const out = [
    ...(Object.keys(partWords) as Part[]).filter((part) => withheld.parts.has(part)).map((part) => partWords[part]),
    ...yearWords(withheld),
  ];
  return [
    `Excerpt of the farm's records, made for: ${withheld.reader}.`,
    withheld.someFields && "Only the fields named here are shown.",
    out.length > 0 ? `Left out: ${out.join("; ")}.` : "Of these fields nothing is left out.",
    withheld.years && "What is called first, last, never, not yet or not recorded is so in the years shown.",
  ]
    .filter(Boolean)
    .join(" ");
};

/** What stands where nothing is due, which only the owner's own site can say: " Rates that rest on a yield are left out for this reader." beside what is. */
export const ratesLeftOut = (farm: Farm): string =>
  leavesOut(farm, "yields") ? `Rates that rest on a yield are ${leftOutForReader}.` : "";

/** Crops after the last year shown are left out: of none to come it is not said that none is planned. */
export const laterCropsLeftOut = (farm: Pick<Farm, "withheld">): boolean => farm.withheld?.years?.to !== undefined;

/** What is advised for, where no crop is known. */
export const noCropWords = (farm: Pick<Farm, "withheld">): string =>
  laterCropsLeftOut(farm) ? "a crop after the years shown" : "no crop planned";

/** What stands in place of rates for such a crop. */
export const laterRatesLeftOut = `Rates for crops after the years shown are ${leftOutForReader}.`;

/** " in the years shown", where an absence is told of an excerpt of years: before and after them anything may be on record. */
export const inYearsShown = (farm: Farm): string => (farm.withheld?.years ? " in the years shown" : "");

/** When a zone without a sampling was sampled. */
export const neverWords = (farm: Farm): string => (inYearsShown(farm) === "" ? "never" : `not${inYearsShown(farm)}`);

/** "; earlier years are left out for this reader": behind what is counted over the years shown. */
export const otherYearsLeftOut = ({ withheld }: Farm): string => {
  if (!withheld?.years) return "";
  const { from, to } = withheld.years;
  return `; ${[from !== undefined && "earlier", to !== undefined && "later"].filter(Boolean).join(" and ")} years are ${leftOutForReader}`;
};
