import type { BandRatesRule } from "../../../interpretation/rules/bandRates.ts";
import { conditionLabel } from "../../../interpretation/rules/conditions.ts";
import { plain } from "../../../interpretation/show.ts";
import { analyteInSentence, nutrients } from "../../../interpretation/vocabulary.ts";
import type { RuleParts } from "./ruleParts.ts";

type Class = BandRatesRule["tables"][number]["classes"][number];

const begins = (c: Class): string =>
  c.from !== undefined ? `at ${plain(c.from)}` : c.above !== undefined ? `above ${plain(c.above)}` : "at the bottom";

const rateText = ({ rate, because }: Class): string =>
  rate === undefined
    ? because
      ? `none here: ${because}`
      : "not known"
    : rate === "removal"
      ? "what the crop removes"
      : typeof rate === "number"
        ? plain(rate)
        : `${plain(rate[0])} to ${plain(rate[1])}`;

/** The page of a guideline: classes of the test, each with its rate. */
export const bandRatesView = (s: BandRatesRule, r: RuleParts["row"]): Omit<RuleParts["view"], "id" | "holdsFor"> => ({
  title: `${nutrients[s.nutrient].label} (${nutrients[s.nutrient].symbol}) by class of ${analyteInSentence(s.analyte)}`,
  says: [
    s.roundTo !== undefined &&
      `A result is rounded to ${s.roundTo === 0 ? "a whole number" : `${s.roundTo} decimal`} and then classed, since the printed classes leave gaps.`,
    s.poundsPerPpm && `A result in ppm is read as lb/ac by the factor the publication prints, ${plain(s.poundsPerPpm.value)}.`,
    "Each class has its rate.",
    s.tables.some((t) => t.classes.some((c) => Array.isArray(c.rate))) && "Of a range, sums and products are worked with the lower end.",
    s.tables.some((t) => t.classes.some((c) => c.rate === undefined)) && "Where a rate is not known there is no answer.",
  ]
    .filter(Boolean)
    .join(" "),
  tables: [
    ...(s.poundsPerPpm
      ? [
          {
            caption: "Units",
            head: ["What", "Value"],
            numeric: [],
            rows: [r(["lb/ac in one ppm", plain(s.poundsPerPpm.value)], s.poundsPerPpm)],
          },
        ]
      : []),
    ...s.tables.map((t) => ({
      caption: conditionLabel(t.when) || "Every place",
      head: ["Class", "Begins", s.unit === "lb per unit of yield" ? "lb per unit of yield" : `Rate, ${s.unit}`],
      numeric: [],
      rows: t.classes.map((c) => r([c.name, begins(c), rateText(c)], t)),
    })),
  ],
});
