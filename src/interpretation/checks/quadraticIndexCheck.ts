import * as z from "zod";
import { rateByQuadraticIndex, rateOnCurve } from "../rules/quadraticIndex.ts";
import { cropIds, soilClassIds } from "../vocabulary.ts";
import type { CheckKind } from "./check.ts";
import { near, published, same, valueOf } from "./check.ts";
import { measuredFor } from "./measured.ts";

const shape = published.extend({
  rule: z.string(),
  input: z.union([
    z.strictObject({ equation: z.number().int(), index: z.number() }),
    z.strictObject({ crop: z.enum(cropIds), soilClass: z.enum(soilClassIds).optional(), index: z.number() }),
  ]),
  expect: z.union([
    z.strictObject({
      rate: z.number(),
      raw: z.number().optional(),
      spread: z.number().optional(),
      unit: z.enum(["lb/ac", "lb/1000 sq ft"]).default("lb/ac"),
    }),
    z.strictObject({ vertex: z.number() }),
    z.strictObject({ outside: z.literal(true) }),
  ]),
});

export const quadraticIndexCheck: CheckKind<z.infer<typeof shape>> = {
  file: "quadraticIndex",
  list: "cases",
  title: "Rate by an equation in the soil-test index",
  shape: shape,
  run: (c, shelf) => {
    const rule = shelf.rule(c.rule, "quadraticIndex");
    const { input, expect } = c;
    if ("equation" in input) {
      const equation = rule.equations.find((e) => e.number === input.equation);
      if (!equation) return [same("equation", "outside" in expect ? "left out" : "absent", "outside" in expect ? "left out" : "present")];
      const got = rateOnCurve(equation, input.index);
      if ("vertex" in expect) return [near("vertex", got.vertex, expect.vertex, c)];
      if ("outside" in expect) return [same("equation", "present", "left out")];
      return [
        near("rate", got.rate, expect.rate, c),
        same("unit", equation.unit, expect.unit),
        ...(expect.raw === undefined ? [] : [near("before it is kept above zero", got.raw, expect.raw, c)]),
      ];
    }
    const { index, ...facts } = input;
    const outcome = rateByQuadraticIndex(rule, measuredFor(rule.limits, rule.analyte, index), {
      facts,
      yieldGoal: undefined,
      removal: undefined,
      pack: "the publication",
    });
    if (!("rate" in expect)) return [same("answer", outcome.kind, "noAnswer")];
    return valueOf(outcome, ({ rate }) => [
      near("rate", rate.value, expect.rate, c),
      same("unit", rate.unit, expect.unit),
      ...(expect.spread === undefined ? [] : [near("either side", rule.spread?.value, expect.spread, c)]),
    ]);
  },
};
