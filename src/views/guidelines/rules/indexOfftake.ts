import { conditionLabel } from "../../../interpretation/rules/conditions.ts";
import { plain } from "../../../interpretation/show.ts";
import { analytes, crops, nutrients } from "../../../interpretation/vocabulary.ts";
import { list } from "../../words.ts";
import type { IndexCrop, IndexOfftakeRule, IndexPart } from "../../../interpretation/rules/indexRule.ts";
import type { RuleParts } from "./ruleParts.ts";

/** The page of a guideline: classes, rates by class and crop, corrections for yield, exceptions. */
export const indexOfftakeView = (s: IndexOfftakeRule, r: RuleParts["row"]): Omit<RuleParts["view"], "id" | "holdsFor"> => {
  const { symbol } = nutrients[s.nutrient];
  const columns = columnsOf(s);
  return {
    title: `${nutrients[s.nutrient].label} (${symbol}) from ${analytes[s.analyte].label.toLowerCase()}, by ${s.indexName || "class"}${s.on ? `, on ${s.on}` : ""}`,
    says: `The result gives the ${s.indexName || "class"}, the ${s.indexName || "class"} and the crop give the rate, in ${s.unit} of ${symbol}.${rounding(s)}`,
    tables: [
      ...s.indexes.map((t) => ({
        caption: `${analytes[s.analyte].label}, ${s.limits.unit}${t.when ? `, for ${conditionLabel(t.when)}` : ""}`,
        head: [s.indexName === "" ? "Class" : `${s.indexName.charAt(0).toUpperCase()}${s.indexName.slice(1)}`, "Begins"],
        numeric: [],
        rows: t.classes.map((c) =>
          r(
            [c.name, c.from !== undefined ? `at ${plain(c.from)}` : c.above !== undefined ? `above ${plain(c.above)}` : "at the bottom"],
            t,
          ),
        ),
      })),
      {
        caption: `Rates, ${s.unit} of ${symbol}`,
        head: ["Crop", ...columns],
        numeric: columns.map((_, i) => i + 1),
        rows: s.crops.flatMap((c) => c.parts.flatMap((p) => partRows(s, c, p, columns).map(({ cells, from }) => r(cells, from)))),
      },
      ...(offtakes(s).length > 0
        ? [
            {
              caption: "Added to what the harvest takes away",
              head: ["Crop", ...columns],
              numeric: columns.map((_, i) => i + 1),
              rows: offtakes(s).map(({ crop, offtake }) =>
                r(
                  [cropLabel(crop), ...columns.map((name) => (offtake.add[name] === undefined ? "" : plain(offtake.add[name])))],
                  offtake.steps,
                ),
              ),
            },
          ]
        : []),
      ...(s.crops.some((c) => c.correction)
        ? [
            {
              caption: "Correction for yield",
              head: ["Crop", "Table's yield, t/ha", `${s.unit} of ${symbol} per t`, "Holds up to"],
              numeric: [1, 2],
              rows: s.crops.flatMap((c) =>
                c.correction && c.tableYield
                  ? [
                      r(
                        [
                          cropLabel(c),
                          plain(c.tableYield.value),
                          plain(c.correction.perTonne.value),
                          `${s.indexName} ${c.correction.upTo}`,
                        ],
                        c.correction.perTonne,
                      ),
                    ]
                  : [],
              ),
            },
          ]
        : []),
      ...(s.organicMost
        ? [
            {
              caption: "On organic soil",
              head: ["Where", "At most the rate of"],
              numeric: [],
              rows: [r(["muck or peat", `${s.indexName} ${s.organicMost.class}`], s.organicMost)],
            },
          ]
        : []),
      ...(s.exceptions.length > 0
        ? [
            {
              caption: "In place of the table",
              head: ["Where", "In", `${s.unit} of ${symbol}`],
              numeric: [2],
              rows: s.exceptions.map((e) =>
                r(
                  [
                    [conditionLabel(e.when), e.testAbove !== undefined && `result above ${plain(e.testAbove)} ${s.limits.unit}`]
                      .filter(Boolean)
                      .join(", "),
                    `${s.indexName} ${list(e.classes)}`,
                    plain(e.rate),
                  ],
                  e,
                ),
              ),
            },
          ]
        : []),
    ],
  };
};

const offtakes = (s: IndexOfftakeRule): { crop: IndexCrop; offtake: NonNullable<IndexPart["offtake"]> }[] =>
  s.crops.flatMap((crop) => crop.parts.flatMap(({ offtake }) => (offtake ? [{ crop, offtake }] : [])));

const rounding = (s: IndexOfftakeRule): string =>
  s.roundTo === undefined
    ? ""
    : ` A result is rounded to ${s.roundTo === 0 ? "a whole number" : `${s.roundTo} decimal`} before it is classed, since the printed classes leave gaps; the publication does not say so.`;

const cropLabel = (c: IndexCrop): string => [conditionLabel(c.when) || "every crop", c.condition].filter(Boolean).join(", ");

/** The classes as the crop tables name them: the halves, and the whole where a table is not split. */
const columnsOf = (s: IndexOfftakeRule): string[] => [...new Set(s.indexes.flatMap((t) => t.classes.map((c) => c.name)))];

const partRows = (
  s: IndexOfftakeRule,
  c: IndexCrop,
  part: IndexPart,
  columns: readonly string[],
): { cells: string[]; from: Parameters<RuleParts["row"]>[1] }[] => {
  const classes = s.indexes.flatMap((t) => t.classes);
  const wholeOf = (name: string): string | undefined => classes.find((each) => each.name === name)?.of;
  const cellOf = (rates: Readonly<Record<string, number>> | undefined, name: string): string | undefined => {
    const value = rates?.[name] ?? rates?.[wholeOf(name) ?? ""];
    return value === undefined ? undefined : plain(value);
  };
  const whose = part.crops ? part.crops.map((each) => crops[each].label).join(" or ") : cropLabel(c);
  const doubts = (part.doubtful ?? []).map(
    (d) => `${s.indexName} ${d.class}${d.yield === undefined ? "" : ` at ${plain(d.yield)} t/ha`}: doubtful: ${d.note}`,
  );
  const withheld = Object.entries(Object.groupBy(part.withheld ?? [], (w) => w.because));
  const gaps = withheld.map(([because, at]) => `no rate at ${s.indexName} ${list((at ?? []).map((w) => w.class))}, because ${because}`);
  const rounded =
    part.offtake?.roundTo !== undefined && c.tableYield
      ? `made for ${plain(c.tableYield.value)} t/ha, rounded there to the nearest ${plain(part.offtake.roundTo)}, and corrected for another yield`
      : undefined;
  const split =
    c.split &&
    `more than ${plain(c.split.above)} ${s.unit} in equal parts ${list(c.split.doses)}${c.split.note ? `; ${c.split.note}` : ""}`;
  const note = [part.note ?? c.note, split, rounded, ...doubts, ...gaps].filter(Boolean).join("; ");
  const from = { source: part.source ?? c.source, evidence: part.evidence ?? c.evidence, ...(note !== "" && { note }) };
  const label = [whose, part.dose].filter(Boolean).join(": ");
  if (part.byYield)
    return part.byYield.map((y) => ({
      cells: [`${label}, ${plain(y.yield)} t/ha`, ...columns.map((name) => cellOf(y.rates, name) ?? "not printed")],
      from,
    }));
  const { offtake } = part;
  const offtakeCell = (name: string): string | undefined => {
    const add = cellOf(offtake?.add, name);
    return offtake && add !== undefined ? `${plain(offtake.perTonne.value)} × t${add === "0" ? "" : ` + ${add}`}` : undefined;
  };
  return [
    {
      cells: [label, ...columns.map((name) => offtakeCell(name) ?? cellOf(part.rates, name) ?? "not printed")],
      from: offtake ? { ...from, source: offtake.perTonne.source, evidence: offtake.perTonne.evidence } : from,
    },
  ];
};
