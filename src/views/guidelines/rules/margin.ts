import type { MarginRule } from "../../../interpretation/rules/margin.ts";
import { plain } from "../../../interpretation/show.ts";
import { analyteInSentence, analytes, methods } from "../../../interpretation/vocabulary.ts";
import { list } from "../../words.ts";
import type { RuleParts } from "./ruleParts.ts";

export const marginView = (s: MarginRule, r: RuleParts["row"]): Omit<RuleParts["view"], "id"> => ({
  title: `How far two areas may differ in ${analyteInSentence(s.analyte)}`,
  says: "Two areas whose difference is surely less than this may share a sample. For another extractant, or by mass where it is stated by volume, it is taken over and the answer says so; not where a whole class by that extractant is narrower.",
  holdsFor: list(s.methods.map((m) => methods[m].label)),
  tables: [
    {
      caption: "Margin",
      head: ["Analyte", "Within"],
      numeric: [1],
      rows: [r([analytes[s.analyte].label, `${plain(s.within.value)}${s.unit === "pH" ? "" : ` ${s.unit}`}`], s.within)],
    },
  ],
});
