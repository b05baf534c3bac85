import type { LegumeCreditRule } from "../../../interpretation/rules/legumeCredit.ts";
import { whenLabel } from "../../../interpretation/rules/factTests.ts";
import { plain } from "../../../interpretation/show.ts";
import { crops } from "../../../interpretation/vocabulary.ts";
import { list } from "../../words.ts";
import type { RuleParts } from "./ruleParts.ts";

/** The page of a guideline: what each crop leaves to the next. */
export const legumeCreditView = (s: LegumeCreditRule, r: RuleParts["row"]): Omit<RuleParts["view"], "id" | "holdsFor"> => ({
  title: "Nitrogen credit of the crop before",
  says: "It comes off a nitrogen rate that does not count it yet. Where a range is printed, the lower end is taken off.",
  tables: [
    {
      caption: "Credit, lb N per acre",
      head: ["After", "Where", "Credit"],
      numeric: [2],
      rows: s.rows.flatMap((row) => {
        const after = list(
          row.crops.map((c) => crops[c].label),
          "or",
        );
        const credit =
          row.credit !== undefined
            ? plain(row.credit)
            : row.perYield !== undefined
              ? `${plain(row.perYield)} per bu`
              : `${plain(row.from!)} to ${plain(row.to!)}`;
        return [
          r([after, whenLabel(row.when) || "every field", credit], row),
          ...(row.less ? [r([after, whenLabel(row.less.when), `less ${plain(row.less.value)}`], row.less)] : []),
        ];
      }),
    },
  ],
});
