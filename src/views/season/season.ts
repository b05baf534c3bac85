import type { UnitChoice } from "../../interpretation/unitChoices.ts";
import type { Farm } from "../../records/model.ts";
import { laterCropsLeftOut, laterRatesLeftOut, leavesOut, leavesOutProducts, leftOutForReader, noCropWords } from "../leftOut.ts";
import type { CautionView } from "../advice/cautionViews.ts";
import { cautionViews } from "../advice/cautionViews.ts";
import { costWords, loadWords, priceWords, sumOf } from "./seasonAmounts.ts";
import type { SeasonDetails } from "./seasonDetails.ts";
import { seasonDetails } from "./seasonDetails.ts";
import type { SpreadJob } from "./seasonJobs.ts";
import { spreadJobs } from "./seasonJobs.ts";
import { farmNeeds, needs } from "./fieldNeeds.ts";
import { seasonZones } from "./seasonZones.ts";
import { liquidPrice, liquidVolume } from "../advice/liquid.ts";
import { capital, count, list, listOrCount, longDate } from "../words.ts";

/** One product to buy: starters and what is broadcast of it together. */
export interface ToBuy {
  readonly name: string;
  readonly units: UnitChoice;
  /** Fields that count in other units than the farm; empty for the farm's own. */
  readonly where: string;
  readonly load: string;
  readonly price: string;
  readonly cost: string;
}

export interface SeasonView extends SeasonDetails {
  readonly lede: string;
  readonly why: string;
  /** "2026", "2026 and 2027": the seasons of the next crops, or why there is none. */
  readonly seasons: string;
  readonly toBuy: readonly ToBuy[];
  /** What stands where there is nothing to buy. */
  readonly toBuyNone: string;
  readonly total: string;
  /** What the total leaves out, and why. */
  readonly leftOut: readonly string[];
  /** Those that stand beside no one rate, local codes first. */
  readonly cautions: readonly CautionView[];
}

/** "muriate of potash": a name in a sentence does without the grade behind its comma. */
const inSentence = (name: string): string => name.replace(/,\s*[\d.]+(-[\d.]+){2}$/, "");

const known = new WeakMap<Farm, SeasonView>();

/** All that the season's page shows: what to buy and where to spread it, from the newest advice of every zone. Worked out once a farm. */
export const seasonView = (farm: Farm): SeasonView => {
  const view = known.get(farm) ?? workOut(farm);
  known.set(farm, view);
  return view;
};

const workOut = (farm: Farm): SeasonView => {
  const jobs = spreadJobs(farm);
  const details = seasonDetails(farm);
  const advised = seasonZones(farm).flatMap((z) => z.advised ?? []);
  const seasons = [...new Set(advised.flatMap(({ advice }) => advice.crop?.season ?? []))].sort((a, b) => a - b).map(String);
  const cost = sumOf(linesOf(jobs), "cost");
  return {
    lede: lede(farm, jobs),
    why: why(farm, cost.known, details.gaps.length, details.old.length),
    seasons: seasons.length > 0 ? list(seasons) : advised.length > 0 ? noCropWords(farm) : "nothing advised yet",
    toBuy: purchases(jobs).map((p) => toBuy(farm, p)),
    toBuyNone: leavesOutProducts(farm)
      ? `What fertilizer to buy is ${leftOutForReader}.`
      : unmet(farm).length > 0
        ? "Nothing that can be told."
        : "Nothing.",
    total:
      jobs.length === 0
        ? ""
        : leavesOut(farm, "costs")
          ? leftOutForReader
          : cost.unknown === linesOf(jobs).length
            ? "not known"
            : costWords(cost.known, farm.units, farm.currency),
    leftOut: leftOut(farm, jobs),
    cautions: cautionViews(
      advised.map(({ advice }) => advice),
      false,
      ["page"],
    ),
    ...details,
  };
};

interface Purchased {
  readonly units: UnitChoice;
  readonly jobs: readonly [SpreadJob, ...SpreadJob[]];
}

/** Jobs of one product in one choice of units: spread apart, bought together. */
const purchases = (jobs: readonly SpreadJob[]): Purchased[] => {
  const bought = new Map<string, [SpreadJob, ...SpreadJob[]]>();
  for (const job of jobs) {
    const key = `${job.units} ${job.product.id}`;
    const same = bought.get(key);
    if (same) same.push(job);
    else bought.set(key, [job]);
  }
  return [...bought.values()].map((same) => ({ units: same[0].units, jobs: same }));
};

const linesOf = (jobs: readonly SpreadJob[]) => jobs.flatMap((j) => j.rows.map((r) => r.line));
const fieldsOf = (jobs: readonly SpreadJob[]): string =>
  listOrCount([...new Set(jobs.flatMap((j) => j.rows.map((r) => r.zone.field.name)))], "field");

/** "8.4 tons"; where no zone's area is known, that is said. */
const loadOf = ({ units, jobs }: Purchased): string => {
  const pounds = sumOf(linesOf(jobs), "pounds");
  if (pounds.unknown === linesOf(jobs).length) return "not known";
  const load = loadWords(jobs[0].kind, pounds.known, units);
  const volume = liquidVolume(jobs[0].product, pounds.known, units);
  return volume === undefined ? load : `${load} (${volume})`;
};

const toBuy = (farm: Farm, bought: Purchased): ToBuy => {
  const { units, jobs } = bought;
  const cost = sumOf(linesOf(jobs), "cost");
  const { product } = jobs[0];
  const { name, pricePerTon } = product;
  return {
    name: capital(name),
    units,
    where: units === farm.units ? "" : fieldsOf(jobs),
    load: loadOf(bought),
    price: leavesOut(farm, "costs")
      ? leftOutForReader
      : pricePerTon === undefined
        ? "no price recorded"
        : (liquidPrice(product, pricePerTon, units, farm.currency) ?? priceWords(pricePerTon, units, farm.currency)),
    cost: leavesOut(farm, "costs")
      ? leftOutForReader
      : cost.unknown === linesOf(jobs).length
        ? "not known"
        : costWords(cost.known, units, farm.currency),
  };
};

/** "lime due on two fields": what the results ask for. */
const unmet = (farm: Farm): string[] => {
  const found = [...farmNeeds(farm).values()];
  return (["lime", "potassium", "phosphorus"] as const).flatMap((kind) => {
    const fields = found.filter((each) => each.some((n) => n.kind === kind)).length;
    return fields > 0 ? [`${needs[kind].toLowerCase()} on ${count(fields, "field")}`] : [];
  });
};

const nothingToBuy = (farm: Farm): string =>
  laterCropsLeftOut(farm)
    ? `Nothing to buy that this reader is shown. ${laterRatesLeftOut}`
    : "Nothing to buy: no zone's newest advice calls for lime or fertilizer that the farm lists.";

/** The first sentence: what to buy, the fields in other units apart. */
const lede = (farm: Farm, jobs: readonly SpreadJob[]): string => {
  const all = purchases(jobs);
  if (leavesOutProducts(farm))
    return `${all.length === 0 ? "" : `Lime: ${list(all.map((p) => `${loadOf(p)} of ${inSentence(p.jobs[0].product.name)}`))}. `}What fertilizer to buy is ${leftOutForReader}.`;
  const asked = unmet(farm);
  if (all.length === 0) return asked.length > 0 ? `No load can be told: ${list(asked)}. The reasons stand below.` : nothingToBuy(farm);
  const said = (of: readonly Purchased[]): string =>
    list(
      of.map((p) =>
        loadOf(p) === "not known"
          ? `${inSentence(p.jobs[0].product.name)}, how much is not known`
          : `${loadOf(p)} of ${inSentence(p.jobs[0].product.name)}`,
      ),
    );
  const own = all.filter((p) => p.units === farm.units);
  const others = [...new Set(all.map((p) => p.units))].filter((u) => u !== farm.units).map((u) => all.filter((p) => p.units === u));
  return `Buy ${[...(own.length > 0 ? [said(own)] : []), ...others.map((of) => `for ${fieldsOf(of.flatMap((p) => p.jobs))}, ${said(of)}`)].join("; ")}.`;
};

const why = (farm: Farm, cost: number, gaps: number, old: number): string =>
  [
    "From the newest routine sampling of each zone, for its next crop.",
    cost > 0
      ? `At the farm's prices${farm.pricesOn === undefined ? "" : ` of ${longDate(farm.pricesOn)}`} it comes to about ${costWords(cost, farm.units, farm.currency)}.`
      : "",
    gaps > 0
      ? `${capital(count(gaps, "question"))} could not be answered and ${gaps === 1 ? "stands" : "stand"} below with the reason.`
      : "",
    old > 0 ? `The advice for ${count(old, "zone")} rests on an overdue sampling.` : "",
  ]
    .filter(Boolean)
    .join(" ");

const leftOut = (farm: Farm, jobs: readonly SpreadJob[]): string[] => {
  const without = leavesOut(farm, "costs")
    ? []
    : [...new Set(jobs.filter((j) => j.product.pricePerTon === undefined).map((j) => j.product.name))];
  const unmapped = [
    ...new Set(
      jobs.flatMap((j) => j.rows.filter((r) => r.line.acres === undefined).map((r) => `${r.zone.field.name}, ${r.zone.zone.name}`)),
    ),
  ];
  return [
    ...(without.length > 0 ? [`The cost leaves out ${list(without)}, because farm.yaml gives no price.`] : []),
    ...(unmapped.length > 0
      ? [
          `The loads and the cost leave out ${unmapped.length > 12 ? count(unmapped.length, "zone") : unmapped.join("; ")}, because the area is not known.`,
        ]
      : []),
  ];
};
