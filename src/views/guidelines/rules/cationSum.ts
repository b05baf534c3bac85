import type { CationSumRule } from "../../../interpretation/rules/cationSum.ts";
import { plain } from "../../../interpretation/show.ts";
import { analytes, methods } from "../../../interpretation/vocabulary.ts";
import type { RuleParts } from "./ruleParts.ts";

/** The page of a guideline: the terms of the sum of cations. */
export const cationSumView = (s: CationSumRule, r: RuleParts["row"]): Omit<RuleParts["view"], "id"> => ({
  title: "Cation exchange capacity by summation",
  says: "Each cation over its equivalent, and the acidity by the buffer's own term, added together. Information, never a rate.",
  holdsFor: "calcium, magnesium, potassium and sodium in ppm by one extractant",
  tables: [
    {
      caption: "Terms",
      head: ["Term", "Value"],
      numeric: [],
      rows: [
        ...(["Ca", "Mg", "K", "Na"] as const).map((base) =>
          r([`${analytes[base].label}, ppm in 1 meq/100 g`, plain(s.equivalents[base])], s.equivalents),
        ),
        ...s.acidity.map((a) =>
          r([`acidity, ${methods[a.buffer].label}`, `${plain(a.slope.value)} × (${a.from.toFixed(1)} − buffer pH)`], a.slope),
        ),
      ],
    },
  ],
});
