import type { RemovalRule } from "../../../interpretation/rules/removal.ts";
import { crops, nutrients } from "../../../interpretation/vocabulary.ts";
import type { RuleParts } from "./ruleParts.ts";

/** The page of a guideline: what a harvest takes away. */
export const removalView = (s: RemovalRule, r: RuleParts["row"]): Omit<RuleParts["view"], "id"> => ({
  title: "Taken away by the harvest",
  says: "Yield times these values gives the nutrient removed.",
  holdsFor: "the crops listed",
  tables: [
    {
      caption: s.unit === "kg per t of yield" ? "Removal, kg per t of yield" : "Removal, lb per unit of yield",
      head: ["Crop", "Nutrient", s.unit === "kg per t of yield" ? "kg" : "lb", "Per"],
      numeric: [2],
      rows: s.rows.map((each) => {
        const removed = each.to === undefined ? each.value.toFixed(2) : `${each.value.toFixed(2)} to ${each.to.toFixed(2)}`;
        return r(
          [crops[each.crop].label, nutrients[each.nutrient].symbol, removed, s.unit === "kg per t of yield" ? "t" : crops[each.crop].per],
          each,
        );
      }),
    },
  ],
});
