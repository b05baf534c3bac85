import type { Farm, Field } from "../records/model.ts";
import { compareNames } from "./nameOrder.ts";
import { mostOfPage } from "./pageWeight.ts";
import { parted } from "./parted.ts";
import { count } from "./words.ts";

/** Fields that share a page of something told field by field. */
export interface FieldPart {
  /** From 1 on. */
  readonly part: number;
  /** "Causeway to Netloft", by name. */
  readonly title: string;
  /** "seven fields" */
  readonly holds: string;
  readonly fields: readonly Field[];
}

/** The pages by field, known from the records alone; none where one page holds them all. */
export const fieldParts = (farm: Farm, weightOf: (field: Field) => number): readonly FieldPart[] => {
  const byName = [...farm.fields].sort((a, b) => compareNames(a.name, b.name));
  const parts = parted(byName, weightOf, mostOfPage);
  if (parts.length < 2) return [];
  return parts.map((fields, i) => ({
    part: i + 1,
    title: fields.length === 1 ? fields[0]!.name : `${fields[0]!.name} to ${fields.at(-1)!.name}`,
    holds: count(fields.length, "field"),
    fields,
  }));
};
