import { seasonOf } from "../../interpretation/comparable.ts";
import { plain } from "../../interpretation/show.ts";
import type { Farm } from "../../records/model.ts";
import type { SamplingPlan } from "./planComposites.ts";
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

/** What stays as it was last time and what does not, each with what a change would end. Empty where nothing was sampled for this purpose yet. */
export const keptRows = (farm: Farm, { last, request, depth: deep, bags }: SamplingPlan): KeptRow[] => {
  if (!last) return [];
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
  const season = { spring: "spring, January to June", autumn: "autumn, July to December" };
  const planned = deep.kind === "answer" ? plannedDepth(deep.value, farm.units) : "not known";
  const seasons =
    request.purpose === "nitrate"
      ? []
      : [
          row(
            "Season",
            season[seasonOf(last.date)],
            season[seasonOf(request.date)],
            `pH and potassium move with the season: neither can be compared with ${longDate(last.date)}. Wait for ${seasonOf(last.date)} if that matters.`,
          ),
        ];
  return [
    ...seasons,
    row("Depth", depth(last.depth, farm.units), planned, "a change of depth starts a new history"),
    row("Laboratory", last.lab.name, last.lab.name, ""),
    row("Tests", packageName(last), packageName(last), ""),
    row(
      "Cores in a bag",
      counts(last.composites.map((c) => c.cores)),
      counts(bags.map((b) => b.cores)),
      "results may still be compared; their noise differs",
    ),
  ];
};

const packageName = ({ lab, packageId }: NonNullable<SamplingPlan["last"]>): string => lab.packages[packageId]?.name ?? packageId;
