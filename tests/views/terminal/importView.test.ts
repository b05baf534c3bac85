import { expect, it } from "vitest";
import type { ImportPlan } from "../../../src/records/importing/importResults.ts";
import { importSummary, importTable } from "../../../src/views/terminal/importView.ts";

const plan = {
  bags: [
    {
      field: { id: "north" },
      sampling: { id: "2025-10-18", file: "fields/north/samplings/2025-10-18.yaml" },
      composite: { zone: "west", label: "a\n\u202eb", measurements: [{ analyte: "pH" }, { analyte: "K" }] },
      added: [
        { analyte: "P", digits: "30", qualifier: "<", unit: "lb/ac" },
        { analyte: "Zn", digits: "0.50", qualifier: undefined, unit: "ppm" },
      ],
      corrected: [{ analyte: "K", was: 69, digits: "96", unit: "ppm" }],
    },
  ],
  statements: [{ field: { id: "north" }, sampling: { id: "2025-10-18" }, said: { receivedOn: "2025-10-20", reportedOn: "2025-10-28", number: "L\n77" } }],
  known: 1,
  awaited: [{ field: { id: "north" }, sampling: { id: "2025-10-18" }, composite: { label: "c\u2028d" } }],
} as unknown as ImportPlan;

it("a bag's line says what it has, and of a new result the unit where that is not the usual one; a label cannot break it", () =>
  expect(importTable(plan.bags)).toBe(
    "Field  Sampled     Zone  Label  Results now      Added\nnorth  2025-10-18  west  a b    pH, K        ->  P <30 lb/ac, Zn 0.50, K 69 corrected to 96",
  ));

it("the lines below it count one as one, and break at no label either", () =>
  expect(importSummary(plan)).toEqual(["2 results for 1 bag in 1 sampling file.", "1 correction for 1 bag in 1 sampling file.", "north/2025-10-18: received 2025-10-20, reported 2025-10-28, report L 77.", "1 result of the file is in the records already.", "Still awaited: c d (north/2025-10-18)."]));
