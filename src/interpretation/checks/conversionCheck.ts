import * as z from "zod";
import { convertedResult } from "../rules/conversion.ts";
import { methodIds } from "../vocabulary.ts";
import type { CheckKind } from "./check.ts";
import { facts, near, published, same, valueOf } from "./check.ts";
import { measured } from "./measured.ts";

const shape = published.extend({
  rule: z.string(),
  input: z.strictObject({ value: z.number(), method: z.enum(methodIds), facts: facts.default({}) }),
  expect: z.union([z.strictObject({ value: z.number() }), z.strictObject({ refused: z.literal(true) })]),
});

export const conversionCheck: CheckKind<z.infer<typeof shape>> = {
  file: "conversion",
  list: "cases",
  title: "What another test would read",
  shape,
  run: (c, shelf) => {
    const rule = shelf.rule(c.rule, "conversion");
    const { value, method } = c.input;
    const outcome = convertedResult(rule, measured(rule.analyte, value, { method, unit: rule.unit }), c.input.facts, "the publication");
    if (!outcome) return [same("relation", "not about this result", "about it")];
    const wanted = c.expect;
    return "value" in wanted
      ? valueOf(outcome, (got) => [near(`${rule.analyte}, ${rule.unit}`, got.value, wanted.value, c)])
      : [same("answer", outcome.kind, "noAnswer")];
  },
};
