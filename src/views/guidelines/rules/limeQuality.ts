import type { LimeQualityRule } from "../../../interpretation/rules/limeQuality.ts";
import { plain } from "../../../interpretation/show.ts";
import { limeIndices } from "../../../interpretation/vocabulary.ts";
import type { RuleParts } from "./ruleParts.ts";

/** "passing 60 mesh", "passing 8 mesh, kept on 60" */
const betweenScreens = ({
  passing,
  retainedOn,
}: {
  readonly passing?: number | undefined;
  readonly retainedOn?: number | undefined;
}): string => {
  if (passing === undefined) return `kept on ${retainedOn!} mesh`;
  return `passing ${passing} mesh${retainedOn === undefined ? "" : `, kept on ${retainedOn}`}`;
};

/** The page of a guideline: how a liming material is rated. */
export const limeQualityView = (s: LimeQualityRule, r: RuleParts["row"]): Omit<RuleParts["view"], "id"> => ({
  title: `${limeIndices[s.index].label} of a liming material`,
  says:
    s.fineness.convention === "cumulativePassing"
      ? `Each weight multiplies the percent passing its own screen; the sum is the fineness, which times CCE${s.countsMoisture ? " and dry matter" : ""} gives the index.`
      : `Each factor multiplies the share between two screens; the sum is the fineness, which times CCE${s.countsMoisture ? " and dry matter" : ""} gives the index.`,
  holdsFor: "liming materials with a sieve analysis",
  tables: [
    {
      caption: "Fineness",
      head: ["Screen", "Weight"],
      numeric: [1],
      rows:
        s.fineness.convention === "cumulativePassing"
          ? s.fineness.screens.map((each) => r([`passing ${each.mesh} mesh`, plain(each.weight)], s))
          : s.fineness.classes.map((each) => r([betweenScreens(each), plain(each.factor)], s)),
    },
  ],
});
