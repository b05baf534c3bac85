import { conditionLabel } from "../../../interpretation/rules/conditions.ts";
import type { LinearYieldRule } from "../../../interpretation/rules/linearYield.ts";
import { equationLabel } from "../../../interpretation/rules/linearYield.ts";
import { plain } from "../../../interpretation/show.ts";
import { analyteInSentence, nutrients } from "../../../interpretation/vocabulary.ts";
import { list } from "../../words.ts";
import type { RuleParts } from "./ruleParts.ts";

/** What the equations read beside the test. */
const asks = ({ rows }: LinearYieldRule): string[] => [
  ...(rows.some(({ equation: e }) => e.shape === "terms" && e.perPh !== undefined) ? ["soil pH"] : []),
  ...(rows.some(({ equation: e }) => e.shape === "perYield" || e.perYield !== undefined || e.perTestAndYield !== undefined)
    ? ["yield"]
    : []),
];

/** The page of a guideline: an equation for each crop. */
export const linearYieldView = (s: LinearYieldRule, r: RuleParts["row"]): Omit<RuleParts["view"], "id" | "holdsFor"> => ({
  title: `${nutrients[s.nutrient].label} (${nutrients[s.nutrient].symbol}) by ${list([analyteInSentence(s.analyte), ...asks(s)])}`,
  says: `The equation gives ${s.unit}; below zero the rate is 0.${s.minimum ? ` Where anything is due it is at least ${plain(s.minimum.value)} ${s.unit}.` : ""}`,
  tables: [
    {
      caption: `Rate, ${s.unit}, of a test in ${s.limits.unit}`,
      head: ["Holds for", "Equation", "Nothing above"],
      numeric: [2],
      rows: s.rows.map((each) =>
        r(
          [
            conditionLabel(each.when) || "every place",
            equationLabel(each.equation, s.analyte),
            each.zeroAbove ? plain(each.zeroAbove.value) : "where the equation is zero",
          ],
          each,
        ),
      ),
    },
    ...(s.minimum
      ? [
          {
            caption: `Least, ${s.unit}`,
            head: ["What", "Value"],
            numeric: [1],
            rows: [r(["the least to apply where anything is due", plain(s.minimum.value)], s.minimum)],
          },
        ]
      : []),
  ],
});
