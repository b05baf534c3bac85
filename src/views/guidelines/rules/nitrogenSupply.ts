import type { NitrogenSupplyRule, Printed } from "../../../interpretation/rules/nitrogenSupplyRule.ts";
import { depthLabel } from "../../../interpretation/measurement.ts";
import { plain } from "../../../interpretation/show.ts";
import { crops, methods, soilCategories } from "../../../interpretation/vocabulary.ts";
import { capital, list } from "../../words.ts";
import type { Provenance, RuleParts } from "./ruleParts.ts";

const cell = (rate: Printed): string =>
  rate === null ? "–" : typeof rate === "number" ? plain(rate) : `${plain(rate[0])}–${plain(rate[1])}`;
/** What is said of all rows of a table stands once, beside the first. */
const noteAbove = (from: Provenance, row: number): Provenance => (row === 0 ? from : { source: from.source, evidence: from.evidence });
const ofStanding = { shoots: "Shoots per m²", greenAreaIndex: "Green area index" } as const;

/** The page of a guideline: what the supply is made of, its indexes, and the nitrogen of each crop by index and kind of soil. */
export const nitrogenSupplyView = (s: NitrogenSupplyRule, r: RuleParts["row"]): Omit<RuleParts["view"], "id" | "holdsFor"> => ({
  title: "Nitrogen by the index of the soil's supply",
  says: [
    `Mineral nitrogen (${list(
      s.methods.map((m) => methods[m].label),
      "or",
    )}), nitrogen in the crop and what organic matter may release are the supply, in kg per hectare; its index and the kind of soil give the rate. Where the supply is not one number, the rate is a range.`,
    ...s.cautions.map((c) => `${c}.`),
  ].join(" "),
  tables: [
    {
      caption: "The supply",
      head: ["Part", "How it is told"],
      numeric: [],
      rows: [
        r(["mineral nitrogen in the soil", `as tested, ${depthLabel(s.depth)}`], s.depth),
        ...(s.autumn ? [r(["the same in autumn", `${depthLabel(s.autumn.depth)} are enough`], s.autumn.depth)] : []),
        ...(s.rootingDepth ? [r(["the same where rock is near", "as deep as roots go"], s.rootingDepth)] : []),
        r(
          ["released by organic matter", `up to ${plain(s.release.each)} kg/ha for each percent above ${plain(s.release.above)}`],
          s.release,
        ),
        r(["on organic soil", `no answer from ${plain(s.organicFrom.value)} % organic matter on`], s.organicFrom),
        ...(s.notAfter ? [r([`after ${list(s.notAfter.crops.map((c) => crops[c].label))}`, "no answer"], s.notAfter)] : []),
      ],
    },
    ...s.standing.map((each) => ({
      caption: `Nitrogen in the crop, kg/ha: ${list(each.crops.map((c) => crops[c].label))}`,
      head: [ofStanding[each.by], "Spring", "Autumn"],
      numeric: [0, 1, 2],
      rows: each.rows.map((row, i) =>
        r(
          [
            plain(row.count),
            `${plain(row.spring)}${row.to ? `–${plain(row.to)}` : ""}`,
            row.autumn === undefined ? "the same" : plain(row.autumn),
          ],
          noteAbove(each, i),
        ),
      ),
    })),
    {
      caption: "Index of the supply",
      head: ["Index", "Supply from, kg/ha"],
      numeric: [0, 1],
      rows: [0, ...s.indexes.from].map((from, i) => r([String(i), plain(from)], noteAbove(s.indexes, i))),
    },
    ...s.crops.map((c) => ({
      caption: `Nitrogen for ${list(c.crops.map((crop) => crops[crop].label))}, kg/ha by index${c.cautions.map((each) => `. ${each.says}`).join("")}`,
      head: ["Soil and use", ...[0, ...s.indexes.from].map((_, i) => String(i))],
      numeric: [0, ...s.indexes.from].map((_, i) => i + 1),
      rows: c.tables.map((t) =>
        r(
          [
            capital(
              [
                t.use,
                t.soils ? list(t.soils.map((soil) => soilCategories[soil])) : "every mineral soil",
                t.yield !== undefined && `${plain(t.yield)} t/ha`,
              ]
                .filter(Boolean)
                .join(", "),
            ),
            ...t.rates.map((rate, i) => `${cell(rate)}${t.marked?.includes(i) ? " *" : ""}`),
          ],
          t,
        ),
      ),
    })),
    {
      caption: `For another yield${s.markedSays ? `. * ${s.markedSays}` : ""}`,
      head: ["Crop", "For each, t/ha", "More, kg/ha", "Less, kg/ha", "Up to, t/ha"],
      numeric: [1, 2, 3, 4],
      rows: s.crops.flatMap(({ crops: held, otherYields: o }) =>
        o ? [r([list(held.map((crop) => crops[crop].label)), plain(o.step), plain(o.more), plain(o.less), plain(o.most)], o)] : [],
      ),
    },
  ],
});
