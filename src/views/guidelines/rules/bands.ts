import type { BandsRule } from "../../../interpretation/rules/bands.ts";
import { conditionLabel } from "../../../interpretation/rules/conditions.ts";
import { plain } from "../../../interpretation/show.ts";
import { analyteInSentence } from "../../../interpretation/vocabulary.ts";
import { holdsFor } from "../holdsFor.ts";
import type { RuleParts } from "./ruleParts.ts";

/** How a result finds its class. */
const howClassed = ({ index, roundTo, analyte }: BandsRule): string => {
  if (index) {
    const { name, intercept, perUnit, perPh } = index;
    return `The classes are of the ${name}: ${plain(intercept)} + ${plain(perUnit)} × ${analyteInSentence(analyte)} ${perPh < 0 ? "−" : "+"} ${plain(Math.abs(perPh))} × soil pH.`;
  }
  if (roundTo === undefined) return "A result is in the class whose limits it lies between.";
  return `A result is rounded to ${roundTo === 0 ? "a whole number" : `${roundTo} decimal`} and then classed.`;
};

const whereBegins = ({ from, above }: { readonly from?: number | undefined; readonly above?: number | undefined }): string => {
  if (from !== undefined) return `at ${plain(from)}`;
  return above === undefined ? "at the bottom" : `above ${plain(above)}`;
};

/** The page of a guideline: the classes of a test. */
export const bandsView = (s: BandsRule, r: RuleParts["row"]): Omit<RuleParts["view"], "id"> => ({
  title: `Classes of ${analyteInSentence(s.analyte)}`,
  says: howClassed(s),
  holdsFor: holdsFor(s.limits),
  tables: s.tables.map((t) => ({
    caption: conditionLabel(t.when) || "Every place",
    head: ["Class", "Begins"],
    numeric: [],
    rows: t.bands.map((b) => r([b.name, whereBegins(b)], t)),
  })),
});
