import { createHash } from "node:crypto";
import { join } from "node:path";
import { parse } from "csv-parse/sync";
import { describe, expect, it } from "vitest";
import { installation } from "../../../scripts/options.ts";
import { textFile } from "../../../src/exchange/bundle/bag.ts";
import { dataPackage } from "../../../src/exchange/bundle/dataPackage.ts";
import { columnOf, columns } from "../../../src/exchange/bundle/dataPackageColumns.ts";
import { readFarm } from "../../../src/records/reading/readFarm.ts";
import { balanceCsv } from "../../../src/views/balance/balanceCsv.ts";
import { latestCsv } from "../../../src/views/advice/latestResults.ts";
import { hasBalance } from "../../../src/views/balance/placeRecords.ts";
import { fieldCsv } from "../../../src/views/results/rows.ts";
import { rateMapFiles } from "../../../src/views/season/seasonMapFiles.ts";
import { inUnitsOf } from "../../../src/views/units.ts";

const sha512 = (bytes: Uint8Array): string => createHash("sha512").update(bytes).digest("hex");
const label = { name: "tiny-farm", title: "Tiny Farm", description: "a farm" };

/** Every table of a farm, as its site offers them. */
const tablesOf = (content: string): [string, string][] => {
  const farm = readFarm({ content: join(installation, content), library: join(installation, "content") }).farm!;
  return [
    [`${content}: newest`, latestCsv(farm)],
    ...rateMapFiles(farm).map(({ map, csv }): [string, string] => [`${content}: ${map.key}`, csv]),
    ...farm.fields.flatMap((field): [string, string][] => [
      [`${content}: ${field.id}`, fieldCsv(field, inUnitsOf(farm, field).units)],
      ...(hasBalance(field) ? ([[`${content}: balance of ${field.id}`, balanceCsv(farm, field)]] satisfies [string, string][]) : []),
    ]),
  ];
};

/** How Table Schema writes each type, as far as our tables use it. */
const written = {
  string: /^[^]*$/,
  number: /^-?\d+(\.\d+)?(e-?\d+)?$/,
  integer: /^-?\d+$/,
  date: /^\d{4}-\d\d-\d\d$/,
  year: /^\d{4}$/,
  boolean: /^(true|false)$/,
};

describe.each(["content", "tests/golden/farm", "tests/fixtures/metric", "tests/fixtures/labchange"].flatMap(tablesOf))("the table %s", (_, text) => {
  const table: string[][] = parse(text);
  const [head, ...rows] = table;

  it("has only columns that are described, and cells of their types", () => {
    expect(rows.length).toBeGreaterThan(0);
    for (const [i, name] of head!.entries()) {
      const column = columnOf(name);
      expect(column, `${name}: describe it in src/exchange/bundle/dataPackageColumns.ts`).toBeDefined();
      for (const row of rows) if (row[i] !== "") expect(row[i], `${name} in ${row.join(",")}`).toMatch(written[column!.type]);
    }
  });
});

describe("a column", () => {
  it.each([
    ["applied_lb_ac", "Applied", "lb/ac"],
    ["applied_kg_ha", "Applied", "kg/ha"],
    ["sum_lb_1000_sq_ft", "Running sum of applied less removed", "lb/1000 sq ft"],
    ["area_acres", "Area of the zone", "acre"],
    ["area_sq_ft", "Area of the zone", "sq ft"],
    ["rate_each_t_ha", "Rate of each application", "t/ha"],
    ["total_t", "Amount for the whole zone", "t"],
    ["cost_eur", "Cost for the whole zone", "EUR"],
    ["depth_to_cm", "Lower end of the depth sampled", "cm"],
    ["sum_since", "First season of the running sum", undefined],
    ["value", "Value", undefined],
  ])("%s is %s in %s", (name, title, unit) => expect([columnOf(name)!.title, columnOf(name)!.unit]).toEqual([title, unit]));

  it.each(["colour", "applied_", "_lb_ac", "lb_ac", "toString"])("%s is not known", (name) => expect(columnOf(name)).toBeUndefined());

  it("sends nobody to the records, which an excerpt's bundle does not hold", () =>
    expect([...columns.values()].filter(({ description = "" }) => description.includes("data/records"))).toEqual([]));

  it("keeps the zeros of a bag's label: it is a text", () => expect(columns.get("bag")!.type).toBe("string"));
});

it("describes a table by its place, size, checksum and columns in their order", () => {
  const file = textFile("site/data/north-results.csv", "zone,value,depth_from_in,colour\r\nwest,1,0,red\r\n");
  expect(JSON.parse(dataPackage([file], label, sha512))).toEqual({
    profile: "tabular-data-package",
    ...label,
    resources: [
      {
        profile: "tabular-data-resource",
        name: "north-results",
        path: "site/data/north-results.csv",
        format: "csv",
        mediatype: "text/csv",
        encoding: "utf-8",
        bytes: 47,
        hash: `sha512:${sha512(file.bytes)}`,
        schema: {
          fields: [
            { name: "zone", type: "string", title: "Zone", description: "The zone's id within its field; on labels its name." },
            { name: "value", type: "number", title: "Value", description: "As reported by the laboratory, in the unit of the column unit." },
            { name: "depth_from_in", type: "number", title: "Upper end of the depth sampled", unit: "in" },
            { name: "colour", type: "string" },
          ],
          missingValues: [""],
        },
      },
    ],
  });
});
