import type { BaseShareRule } from "../../../interpretation/rules/baseShare.ts";
import { plain } from "../../../interpretation/show.ts";
import { analyteInSentence, analytes } from "../../../interpretation/vocabulary.ts";
import type { RuleParts } from "./ruleParts.ts";

/** The page of a guideline: how much of the bases one of them should hold. */
export const baseShareView = (s: BaseShareRule, r: RuleParts["row"]): Omit<RuleParts["view"], "id"> => ({
  title: `${analytes[s.base].label} beside the other bases`,
  says: `A sign to look at ${analyteInSentence(s.base)}, never a rate. Shares are of the exchangeable bases; acidity is left out.`,
  holdsFor: "a sum of cations",
  tables: [
    {
      caption: `Enough ${analyteInSentence(s.base)}`,
      head: ["It should hold", "Percent of the bases"],
      numeric: [1],
      rows: [r(["more than", plain(s.least)], s), r([`and more than ${analyteInSentence(s.over)} holds`, "its share"], s)],
    },
  ],
});
