import type { ManureAvailabilityRule } from "../../../interpretation/rules/manureAvailability.ts";
import { plain } from "../../../interpretation/show.ts";
import { manureSpecies } from "../../../interpretation/vocabulary.ts";
import type { RuleParts } from "./ruleParts.ts";

const yearName = (i: number): string => (i === 0 ? "This year" : i === 1 ? "Last year" : `${plain(i)} years ago`);

/** The page of a guideline: percent of organic nitrogen released, by animal, dry matter and year of spreading. */
export const manureAvailabilityView = (s: ManureAvailabilityRule, r: RuleParts["row"]): Omit<RuleParts["view"], "id" | "holdsFor"> => {
  const years = s.rows[0]!.below.map((_, i) => yearName(i));
  return {
    title: "Organic nitrogen that manure releases",
    says: "Tons per acre × lb of organic nitrogen per ton × percent, for each year of spreading, added together. Ammonium nitrogen is not counted.",
    tables: [
      {
        caption: "Percent of organic nitrogen released to this year's crop, by year of spreading",
        head: ["Manure of", "Dry matter, percent", ...years],
        numeric: years.map((_, i) => i + 2),
        rows: s.rows.flatMap((row) => [
          r([manureSpecies[row.species], `under ${plain(s.dryMatter)}`, ...row.below.map((n) => plain(n))], s),
          r([manureSpecies[row.species], `${plain(s.dryMatter)} and over`, ...row.from.map((n) => plain(n))], s),
        ]),
      },
    ],
  };
};
