export const dateOrders = ["yearMonthDay", "dayMonthYear", "monthDayYear"] as const;
export type DateOrder = (typeof dateOrders)[number];
export type DecimalMark = "point" | "comma";

/** A result as a laboratory wrote it: the number, with the digits it gave, and `<` or `>` where it only bounds it. */
export interface WrittenValue {
  readonly value: number;
  /** With a point, and no zeros dropped at its end: 3.0 stays 3.0. */
  readonly digits: string;
  readonly qualifier: "<" | ">" | undefined;
}

/** Digits beyond these are no measurement, and a number cannot hold them. */
const mostDigits = 15;

/**
 * Read a result: a plain number from 0 up, with `<` or `>` before it or not. No signs, no powers of ten, no thousands
 * marks: a 1,200 may be one thousand two hundred or one and a fifth. `because` is a clause about the text.
 */
export const writtenValue = (text: string, decimal: DecimalMark): WrittenValue | { readonly because: string } => {
  const shown = `"${text.length > 40 ? `${text.slice(0, 40)}…` : text}"`;
  const found = /^([<>])?\s*(\d+)(?:([.,])(\d+))?$/.exec(text);
  if (!found) {
    const [own, other] = decimal === "comma" ? [",", "."] : [".", ","];
    if (/^[<>]?\s*\d{1,3}(?:[.,' \u00a0]\d{3})+(?:[.,]\d+)?$/.test(text))
      return {
        because: `${shown} marks its thousands, which could be misread; a result is written with at most one mark, the decimal ${decimal}`,
      };
    if (text.includes(own) && text.includes(other))
      return { because: `${shown} holds both a point and a comma; the laboratory's resultFile says decimal: ${decimal}` };
    const plain = /\p{N}/u.test(text)
      ? `a result is plain digits with at most one mark, the decimal ${decimal}, and < or > before them where they only bound it`
      : "a word for no result is listed under missing: in the laboratory's resultFile";
    return { because: `${shown} is not a number; ${plain}` };
  }
  const [, qualifier, whole = "", mark, part = ""] = found;
  if (mark !== undefined && (mark === ",") !== (decimal === "comma"))
    return { because: `${shown} has a decimal ${mark === "," ? "comma" : "point"}; the laboratory's resultFile says decimal: ${decimal}` };
  const plain = whole.replace(/^0+(?=\d)/, "");
  if (plain.length + part.length > mostDigits) return { because: `${shown} has more than ${mostDigits} digits` };
  const digits = mark === undefined ? plain : `${plain}.${part}`;
  return { value: Number(digits), digits, qualifier: qualifier as "<" | ">" | undefined };
};

const parts: Readonly<Record<DateOrder, readonly [year: number, month: number, day: number]>> = {
  yearMonthDay: [0, 1, 2],
  dayMonthYear: [2, 1, 0],
  monthDayYear: [2, 0, 1],
};

/** A calendar day as `YYYY-MM-DD`, from three numbers in the stated order parted by points, hyphens, slashes or spaces. The year has four digits. */
export const writtenDate = (text: string, order: DateOrder): string | undefined => {
  const numbers = text.split(/\s*[./-]\s*|\s+/);
  const [year, month, day] = parts[order].map((at) => numbers[at] ?? "");
  if (numbers.length !== 3 || !/^\d{4}$/.test(year!) || !/^\d{1,2}$/.test(month!) || !/^\d{1,2}$/.test(day!)) return undefined;
  const [m, d] = [Number(month), Number(day)];
  return m >= 1 && m <= 12 && d >= 1 && d <= daysIn(Number(year), m)
    ? `${year}-${month!.padStart(2, "0")}-${day!.padStart(2, "0")}`
    : undefined;
};

const daysIn = (year: number, month: number): number =>
  month === 2 ? ((year % 4 === 0 && year % 100 !== 0) || year % 400 === 0 ? 29 : 28) : [4, 6, 9, 11].includes(month) ? 30 : 31;
