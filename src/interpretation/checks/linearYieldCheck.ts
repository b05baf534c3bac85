import * as z from "zod";
import { rateByLinearYield } from "../rules/linearYield.ts";
import type { CheckKind } from "./check.ts";
import { near, published, valueOf } from "./check.ts";
import { measuredFor } from "./measured.ts";
import { rateInput } from "./rateInput.ts";

const shape = published.extend({
  rule: z.string(),
  input: rateInput,
  expect: z.strictObject({ rate: z.number() }),
});

export const linearYieldCheck: CheckKind<z.infer<typeof shape>> = {
  file: "linearYield",
  list: "cases",
  title: "A rate by test and yield",
  shape,
  run: (c, shelf) => {
    const rule = shelf.rule(c.rule, "linearYield");
    const { value, yieldGoal, facts } = c.input;
    const outcome = rateByLinearYield(rule, measuredFor(rule.limits, rule.analyte, value), {
      facts,
      yieldGoal,
      removal: undefined,
      pack: "the publication",
    });
    return valueOf(outcome, (got) => [near(`rate, ${got.rate.unit}`, got.rate.value, c.expect.rate, c)]);
  },
};
