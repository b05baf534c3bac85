import { describe, expect, it } from "vitest";
import { always, between } from "../../support/repeatable.ts";
import { writtenDate, writtenValue } from "../../../src/exchange/results/resultFileValue.ts";

const aWord = "is not a number; a word for no result is listed under missing: in the laboratory's resultFile";

describe("a written value", () => {
  it.each([
    ["6.30", "point", 6.3, "6.30", undefined],
    ["6,30", "comma", 6.3, "6.30", undefined],
    ["0", "point", 0, "0", undefined],
    ["007.50", "point", 7.5, "7.50", undefined],
    ["<0.5", "point", 0.5, "0.5", "<"],
    ["> 1000", "comma", 1000, "1000", ">"],
    ["1.762", "point", 1.762, "1.762", undefined],
  ] as const)("%s with a decimal %s is %s", (text, decimal, value, digits, qualifier) => {
    expect(writtenValue(text, decimal)).toEqual({ value, digits, qualifier });
  });

  it.each([
    ["1,762", "point", "has a decimal comma"],
    ["1.762", "comma", "has a decimal point"],
    ["1.762,5", "comma", "marks its thousands"],
    ["1 762", "point", "marks its thousands"],
    ["1'762", "point", "marks its thousands"],
    ["> 1 762", "point", "marks its thousands"],
    ["1.762,55", "comma", "marks its thousands"],
    ["1.7,6", "point", "holds both a point and a comma"],
    ...["", "1,2,3", "about 1,762", "1,762 kg", "-1", "+1", "1e3", "0x1F", "NaN", "Infinity", "1.", ".5", "<", "<<1", "≤1", "5 <", "=1+1", "1.2.3", "٣", "１", "6.3 ppm"].map((text) => [text, "point", "is not a number"] as const),
  ] as const)("%j with a decimal %s is refused", (text, decimal, message) => {
    expect(writtenValue(text, decimal)).toMatchObject({ because: expect.stringContaining(message) as unknown });
  });

  it.each([
    ["1,762", "point", "\"1,762\" has a decimal comma; the laboratory's resultFile says decimal: point"],
    ["1.762", "comma", "\"1.762\" has a decimal point; the laboratory's resultFile says decimal: comma"],
    ["1.762,5", "comma", '"1.762,5" marks its thousands, which could be misread; a result is written with at most one mark, the decimal comma'],
    ["1,7.6", "comma", "\"1,7.6\" holds both a point and a comma; the laboratory's resultFile says decimal: comma"],
    ["x".repeat(40), "point", `"${"x".repeat(40)}" ${aWord}`],
    [`${"x".repeat(40)}y`, "point", `"${"x".repeat(40)}…" ${aWord}`],
    ["-", "comma", `"-" ${aWord}`],
    ["-6", "point", '"-6" is not a number; a result is plain digits with at most one mark, the decimal point, and < or > before them where they only bound it'],
    ["٣", "comma", '"٣" is not a number; a result is plain digits with at most one mark, the decimal comma, and < or > before them where they only bound it'],
  ] as const)("%s with a decimal %s is told what is wrong with it", (text, decimal, because) => expect(writtenValue(text, decimal)).toEqual({ because }));

  it.each([
    ["123456789012345", { value: 123_456_789_012_345, digits: "123456789012345" }],
    ["0012345678.9012345", { value: 12_345_678.901_234_5, digits: "12345678.9012345" }],
    ["1234567890123456", { because: '"1234567890123456" has more than 15 digits' }],
    ["123456789.0123456", { because: '"123456789.0123456" has more than 15 digits' }],
  ])("%s is held to the digits that a number can keep", (text, expected) => expect(writtenValue(text, "point")).toMatchObject(expected));

  it("keeps every number that is written plainly, by either mark", () =>
    always([between(0, 1e6)], (value) => {
      const digits = value.toFixed(4);
      expect(writtenValue(digits, "point")).toEqual({ value: Number(digits), digits, qualifier: undefined });
      expect(writtenValue(digits.replace(".", ","), "comma")).toEqual({ value: Number(digits), digits, qualifier: undefined });
    }));
});

describe("a written day", () => {
  it.each([
    ["2025-10-18", "yearMonthDay", "2025-10-18"],
    ["18.10.2025", "dayMonthYear", "2025-10-18"],
    ["10/18/2025", "monthDayYear", "2025-10-18"],
    ["3. 4. 2025", "dayMonthYear", "2025-04-03"],
    ["3 / 4 / 2025", "dayMonthYear", "2025-04-03"],
    ["3/4/2025", "monthDayYear", "2025-03-04"],
    ["29.2.2024", "dayMonthYear", "2024-02-29"],
  ] as const)("%s as %s is %s", (text, order, day) => expect(writtenDate(text, order)).toBe(day));

  it.each([1900, 2000, 2023, 2024])("every day of %d and no other is a day, in any order", (year) => {
    for (let month = 0; month <= 13; month++)
      for (let day = 0; day <= 32; day++) {
        const at = new Date(Date.UTC(year, month - 1, day));
        const real = month >= 1 && month <= 12 && at.getUTCMonth() === month - 1 && at.getUTCDate() === day;
        const expected = real ? at.toISOString().slice(0, 10) : undefined;
        expect([writtenDate(`${year}-${month}-${day}`, "yearMonthDay"), writtenDate(`${day}.${month}.${year}`, "dayMonthYear"), writtenDate(`${month}/${day}/${year}`, "monthDayYear")]).toEqual([expected, expected, expected]);
      }
  });

  it.each([
    ["29.2.2025", "dayMonthYear"],
    ["29.2.1900", "dayMonthYear"],
    ["31.4.2025", "dayMonthYear"],
    ["18.10.2025 08:15", "dayMonthYear"],
    ["18.10.12025", "dayMonthYear"],
    ["18.10.2025x", "dayMonthYear"],
    ["18.10.25", "dayMonthYear"],
    ["10/18/2025", "dayMonthYear"],
    ["2025-13-01", "yearMonthDay"],
    ["2025-00-10", "yearMonthDay"],
    ["20251018", "yearMonthDay"],
    ["2025-10-18T00:00", "yearMonthDay"],
    ["2025-10", "yearMonthDay"],
    ["", "yearMonthDay"],
  ] as const)("%s is no day as %s", (text, order) => expect(writtenDate(text, order)).toBeUndefined());
});
