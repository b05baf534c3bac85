import type { Farm, Field } from "../../records/model.ts";
import type { OwedSum } from "./owedRows.ts";
import { moneyWords, sumOwed } from "./owedRows.ts";

export interface OwedField extends Omit<OwedSum, "money"> {
  readonly name: string;
  readonly money: string;
}

/** What some fields of one choice of units are owed, as a line of the farm's summary. */
export const owedLine = (farm: Farm, fields: readonly Field[], name: string): OwedField => {
  const sum = sumOwed(farm, fields);
  const unknown = [sum.lime, sum.phosphorus, sum.potassium].every((text) => text === "not known");
  return { ...sum, name, money: unknown ? "not known" : moneyWords(farm, sum.money) };
};

/** Is nothing known of what any of these lines is owed? Then a table would hold that one word alone. */
export const nothingKnown = (lines: readonly Pick<OwedField, "lime" | "phosphorus" | "potassium">[]): boolean =>
  lines.every((line) => [line.lime, line.phosphorus, line.potassium].every((text) => text === "not known"));
