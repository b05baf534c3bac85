import type { TargetPhRule } from "../../../interpretation/rules/targetPh.ts";
import { conditionLabel } from "../../../interpretation/rules/conditions.ts";
import { pH } from "../../../interpretation/show.ts";
import { methods } from "../../../interpretation/vocabulary.ts";
import type { RuleParts } from "./ruleParts.ts";

/** The page of a guideline: the pH to keep. */
export const targetPhView = (s: TargetPhRule, r: RuleParts["row"]): Omit<RuleParts["view"], "id"> => ({
  title: "Soil pH to keep",
  says: s.range
    ? `The range to stay in is ${pH(s.range.from.value)} to ${pH(s.range.to.value)}.`
    : "Lime is called for below these values.",
  holdsFor: `pH in ${methods[s.method].label}${s.mineralOnly ? ", on mineral soils alone" : ""}`,
  tables: [
    {
      caption: "Soil pH",
      head: ["Holds for", "What", "pH"],
      numeric: [2],
      rows: [
        ...(s.range
          ? [
              r(["every crop", "range, from", pH(s.range.from.value)], s.range.from),
              r(["every crop", "range, to", pH(s.range.to.value)], s.range.to),
            ]
          : []),
        ...s.leftOut.map((each) => r([conditionLabel(each.when), `no answer, because ${each.because}`, ""], each)),
        ...s.rows.flatMap((each) => [
          ...(each.limeBelow
            ? [r([conditionLabel(each.when) || "every crop", "lime below", pH(each.limeBelow.value)], each.limeBelow)]
            : []),
          ...(each.target ? [r([conditionLabel(each.when) || "every crop", "lime up to", pH(each.target.value)], each.target)] : []),
        ]),
      ],
    },
  ],
});
