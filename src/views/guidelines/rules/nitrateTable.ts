import type { NitrateClass, NitrateTableRule } from "../../../interpretation/rules/nitrateTable.ts";
import { plain } from "../../../interpretation/show.ts";
import { requirements, whereLabel } from "./nitrate.ts";
import type { RuleParts } from "./ruleParts.ts";

const classWords = ({ rate, adjustment, unread }: NitrateClass): string => {
  if (unread !== undefined) return `no rate: ${unread}`;
  if (rate !== undefined) return plain(rate);
  return adjustment === 0 ? "planned rate" : `planned rate less ${plain(-adjustment!)}`;
};

/** The page of a guideline: classes of nitrate with their rate, or their change to the planned rate. */
export const nitrateTableView = (s: NitrateTableRule, r: RuleParts["row"]): Omit<RuleParts["view"], "id" | "holdsFor"> => ({
  title: "Nitrogen by class of nitrate in the top foot",
  says: [
    "A result is in the class whose limits it lies between.",
    s.roundTo !== undefined &&
      "It is rounded to a whole number first, since the printed classes leave gaps; the publication does not say so.",
    s.split && `${s.split.says}, where ${plain(s.split.from)} lb or more are called for.`,
  ]
    .filter(Boolean)
    .join(" "),
  tables: [
    ...requirements(s.requires, r),
    ...s.tables.map((t) => ({
      caption: s.tables.length > 1 ? `Where ${whereLabel(t.when)}` : "Classes",
      head: ["From, ppm", "Nitrogen, lb per acre"],
      numeric: [0, 1],
      rows: t.classes.map((c) => r([plain(c.from), classWords(c)], t)),
    })),
  ],
});
