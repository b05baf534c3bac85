import { seasonName, seasonOf } from "../../interpretation/season.ts";
import { plain } from "../../interpretation/show.ts";
import type { Farm, Sampling } from "../../records/model.ts";
import type { Order } from "../calendar/testingFees.ts";
import type { PlannedBag, SamplingPlan } from "./planComposites.ts";
import { plannedDepth } from "./planFiles.ts";
import { depth } from "../units.ts";
import { list, longDate } from "../words.ts";

/** One thing that should stay as it was, so that the next results continue the history. */
export interface KeptRow {
  readonly what: string;
  readonly last: string;
  readonly now: string;
  readonly kept: boolean;
  readonly verdict: string;
}

const kept = "the same";

/**
 * What stays as it was last time and what does not, each with what a change would end; of zones that were last sampled on another day
 * what changes for them alone. Empty where nothing was sampled for this purpose yet.
 */
export const keptRows = (farm: Farm, plan: SamplingPlan): KeptRow[] => [
  ...(plan.last
    ? rowsAgainst(
        farm,
        plan,
        plan.last,
        plan.bags.filter((b) => !plan.others.some((o) => o.zones.includes(b.zone))),
      )
    : []),
  ...plan.others.flatMap(({ last, zones }) =>
    rowsAgainst(
      farm,
      plan,
      last,
      plan.bags.filter((b) => zones.includes(b.zone)),
    ).flatMap((r) => (r.kept ? [] : [{ ...r, what: `${r.what}, ${list(zones.map((z) => z.name))}` }])),
  ),
];

const rowsAgainst = (farm: Farm, plan: SamplingPlan, last: Sampling, bags: readonly PlannedBag[]): KeptRow[] => {
  const { request, depth: deep, order = last } = plan;
  const row = (what: string, before: string, now: string, change: string): KeptRow => ({
    what,
    last: before,
    now,
    kept: before === now,
    verdict: before === now ? kept : change,
  });
  const counts = (of: readonly (number | undefined)[]): string => {
    const known = [...new Set(of.filter((n): n is number => n !== undefined))].sort((a, b) => a - b);
    return known.length === 0
      ? "not known"
      : list(
          known.map((n) => plain(n)),
          "or",
        );
  };
  const season = { spring: "spring (February to June)", autumnToWinter: "autumn or winter (July to January)" };
  const planned = deep.kind === "answer" ? plannedDepth(deep.value, farm.units) : "not known";
  const seasons =
    request.purpose === "nitrate"
      ? []
      : [
          row(
            "Season",
            season[seasonOf(last.date)],
            season[seasonOf(request.date)],
            `pH and potassium move with the season: neither can be compared with ${longDate(last.date)}. Wait for ${seasonName(last.date)} if that matters.`,
          ),
        ];
  return [
    ...seasons,
    row("Depth", depth(last.depth, farm.units), planned, "a change of depth starts a new history"),
    row("Laboratory", last.lab.name, order.lab.name, "two laboratories answer a little differently by the same method"),
    row("Tests", packageName(last), packageName(order), "another method starts a new history, and what is not tested has none"),
    row(
      "Cores in a bag",
      counts(last.composites.map((c) => c.cores)),
      counts(bags.map((b) => b.cores)),
      "results may still be compared; their noise differs",
    ),
  ];
};

const packageName = ({ lab, packageId }: Order): string => lab.packages[packageId]?.name ?? packageId;
