import type { ProfileNitrateRule } from "../../../interpretation/rules/profileNitrate.ts";
import { plain } from "../../../interpretation/show.ts";
import { list } from "../../words.ts";
import { requirements, whereLabel } from "./nitrate.ts";
import type { RuleParts } from "./ruleParts.ts";

/** The page of a guideline: every term of the sum, and what stands in for a test that was not made. */
export const profileNitrateView = (s: ProfileNitrateRule, r: RuleParts["row"]): Omit<RuleParts["view"], "id" | "holdsFor"> => {
  const om = s.organicMatter;
  const depth = s.depth.least === s.depth.most ? plain(s.depth.least) : `${plain(s.depth.least)} to ${plain(s.depth.most)}`;
  const wanted = [
    s.constant && plain(s.constant.value),
    s.perYield ? `${plain(s.perYield.value)} × yield` : "what is printed for the yield",
  ]
    .filter(Boolean)
    .join(" + ");
  const less = [
    `${plain(s.nitrate.factor)} × nitrate`,
    om && `${plain(om.perYield)} × yield × organic matter`,
    s.credits.length > 0 && `credits (${list(s.credits)})`,
  ]
    .filter(Boolean)
    .join(" − ");
  return {
    title: "Nitrogen by yield, less nitrate in the profile",
    says: [`${wanted} − ${less}, in lb per acre, never below nothing.`, ...s.leftOut].join(" "),
    tables: [
      ...requirements(s.requires, r),
      {
        caption: "Terms",
        head: ["Term", "Value"],
        numeric: [1],
        rows: [
          ...(s.constant ? [r(["for every acre, lb", plain(s.constant.value)], s.constant)] : []),
          ...(s.perYield ? [r([`for each ${s.yieldUnit}, lb`, plain(s.perYield.value)], s.perYield)] : []),
          ...(s.poundsPerBushel
            ? [r(["lb in a bushel, where the yield goal is in bushels", plain(s.poundsPerBushel.value)], s.poundsPerBushel)]
            : []),
          r([`less, for each ${s.nitrate.per} of nitrate-N, lb`, plain(s.nitrate.factor)], s.nitrate),
          r(["inches sampled from the surface", depth], s.depth),
          ...(s.poundsPerPpmFoot
            ? [r(["lb per acre in a foot of soil, for each ppm", plain(s.poundsPerPpmFoot.value)], s.poundsPerPpmFoot)]
            : []),
          ...(om
            ? [
                r(["less, for each percent of organic matter and unit of yield, lb", plain(om.perYield)], om),
                r(["organic matter counted from, percent", plain(om.floor)], om),
                r(["organic matter counted up to, percent", plain(om.cap)], om),
              ]
            : []),
        ],
      },
      ...(s.byYield
        ? [
            {
              caption: `Nitrogen by yield goal; a goal between two rows gets no rate`,
              head: [`Yield goal, ${s.yieldUnit}`, "Nitrogen, lb per acre"],
              numeric: [0, 1],
              rows: s.byYield.rows.map((row) => r([plain(row.yield), plain(row.nitrogen)], s.byYield!)),
            },
          ]
        : []),
      ...(s.withoutTest.length + (om?.withoutTest.length ?? 0) > 0
        ? [
            {
              caption: "Where it was not tested",
              head: ["What", "Where", "Value"],
              numeric: [2],
              rows: [
                ...s.withoutTest.map((f) => r(["nitrate-N, ppm", whereLabel(f.when), plain(f.value)], f)),
                ...(om?.withoutTest ?? []).map((f) => r(["organic matter, percent", whereLabel(f.when), plain(f.value)], f)),
              ],
            },
          ]
        : []),
    ],
  };
};
