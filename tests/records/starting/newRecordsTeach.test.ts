import * as z from "zod";
import { expect, it } from "vitest";
import { newField } from "../../../src/records/starting/newRecordsField.ts";
import { field } from "../../../src/records/schemas/field.ts";

/** Every key that a schema knows, however deep. */
const keysOf = (node: unknown): string[] => {
  if (Array.isArray(node)) return node.flatMap(keysOf);
  if (node === null || typeof node !== "object") return [];
  const { properties, ...rest } = node as { properties?: Record<string, unknown> };
  return [...Object.entries(properties ?? {}).flatMap(([key, of]) => [key, ...keysOf(of)]), ...keysOf(Object.values(rest))];
};

it("a new field names every key that there is, as README says", () => {
  const keys = new Set(keysOf(z.toJSONSchema(field, { unrepresentable: "any" })));
  expect(keys).toContain("subsoilPh");
  for (const units of ["us", "metric", "garden"] as const) {
    const { text } = newField({ id: "north", name: "North", zones: ["West"], units });
    const untaught = [...keys].filter((key) => !new RegExp(`\\b${key}\\b`).test(text));
    // Only Poland and Britain know the one, only North Carolina the other; a gardener sets no goal.
    expect(untaught, units).toEqual({ us: ["category"], metric: ["soilClass"], garden: ["category", "yieldGoal"] }[units]);
  }
});
