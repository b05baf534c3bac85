import type { SeedRowLimitRule } from "../../../interpretation/rules/seedRowLimit.ts";
import { plain } from "../../../interpretation/show.ts";
import { crops } from "../../../interpretation/vocabulary.ts";
import { list } from "../../words.ts";
import type { RuleParts } from "./ruleParts.ts";

/** The page of a guideline: how much may touch the seed. */
export const seedRowLimitView = (s: SeedRowLimitRule, r: RuleParts["row"]): Omit<RuleParts["view"], "id"> => ({
  title: "Fertilizer that touches the seed",
  says: "The most N and K₂O together, lb per acre. Between two printed spacings the wider one's limit holds. Urea and UAN are never to touch the seed.",
  holdsFor: list(s.crops.map((c) => crops[c].label)),
  tables: [
    {
      caption: "Most N and K₂O with the seed, lb per acre",
      head: ["Inches between rows", ...s.soils.map((each) => each.name)],
      numeric: s.soils.map((_, i) => i + 1),
      rows: s.rows.map((each) =>
        r(
          each.map((n) => plain(n)),
          s,
        ),
      ),
    },
  ],
});
