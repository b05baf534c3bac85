import { depthLabel } from "../../../interpretation/measurement.ts";
import type { AcidityMultipleRule } from "../../../interpretation/rules/acidityMultiple.ts";
import type { AcidityTableRule } from "../../../interpretation/rules/acidityTable.ts";
import type { BufferAcidityRule } from "../../../interpretation/rules/bufferAcidity.ts";
import type { LimeBasis } from "../../../interpretation/rules/limeBasis.ts";
import { limeName, materialLabel } from "../../../interpretation/rules/limeBasis.ts";
import type { PhAluminumRule } from "../../../interpretation/rules/phAluminum.ts";
import { pH, plain } from "../../../interpretation/show.ts";
import { methods, soilClasses } from "../../../interpretation/vocabulary.ts";
import { list } from "../../words.ts";
import type { RuleParts, RuleTable } from "./ruleParts.ts";

type View = Omit<RuleParts["view"], "id">;
type Row = RuleParts["row"];

/** "Rates are in ton/ac of ... , for 0 to 7 in of soil." */
const basisWords = (s: LimeBasis): string =>
  `Rates are in ${s.unit} of ${materialLabel(s)}, ${s.depth ? `for ${depthLabel(s.depth)} of soil` : "for a depth that the publication does not state"}.`;

/** The companions of a lime rate that stand in tables of their own: shallow samples, the least rate, caps. */
const basisTables = (s: LimeBasis, r: Row): RuleTable[] => [
  ...((s.shallow ?? s.least)
    ? [
        {
          caption: "Small and shallow",
          head: ["What", "Value"],
          numeric: [1],
          rows: [
            ...(s.shallow
              ? [
                  r(
                    [`share of the rate for a sample no deeper than ${plain(s.shallow.to)} ${s.shallow.unit}`, plain(s.shallow.share)],
                    s.shallow,
                  ),
                ]
              : []),
            ...(s.least ? [r([`a rate below this is reported as none, ${s.unit}`, plain(s.least.value)], s.least)] : []),
          ],
        },
      ]
    : []),
  ...(s.caps
    ? [
        {
          caption: `Most to apply at one time, ${s.unit} of ${limeName(s)}`,
          head: ["How it is applied", "Most", "The rest"],
          numeric: [1],
          rows: s.caps.map((c) =>
            r([c.placement === "surface" ? "left on the surface" : "worked in", plain(c.maximum.value), c.then], c.maximum),
          ),
        },
      ]
    : []),
];

export const bufferAcidityView = (s: BufferAcidityRule, r: Row): View => ({
  title: `Lime by ${methods[s.buffer].label}, soil pH and target`,
  says: `Acidity, times the target less the soil pH, over ${pH(s.neutral)} less the soil pH, less the credit for earlier lime. At pH ${pH(s.neutral)} and above there is no answer. ${basisWords(s)}`,
  holdsFor: methods[s.buffer].label,
  tables: [
    {
      caption: "Terms",
      head: ["Term", "Value"],
      numeric: [],
      rows: [
        r(["acidity, meq/100 cm3", `${plain(s.acidity.slope)} × (${pH(s.acidity.from)} − buffer pH)`], s.acidity),
        r([`lime, ${s.unit}`, `acidity × (target − pH) ÷ (${pH(s.neutral)} − pH) − credit`], s),
        ...s.credit.map((c) =>
          r(
            [
              `credit for earlier lime, ${list(c.soils.map((each) => soilClasses[each]))} soil`,
              `the lime spread, less ${plain(c.perMonth * 100)} % of it a month`,
            ],
            c,
          ),
        ),
      ],
    },
    ...basisTables(s, r),
  ],
});

export const acidityMultipleView = (s: AcidityMultipleRule, r: Row): View => ({
  title: "Lime by exchangeable acidity",
  says: `The acidity, in meq/100 g, times a factor for the target, or one rate for every acidity. ${basisWords(s)}`,
  holdsFor: `exchangeable acidity by ${methods[s.method].label}`,
  tables: [
    {
      caption: `Lime, ${s.unit}`,
      head: ["Target pH", "Acidity, meq/100 g", "Rate"],
      numeric: [0],
      rows: s.targets.flatMap((t) =>
        t.rows.map((each) =>
          r(
            [
              pH(t.target),
              [each.above !== undefined && `above ${plain(each.above)}`, each.below !== undefined && `below ${plain(each.below)}`]
                .filter(Boolean)
                .join(", ") || "any",
              each.flat === undefined ? `acidity × ${plain(each.multiply!)}` : plain(each.flat),
            ],
            each,
          ),
        ),
      ),
    },
    ...basisTables(s, r),
  ],
});

export const acidityTableView = (s: AcidityTableRule, r: Row): View => ({
  title: "Lime by exchangeable acidity, from a table",
  says: `Between two printed acidities the rate is read along the straight line; the column is the lowest printed target at or above the one wanted; outside the table there is no answer. ${basisWords(s)}`,
  holdsFor: `exchangeable acidity by ${methods[s.method].label}`,
  tables: [
    {
      caption: `Lime to reach each target pH, ${s.unit}`,
      head: ["Acidity, meq/100 g", ...s.targets.map(pH)],
      numeric: [0, ...s.targets.map((_, i) => i + 1)],
      rows: s.rows.map(([acidity = 0, ...rates]) => r([acidity.toFixed(1), ...rates.map((n) => plain(n))], s)),
    },
    ...basisTables(s, r),
  ],
});

export const phAluminumView = (s: PhAluminumRule, r: Row): View => ({
  title: "Lime by soil pH and reactive aluminum",
  says: `To reach pH ${pH(s.target)}, and no other. Soil pH and aluminum are first rounded as the table prints them. ${basisWords(s)}`,
  holdsFor: `pH in ${methods[s.method].label}, aluminum by ${methods[s.aluminum].label} in ppm`,
  tables: [
    {
      caption: `Lime, ${s.unit}`,
      head: ["Soil pH", "Aluminum, ppm", "Rate"],
      numeric: [2],
      rows: [
        ...s.rows.flatMap((each) =>
          each.rates.map((c, i) =>
            r(
              [
                each.from === null ? "lower" : `from ${pH(each.from)}`,
                each.rates.length === 1 ? "any" : c.upTo === null ? `above ${plain(each.rates[i - 1]!.upTo!)}` : `up to ${plain(c.upTo)}`,
                plain(c.rate),
              ],
              s,
            ),
          ),
        ),
        r(["the medium and the extract", "", ""], s.methodFrom),
      ],
    },
    ...basisTables(s, r),
  ],
});
