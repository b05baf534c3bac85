import type { YieldLessNitrateRule } from "../../../interpretation/rules/yieldLessNitrate.ts";
import { plain } from "../../../interpretation/show.ts";
import { requirements, whereLabel } from "./nitrate.ts";
import type { RuleParts } from "./ruleParts.ts";

/** The page of a guideline: pounds per unit of yield, and the terms that make up pounds per ppm. */
export const yieldLessNitrateView = (s: YieldLessNitrateRule, r: RuleParts["row"]): Omit<RuleParts["view"], "id" | "holdsFor"> => ({
  title: "Nitrogen by yield, less nitrate in the top foot",
  says: `${plain(s.perYield.value)} × yield goal (${s.yieldUnit}) less the sum of these terms × ppm of nitrate-N, in lb per acre${s.none ? `; none at and above ${plain(s.none.value)} ppm` : ""}.`,
  tables: [
    ...requirements(s.requires, r),
    {
      caption: "Terms",
      head: ["Term", "Where", "Value"],
      numeric: [2],
      rows: [
        r([`lb per acre for each ${s.yieldUnit}`, "every field", plain(s.perYield.value)], s.perYield),
        ...s.perPpm.flatMap((t) =>
          t.choices.map((c) => r([`${t.name}, lb per ppm`, c.when ? whereLabel(c.when) : "every field", plain(c.value)], t)),
        ),
        ...(s.none ? [r(["no nitrogen from, ppm", "every field", plain(s.none.value)], s.none)] : []),
      ],
    },
  ],
});
