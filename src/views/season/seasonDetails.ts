import { isTooLittleLime } from "../../interpretation/lime/limeForDepth.ts";
import type { Outcome } from "../../interpretation/outcome.ts";
import type { Farm, Field, Reference } from "../../records/model.ts";
import { leavesOutProducts, leftOutForReader } from "../leftOut.ts";
import type { CautionView } from "../advice/cautionViews.ts";
import { cautionViews } from "../advice/cautionViews.ts";
import { isUnlimed } from "./fieldNeeds.ts";
import type { ZoneAdvice } from "../advice/sample.ts";
import type { SeasonGap } from "./seasonGaps.ts";
import { oldAdvice, seasonGaps } from "./seasonGaps.ts";
import { spreadJobs } from "./seasonJobs.ts";
import type { SeasonTable } from "./seasonTable.ts";
import { seasonTable } from "./seasonTable.ts";
import type { SeasonZone } from "./seasonZones.ts";
import { seasonZonesOf } from "./seasonZones.ts";
import { citedReferences, uncheckedWarning } from "../steps.ts";
import { placesOrCount, placesWords } from "../places.ts";
import { currentNitrogen } from "../advice/zonePurchase.ts";

/** The season by field and zone: what is spread where, what is not advised and why, and what it all rests on. */
export interface SeasonDetails {
  readonly lime: readonly SeasonTable[];
  readonly limeNone: string | undefined;
  readonly products: readonly SeasonTable[];
  /** Why there is no table of fertilizer. */
  readonly productsNone: string;
  readonly gaps: readonly SeasonGap[];
  readonly old: ReturnType<typeof oldAdvice>;
  /** What to mind before sampling, where anything is to be sampled first. */
  readonly beforeSampling: readonly CautionView[];
  readonly unchecked: string | undefined;
  readonly cited: readonly Reference[];
}

/** The same rows for the whole farm, or for those of its fields that share a page. */
export const seasonDetails = (farm: Farm, fields: readonly Field[] = farm.fields): SeasonDetails => {
  const tables = spreadJobs(farm, fields).map((job) => ({ job, table: seasonTable(farm, job) }));
  const old = oldAdvice(farm, fields);
  const outcomes = seasonZonesOf(farm, fields).flatMap(({ advised }) =>
    advised ? askedFor(advised.advice, advised.purchase.outcome) : [],
  );
  return {
    lime: oncePerPage(tables.filter(({ job }) => job.kind === "lime").map(({ table }) => table)),
    limeNone: limeNone(farm, fields),
    products: oncePerPage(tables.filter(({ job }) => job.kind !== "lime").map(({ table }) => table)),
    productsNone: leavesOutProducts(farm)
      ? `What fertilizer to buy is ${leftOutForReader}.`
      : "No fertilizer to spread: no zone has a rate that a product in farm.yaml supplies.",
    gaps: seasonGaps(farm, fields),
    old,
    beforeSampling: cautionViews([], old.length > 0),
    unchecked: uncheckedWarning(outcomes),
    cited: citedReferences(outcomes, farm.references),
  };
};

/** The answers that the season rests on; nitrogen for a crop that is past is not among them. */
const askedFor = (zone: ZoneAdvice, bought: Outcome<unknown> | undefined): Outcome<unknown>[] => {
  const { lime, rates } = zone.advice;
  return [lime.needed, ...[...lime.rates, ...currentNitrogen(zone), ...rates].map((r) => r.outcome), ...(bought ? [bought] : [])];
};

/** A caution stands in full beside the first table that calls for it. */
const oncePerPage = (tables: readonly SeasonTable[]): SeasonTable[] => {
  const told = new Set<string>();
  return tables.map((table) => {
    const cautions = table.cautions.filter((c) => !told.has(c.id));
    cautions.forEach((c) => told.add(c.id));
    return { ...table, cautions };
  });
};

/** "No lime is called for on Causeway (Knoll) and Netloft." or on how many zones, where it is due without a rate, and where that is not known. */
const limeNone = (farm: Farm, asked: readonly Field[]): string | undefined => {
  const zones = seasonZonesOf(farm, asked);
  const due = zones.filter(isUnlimed);
  const needed = ({ advised }: SeasonZone): ZoneAdvice["advice"]["lime"]["needed"] | undefined => advised?.advice.advice.lime.needed;
  const unspread = zones.filter((zone) => {
    const asked = needed(zone);
    return asked?.kind === "answer" && asked.value === "none";
  });
  const little = unspread.filter((zone) => isTooLittleLime(needed(zone)!));
  const none = unspread.filter((zone) => !little.includes(zone));
  const open = zones.filter((zone) => needed(zone)?.kind === "noAnswer" && !due.includes(zone));
  const said = [
    ...(due.length > 0 ? [`Lime is due on ${placesOrCount(due)}, and no rate of it can be given: the reason stands below.`] : []),
    ...(little.length > 0 ? [`Lime is due on ${placesWords(little)}, and too little of it to spread.`] : []),
    ...(none.length > 0 ? [`No lime is called for on ${placesOrCount(none)}.`] : []),
    ...(open.length > 0
      ? [`Whether to lime${open.length === zones.length ? "" : ` ${placesOrCount(open)}`} cannot be told: the reason stands below.`]
      : []),
  ];
  return said.length > 0 ? said.join(" ") : undefined;
};
