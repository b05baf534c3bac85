import type { NitrateLinearRule } from "../../../interpretation/rules/nitrateLinear.ts";
import { plain } from "../../../interpretation/show.ts";
import { requirements, whereLabel } from "./nitrate.ts";
import type { RuleParts } from "./ruleParts.ts";

/** The page of a guideline: slope, critical levels, caps and what is asked of the test. */
export const nitrateLinearView = (s: NitrateLinearRule, r: RuleParts["row"]): Omit<RuleParts["view"], "id" | "holdsFor"> => ({
  title: "Nitrogen from nitrate in the top foot",
  says: s.lessFromNormal
    ? `The planned rate, less ${plain(s.perPpm.value)} lb per acre for each ppm of nitrate-N. Below ${plain(s.lessFromNormal.value)} ppm the planned rate stands.`
    : `${plain(s.perPpm.value)} lb of nitrogen per acre for each ppm of nitrate-N below the critical level; none at and above it.`,
  tables: [
    ...requirements(s.requires, r),
    {
      caption: s.lessFromNormal ? "Level above which no nitrogen is needed" : "Critical levels",
      head: ["Where", "ppm"],
      numeric: [1],
      rows: s.criticals.map((c) => r([whereLabel(c.when), plain(c.value)], c)),
    },
    {
      caption: "Slope and limits",
      head: ["What", "lb N per acre"],
      numeric: [1],
      rows: [
        r(["for each ppm", plain(s.perPpm.value)], s.perPpm),
        ...(s.lessFromNormal ? [r([`below ${plain(s.lessFromNormal.value)} ppm`, "planned rate"], s.lessFromNormal)] : []),
        ...s.caps.map((c) => r([`never more, where ${whereLabel(c.when)}`, plain(c.value)], c)),
      ],
    },
  ],
});
