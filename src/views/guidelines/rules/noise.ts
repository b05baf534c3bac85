import type { NoiseRule, Spread } from "../../../interpretation/rules/noise.ts";
import { plain } from "../../../interpretation/show.ts";
import { analyteInSentence, methods } from "../../../interpretation/vocabulary.ts";
import { list } from "../../words.ts";
import type { RuleParts, RuleRow } from "./ruleParts.ts";

const parts = {
  core: "single cores of one area",
  lab: "results of one laboratory on one soil",
  labs: "laboratories on one soil",
  together: "composites, sampling and analysis together",
} as const;

export const noiseView = (s: NoiseRule, r: RuleParts["row"]): Omit<RuleParts["view"], "id"> => ({
  title: `How far ${analyteInSentence(s.analyte)} strays`,
  says: "The variance of a composite is that of single cores over the number of cores, plus that of the laboratory; where the cores are not counted, the figure for both together. Three pairs of a farm's own duplicates replace these figures.",
  holdsFor: s.methods ? list(s.methods.map((m) => methods[m].label)) : "any method",
  tables: [
    {
      caption: "Standard deviations",
      head: ["Between", "Standard deviation"],
      numeric: [1],
      rows: (Object.keys(parts) as (keyof typeof parts)[]).flatMap((key): RuleRow[] => {
        const spread: Spread | undefined = s[key];
        return spread ? [r([parts[key], `${plain(spread.value)}${spread.as === "percent" ? "% of the value" : ""}`], spread)] : [];
      }),
    },
  ],
});
