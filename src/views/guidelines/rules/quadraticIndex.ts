import { conditionLabel } from "../../../interpretation/rules/conditions.ts";
import type { QuadraticIndexRule } from "../../../interpretation/rules/quadraticIndex.ts";
import { plain } from "../../../interpretation/show.ts";
import { analyteInSentence, nutrients } from "../../../interpretation/vocabulary.ts";
import type { RuleParts } from "./ruleParts.ts";

/** The page of a guideline: the equations, and which of them a crop takes. */
export const quadraticIndexView = (s: QuadraticIndexRule, r: RuleParts["row"]): Omit<RuleParts["view"], "id" | "holdsFor"> => {
  const { label, symbol } = nutrients[s.nutrient];
  return {
    title: `${label} (${symbol}) from the index of ${analyteInSentence(s.analyte)}`,
    says: "The index I goes into the equation for the crop and soil. A result below zero counts as nothing, and past its lowest point a curve is read at that point.",
    tables: [
      {
        caption: "Which equation",
        head: ["Holds for", "Equation"],
        numeric: [1],
        rows: [
          ...s.rows.map((each) => r([conditionLabel(each.when) || "every crop", plain(each.equation)], each)),
          ...(s.spread ? [r([`a rate may lie this far either side, lb/ac`, plain(s.spread.value)], s.spread)] : []),
        ],
      },
      {
        caption: `Equations for ${symbol}`,
        head: ["Number", "Rate", "Unit"],
        numeric: [0],
        rows: s.equations.map((e) => r([plain(e.number), `${plain(e.a, 4)} I² − ${plain(-e.b, 3)} I + ${plain(e.c)}`, e.unit], s)),
      },
    ],
  };
};
