import * as z from "zod";
import { tAbove } from "../statistics/distributions.ts";
import { situationOf } from "../statistics/equivalence.ts";
import { pooled, summaryOf, testTwoAreas, welch } from "../statistics/twoAreas.ts";
import type { CheckKind } from "./check.ts";
import { published } from "./check.ts";
import { digits, printedAll, printedNumber } from "./printed.ts";

const values = z.array(z.number()).min(2);
const summary = z.strictObject({ mean: z.number(), sd: z.number(), n: z.number().int().min(2) });
const options = { margin: z.number().optional(), pooled: z.boolean().optional() };
const shape = published.extend({
  digits,
  rule: z.string().optional(),
  input: z
    .union([
      z.strictObject({ values: z.tuple([values, values]), ...options }),
      z.strictObject({ summaries: z.tuple([summary, summary]), ...options }),
    ])
    .optional(),
  expect: z.record(z.string(), printedNumber),
});

export const marginCheck: CheckKind<z.infer<typeof shape>> = {
  file: "margin",
  list: "cases",
  title: "Whether two areas may share a sample",
  shape,
  run: (c, shelf) => {
    if (!c.input) return printedAll({ within: shelf.rule(c.rule!, "margin").within.value }, c.expect, c.digits);
    const { margin = 0 } = c.input;
    const [a, b] = "values" in c.input ? [summaryOf(c.input.values[0]), summaryOf(c.input.values[1])] : c.input.summaries;
    const test = testTwoAreas(c.input.pooled ? pooled(a, b) : welch(a, b), margin);
    const { limits95, limits90, ...numbers } = test;
    return printedAll(
      {
        ...numbers,
        mean1: a.mean,
        sd1: a.sd,
        mean2: b.mean,
        sd2: b.sd,
        from95: limits95[0],
        to95: limits95[1],
        from90: limits90[0],
        to90: limits90[1],
        pooledSd: pooled(a, b).error / Math.sqrt(1 / a.n + 1 / b.n),
        pOneSided: tAbove(Math.abs(test.t), test.df),
        equivalent: test.pEquivalent < 0.05,
        situation: situationOf(test, margin),
      },
      c.expect,
      c.digits,
    );
  },
};
