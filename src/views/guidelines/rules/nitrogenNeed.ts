import type { NitrogenNeedRule } from "../../../interpretation/rules/nitrogenNeed.ts";
import { plain } from "../../../interpretation/show.ts";
import { crops, methods } from "../../../interpretation/vocabulary.ts";
import { capital } from "../../words.ts";
import { whereLabel } from "./nitrate.ts";
import type { RuleParts } from "./ruleParts.ts";

/** The page of a guideline: needs by crop, what another yield changes, and what is taken off. */
export const nitrogenNeedView = (s: NitrogenNeedRule, r: RuleParts["row"]): Omit<RuleParts["view"], "id" | "holdsFor"> => ({
  title: "Nitrogen by the crop's need, less mineral nitrogen in the soil",
  says: [
    `Need for the field's yield, less mineral nitrogen (${methods[s.method].label}), less what follows, in kg per hectare, never below nothing.`,
    ...s.cautions,
  ].join(" "),
  tables: [
    {
      caption: "Need",
      head: ["Crop", "Yield, t/ha", "Nitrogen, kg/ha"],
      numeric: [1, 2],
      rows: s.needs.map((n) => r([crops[n.crop].label, plain(n.yield), plain(n.nitrogen)], n)),
    },
    {
      caption: "For another yield; a crop that is not listed is answered at its printed yield alone",
      head: ["Crop", "For each, t/ha", "More, kg/ha", "Less, kg/ha"],
      numeric: [1, 2, 3],
      rows: s.needs.flatMap(({ crop, otherYields: o }) =>
        o ? [r([crops[crop].label, plain(o.step), plain(o.more), plain(o.less)], o)] : [],
      ),
    },
    {
      caption: "Taken off, and limits",
      head: ["What", "Where", "Value"],
      numeric: [2],
      rows: [
        r(["mineral nitrogen, as tested", `from ${plain(s.depth.from)} to ${plain(s.depth.to)} ${s.depth.unit}`, "all of it"], s.depth),
        ...(s.mostAdded ? [r(["a higher yield adds at most, kg/ha", "every field", plain(s.mostAdded.value)], s.mostAdded)] : []),
        ...s.deductions.flatMap((d) => d.choices.map((c) => r([`${capital(d.name)}, kg/ha`, whereLabel(c.when), plain(c.value)], d))),
        ...(s.manureBefore
          ? [r(["total nitrogen in manure, percent", "spread for the crop before", plain(s.manureBefore.value)], s.manureBefore)]
          : []),
      ],
    },
  ],
});
