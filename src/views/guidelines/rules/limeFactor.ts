import { conditionLabel } from "../../../interpretation/rules/conditions.ts";
import type { LimeFactorRule } from "../../../interpretation/rules/limeFactor.ts";
import { pH, plain } from "../../../interpretation/show.ts";
import { methods } from "../../../interpretation/vocabulary.ts";
import type { RuleParts } from "./ruleParts.ts";

/** The page of a guideline: lime for each unit of pH below a target. */
export const limeFactorView = (s: LimeFactorRule, r: RuleParts["row"]): Omit<RuleParts["view"], "id"> => ({
  title: "Lime by soil pH",
  says: `The target less the soil pH, times the factor, in ${s.unit} of ${s.material.label}. ${s.from === undefined ? "" : `Below pH ${pH(s.from)} there is no answer. `}${s.anyTarget ? "A target that a field sets is put in its place. " : ""}`.trim(),
  holdsFor: `pH in ${methods[s.method].label}${s.mineralOnly ? ", on mineral soils alone" : ""}`,
  tables: [
    {
      caption: `Target and rate, ${s.unit}`,
      head: ["Holds for", "What", "Value"],
      numeric: [2],
      rows: [
        ...s.leftOut.flatMap((each) => [
          r([conditionLabel(each.when), `no answer, because ${each.because}`, ""], each),
          ...(each.withTarget ?? []).map((row) =>
            r(
              [
                `${conditionLabel(each.when)}: ${conditionLabel(row.when)}`,
                `${s.unit} for each unit of pH, to the target that a field sets`,
                plain(row.factor.value),
              ],
              row.factor,
            ),
          ),
        ]),
        ...s.rows.flatMap((each) => {
          const where = conditionLabel(each.when) || "every crop";
          return [
            r([where, "lime up to pH", pH(each.target.value)], each.target),
            r([where, `${s.unit} for each unit of pH`, plain(each.factor.value)], each.factor),
            ...(each.mostAtOnce
              ? [
                  r(
                    [where, `most at one time, ${s.unit}${each.then ? `; ${each.then}` : ""}`, plain(each.mostAtOnce.value)],
                    each.mostAtOnce,
                  ),
                ]
              : []),
            ...(each.mostOnSurface
              ? [
                  r(
                    [
                      where,
                      `most at one time where it is not worked in, ${s.unit}${each.then ? `; ${each.then}` : ""}`,
                      plain(each.mostOnSurface.value),
                    ],
                    each.mostOnSurface,
                  ),
                ]
              : []),
            ...each.printed.map((p) => r([where, `printed at pH ${pH(p.pH)}, ${s.unit}: doubtful, ${p.note}`, plain(p.rate)], each)),
          ];
        }),
      ],
    },
  ],
});
