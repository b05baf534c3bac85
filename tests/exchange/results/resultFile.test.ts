import { stringify } from "csv-stringify/sync";
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { DelimiterName, ReadTable, ResultTable, Shape } from "../../../src/exchange/results/resultFile.ts";
import { delimiters, resultTable } from "../../../src/exchange/results/resultFile.ts";
import { placeIn } from "../../../src/exchange/results/resultFileText.ts";

const shape: Shape = { headerLine: 1, bags: "rows", knows: (header) => ["Label", "pH", "K"].includes(header) };
const read = (text: string, more: Partial<Shape> = {}): ResultTable => {
  const result: ReadTable = resultTable(text, { ...shape, ...more });
  if ("faults" in result) throw new Error(JSON.stringify(result.faults));
  return result.table;
};
const because = (text: string, more: Partial<Shape> = {}): unknown => {
  const result = resultTable(text, { ...shape, ...more });
  return "faults" in result ? result.faults : "no fault";
};

describe("a result file as a table", () => {
  it.each([[",", "rows"], [" , \n,,\n", "rows"], [",\n", "columns"]] as const)("is refused where it holds nothing but commas, as a laboratory's own delimiter: %j in %s", (text, bags) => {
    expect(because(text, { delimiter: "comma", bags })).toEqual([{ line: 1, column: 1, because: "holds no value, only what parts them" }]);
  });

  it.each([
    [",", 'Label,"pH"\n"a ""b"", c",6\n'],
    [";", 'Label;"pH"\n"a ""b"", c";6\n'],
    ["\t", 'Label\t"pH"\n "a ""b"", c" \t 6\n'],
  ])("is parted by %j where the headers say so", (_, text) => {
    expect(read(text)).toMatchObject({ headers: ["Label", "pH"], rows: [['a "b", c', "6"]] });
  });

  it("goes by the delimiter that is stated, also where another would part the headers", () => {
    expect(read("Label;pH,K\na;6,2\n", { delimiter: "semicolon", knows: () => true })).toMatchObject({ headers: ["Label", "pH,K"], rows: [["a", "6,2"]] });
  });

  it("begins on the line its headers stand on, and passes over empty lines below it", () => {
    const table = read('A "laboratory\n\nLabel,K\n\na,1\n,\nb,2', { headerLine: 3 });
    expect(table.rows).toEqual([["a", "1"], ["b", "2"]]);
    expect([table.place(-1, 1), table.place(0, 0), table.place(1, 1)]).toEqual([{ line: 3, column: 7 }, { line: 5, column: 1 }, { line: 7, column: 3 }]);
  });

  it("has a bag in each row where the file has it in each column", () => {
    const table = read("Label;a;b\nK;1;\nNote;x;\n", { bags: "columns" });
    expect(table).toMatchObject({ headers: ["Label", "K", "Note"], rows: [["a", "1", "x"], ["b", "", ""]] });
    expect([table.place(-1, 1), table.place(0, 1), table.place(1, 0)]).toEqual([{ line: 2, column: 1 }, { line: 2, column: 3 }, { line: 1, column: 9 }]);
  });

  it.each([
    ["headers that nobody knows below a letterhead", "A laboratory\n\nBag;acid\n", "has no header that is known, whether comma, semicolon or tab parts them; check headerLine, delimiter and columns of the laboratory's resultFile", 3, 3],
    ["too many rows", `Label\n${"a\n".repeat(20_000)}`, "has more than 20,000 rows"],
    ["too many columns", `Label${",".repeat(1_000)}\n`, "has more than 1,000 columns"],
    ["a row without an end", `Label\n"${"a\n".repeat(150_000)}`, "has a row longer than 200,000 characters; is a quotation mark missing?"],
    ["fewer lines than it should", "Label\na\n", "ends before line 9, where its headers should stand", 9],
    ["one line fewer than it should", "Label\na\n", "ends before line 4, where its headers should stand", 4],
  ])("is refused with %s", (_, text, message, headerLine = 1, line?: number) => {
    expect(because(text, { headerLine })).toMatchObject([{ because: message, ...(line !== undefined && { line, column: 1 }) }]);
  });

  it.each(["", " \n\n"])("is refused as empty: %j", (text) => expect(because(text)).toEqual([{ line: 1, column: 1, because: "is empty" }]));

  it("is refused at a quotation mark that is never closed, in its first row or in a later one, by whatever parts its headers", () => {
    const never = "has a quotation mark that is never closed, from this value on";
    expect(because('Label,"pH\na,6\n', { delimiter: "comma" })).toEqual([{ line: 1, column: 7, because: never }]);
    expect(because('Label;pH\na;6\nb;"7\n')).toEqual([{ line: 3, column: 3, because: never }]);
  });

  it("with a bag in each column is parted by what parts most of the headers below one another", () =>
    expect(read("Sheet;7, of two\nLabel;a\nK;1\n", { bags: "columns" }).headers).toEqual(["Sheet", "Label", "K"]));

  it("as many rows as allowed are read", () => expect(read(`Label\n${"a\n".repeat(19_999)}`).rows).toHaveLength(19_999));
});

it("reads back whatever a CSV writer writes, and knows where each value stands", () => {
  const word = fc.stringMatching(/^[a-z;,"\n\t =+']{0,8}$/).map((w) => w.trim());
  const width = 4;
  const row = fc.array(word, { minLength: width, maxLength: width });
  fc.assert(
    fc.property(fc.constantFrom<DelimiterName>("comma", "semicolon", "tab"), fc.array(row, { minLength: 1, maxLength: 6 }), fc.boolean(), (delimiter, rows, quoted) => {
      const head = ["Label", "a\nb", "c", "d"];
      const text = stringify([head, ...rows], { delimiter: delimiters[delimiter], quoted });
      const table = read(text, { delimiter });
      const kept = rows.filter((r) => r.some((cell) => cell !== ""));
      expect(table.headers).toEqual(head);
      expect(table.rows).toEqual(kept);
      table.rows.forEach((cells, at) => {
        cells.forEach((cell, column) => {
          const place = table.place(at, column);
          const lines = text.split("\n");
          const here = lines.slice(place.line - 1).join("\n").slice(place.column - 1);
          const asWritten = cell.replaceAll('"', '""');
          expect(here.startsWith(cell) || here.startsWith(`"${asWritten}"`)).toBe(true);
          // And it is this cell, not an equal one before it: what stands before holds all the cells before.
          const offset = lines.slice(0, place.line - 1).join("\n").length + (place.line > 1 ? 1 : 0) + place.column - 1;
          expect(placeIn(text, offset)).toEqual(place);
          if (column > 0) {
            const before = table.place(at, column - 1);
            expect(place.line > before.line || place.column > before.column).toBe(true);
          }
        });
      });
    }),
    { seed: 20251018, numRuns: 300 },
  );
});
