import { conditionLabel } from "../../../interpretation/rules/conditions.ts";
import type { ConversionRule } from "../../../interpretation/rules/conversion.ts";
import { plain } from "../../../interpretation/show.ts";
import { analytes, methods } from "../../../interpretation/vocabulary.ts";
import type { RuleParts } from "./ruleParts.ts";

/** The page of a guideline: how one test is related to another. */
export const conversionView = (s: ConversionRule, r: RuleParts["row"]): Omit<RuleParts["view"], "id"> => ({
  title: `${analytes[s.analyte].label} by another test`,
  says: "Information only. What another test would read is never rated, and no rate is made from it.",
  holdsFor: `${methods[s.from].label} in ${s.unit}, found on ${s.soils}`,
  tables: [
    {
      caption: `${methods[s.to].label} is`,
      head: ["Where", `From ${methods[s.from].label}`],
      numeric: [],
      rows: s.forms.map((f) =>
        r(
          [
            conditionLabel(f.when) || "everywhere",
            `${plain(f.factor)} × the result${f.plus === 0 ? "" : ` ${f.plus > 0 ? "+" : "−"} ${plain(Math.abs(f.plus))}`}`,
          ],
          f,
        ),
      ),
    },
  ],
});
