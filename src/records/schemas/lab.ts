import * as z from "zod";
import { dateOrders } from "../../exchange/results/resultFileValue.ts";
import { resultEncodings } from "../../exchange/results/resultFileText.ts";
import { writtenUnitIds } from "../../interpretation/units.ts";
import type { AnalyteId } from "../../interpretation/vocabulary.ts";
import { analyteIds } from "../../interpretation/vocabulary.ts";
import { id, longText, text } from "./primitives.ts";
import { measuring } from "./sampling.ts";

const oxideIds = ["P2O5", "K2O", "MgO"] as const;
export type Oxide = (typeof oxideIds)[number];
export const elementOf: Readonly<Record<Oxide, AnalyteId>> = { P2O5: "P", K2O: "K", MgO: "Mg" };

export const datesOf = ["sampling", "receipt", "report"] as const;

/** What one column of a laboratory's result file holds. */
const column = z.union([
  z.enum(["label", "report", "ignore"]).describe("report: what the laboratory calls its report"),
  z
    .strictObject({
      analyte: z.enum(analyteIds),
      unit: z.enum(writtenUnitIds).optional().describe("where the header does not give it and it is not the package's"),
      as: z
        .enum([...oxideIds, "element"])
        .optional()
        .describe(
          "the oxide that the figures count, which is turned into the element by atomic weights; element, where a header names the oxide all the same",
        ),
    })
    .refine((c) => c.as === undefined || c.as === "element" || elementOf[c.as] === c.analyte, {
      path: ["as"],
      error: "is not an oxide of this analyte",
    }),
  z.strictObject({
    date: z.enum(dateOrders).describe("in which order it is written"),
    of: z
      .enum(datesOf)
      .default("sampling")
      .describe("sampling: checked against the record; receipt and report: written to handling; any other date is ignored"),
  }),
]);
export type ResultColumn = z.infer<typeof column>;

/** How the laboratory writes its results as a file: what `import` reads them by. */
const resultFile = z
  .strictObject({
    delimiter: z.enum(["comma", "semicolon", "tab"]).optional().describe("absent: known by the headers"),
    decimal: z.enum(["point", "comma"]).default("point"),
    encoding: z.enum(resultEncodings).default("utf-8").describe("of files without a byte order mark; UTF-16 is known by its mark"),
    headerLine: z.number().int().min(1).max(1000).default(1).describe("the line the headers stand on; lines above it are passed over"),
    bags: z.enum(["rows", "columns"]).default("rows").describe("columns: each bag is a column, and the headers are the first one"),
    missing: z.array(text).default([]).describe("words for no result, beside nothing at all"),
    columns: z.record(text, column).describe("by header, with or without its unit in parentheses"),
  })
  .refine((r) => Object.values(r.columns).filter((c) => c === "label").length === 1, {
    path: ["columns"],
    error: "needs exactly one column that holds the label",
  });
export type ResultFileRecord = z.infer<typeof resultFile>;

/** labs/<lab>.yaml: what a laboratory measures and how, by package. */
export const lab = z.strictObject({
  name: text,
  packages: z.record(
    id,
    z.strictObject({
      name: text,
      fee: z.number().nonnegative().optional().describe("per composite, in the farm's currency"),
      measures: z.partialRecord(z.enum(analyteIds), measuring),
    }),
  ),
  resultFile: resultFile.optional(),
  note: longText.optional(),
});
export type LabRecord = z.infer<typeof lab>;
