import type { StarterShareRule } from "../../../interpretation/rules/starterShare.ts";
import { plain } from "../../../interpretation/show.ts";
import { crops, nutrients } from "../../../interpretation/vocabulary.ts";
import { list } from "../../words.ts";
import type { RuleParts } from "./ruleParts.ts";

/** The page of a guideline: what a band in the row is worth. */
export const starterShareView = (s: StarterShareRule, r: RuleParts["row"]): Omit<RuleParts["view"], "id"> => ({
  title: `${nutrients[s.nutrient].label} in the planter band`,
  says: "What stands in a band beside the row is worth more than the same spread over the whole field.",
  holdsFor: list(s.crops.map((c) => crops[c].label)),
  tables: [
    {
      caption: "The band",
      head: ["What", "Value"],
      numeric: [1],
      rows: [
        r([`pounds of ${nutrients[s.nutrient].symbol} broadcast that one pound in the band stands for`, plain(s.countsAs)], s),
        ...(s.mostSalt ? [r(["most N and K₂O together in the band, lb per acre", plain(s.mostSalt.value)], s.mostSalt)] : []),
      ],
    },
  ],
});
