import { stringify } from "csv-stringify/sync";
import * as fc from "fast-check";
import { expect, it } from "vitest";
import { toCsv } from "../../src/exchange/csv.ts";
import { always } from "../support/repeatable.ts";

// RFC 4180 for quoting and line ends; the leading apostrophe is common practice against formulas run by a spreadsheet.
it("quotes what needs quoting and ends lines with CRLF", () => {
  expect(toCsv(["a", "b"], [['say "x"', "1,2"], ["two\nlines", undefined]])).toBe('a,b\r\n"say ""x""","1,2"\r\n"two\nlines",\r\n');
});

it.each(["=1+1", "+1", "-1", "@x", "\tx", "\rx"])("defuses the text %j and leaves numbers alone", (text) => {
  expect(toCsv(["label", "value"], [[text, -1.5]]).split(/\r\n(?=.)/)[1]).toMatch(/^"?'/);
  expect(toCsv(["label", "value"], [[text, -1.5]])).toContain("-1.5");
});

it("writes what a writer made by others writes", () => {
  const text = fc.string({ unit: fc.constantFrom("=", "+", "-", "@", "\t", "\r", "\n", '"', ",", ";", "'", " ", "é", "＝", "1") });
  const cell = fc.oneof(text, fc.double({ noNaN: true, noDefaultInfinity: true }), fc.constant(undefined));
  always([fc.array(text, { minLength: 2, maxLength: 4 }), fc.array(fc.array(cell, { minLength: 2, maxLength: 4 }))], (columns, rows) => {
    expect(toCsv(columns, rows)).toBe(stringify([columns, ...rows], { record_delimiter: "\r\n", quoted_match: /[\r\n]/, escape_formulas: true }));
  });
});
