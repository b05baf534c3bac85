import { conditionLabel } from "../../../interpretation/rules/conditions.ts";
import type { LimeClassRule } from "../../../interpretation/rules/limeClass.ts";
import { pH, plain } from "../../../interpretation/show.ts";
import { methods, soilCategories } from "../../../interpretation/vocabulary.ts";
import type { RuleParts } from "./ruleParts.ts";

/** The page of a guideline: the need for lime by soil category and pH, and the dose. */
export const limeClassView = (s: LimeClassRule, r: RuleParts["row"]): Omit<RuleParts["view"], "id"> => ({
  title: "Lime by soil category and pH",
  says: `The soil's category and pH give the need, and the need the dose, in ${s.unit} of ${s.material.label}.${s.then ? ` ${s.then}` : ""}`,
  holdsFor: `pH in ${methods[s.method].label}${s.mineralOnly ? ", on mineral soils alone" : ""}`,
  tables: [
    ...(s.leftOut.length > 0
      ? [
          {
            caption: "Left out",
            head: ["Holds for", "What"],
            numeric: [],
            rows: s.leftOut.map((each) => r([conditionLabel(each.when), `no answer, because ${each.because}`], each)),
          },
        ]
      : []),
    ...s.categories.map((c) => ({
      caption: `${soilCategories[c.soil].charAt(0).toUpperCase()}${soilCategories[c.soil].slice(1)} soil; at most ${plain(c.mostAtOnce.value)} ${s.unit} at one time where lime is ${c.needs[0]!.name}`,
      head: ["Need", "pH up to", `Dose, ${s.unit}`],
      numeric: [1, 2],
      rows: c.needs.map((n) =>
        r([n.name, n.upTo === null ? "above" : pH(n.upTo), n.dose === null ? "a dash is printed" : plain(n.dose)], c),
      ),
    })),
  ],
});
