import { stringify } from "csv-stringify/sync";
import fc from "fast-check";
import { expect, it } from "vitest";
import { toCsv } from "../../src/exchange/csv.ts";

// RFC 4180 for quoting and line ends; the leading apostrophe is common practice against formulas run by a spreadsheet.
it("quotes what needs quoting and ends lines with CRLF", () => {
  expect(toCsv(["a", "b"], [['say "x"', "1,2"], ["two\nlines", undefined]])).toBe('a,b\r\n"say ""x""","1,2"\r\n"two\nlines",\r\n');
});

it.each(["=1+1", "+1", "-1", "@x", "\tx", "\rx"])("defuses the text %j and leaves numbers alone", (text) => {
  expect(toCsv(["label", "value"], [[text, -1.5]]).split(/\r\n(?=.)/)[1]).toMatch(/^"?'/);
  expect(toCsv(["label", "value"], [[text, -1.5]])).toContain("-1.5");
});

it("writes what the library writes, cell for cell", () => {
  const text = fc.oneof(fc.string(), fc.stringMatching(/^[=+\-@\t\r"', \n\uFF1D]{0,2}[a-z", ]{0,3}$/));
  const cell = fc.oneof(text, fc.double(), fc.constant(undefined));
  const table = fc.integer({ min: 1, max: 4 }).chain((width) => fc.array(fc.array(cell, { minLength: width, maxLength: width }), { minLength: 1, maxLength: 4 }));
  fc.assert(
    fc.property(table, ([head, ...rows]) => {
      const columns = head!.map(String);
      expect(toCsv(columns, rows)).toBe(stringify([columns, ...rows], { record_delimiter: "\r\n", quoted_match: /[\r\n]/, escape_formulas: true }));
    }),
  );
});
