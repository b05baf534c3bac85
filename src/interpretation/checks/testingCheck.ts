import * as z from "zod";
import { testingCost } from "../statistics/testingCost.ts";
import { testingValue } from "../statistics/testingValue.ts";
import type { CheckKind } from "./check.ts";
import { published, valueOf } from "./check.ts";
import { digits, printed, printedAll } from "./printed.ts";

const shape = published.extend({
  digits,
  input: z.strictObject({ fee: z.number(), acresPerSample: z.number(), yearsBetween: z.number() }),
  expect: z.strictObject({ cost: z.number() }),
});

export const testingCostCheck: CheckKind<z.infer<typeof shape>> = {
  file: "testing",
  list: "cases",
  title: "What testing costs",
  shape,
  run: (c) => valueOf(testingCost(c.input), (cost) => [printed("cost", cost, c.expect.cost, c.digits)]),
};

const shares = z.record(z.string(), z.number());
const valueShape = published.extend({
  digits,
  input: z.strictObject({ payoff: z.record(z.string(), shares), prior: shares, likelihood: z.record(z.string(), shares) }),
  expect: shares,
});

export const testingValueCheck: CheckKind<z.infer<typeof valueShape>> = {
  file: "testing",
  list: "value",
  title: "What a test is worth",
  shape: valueShape,
  run: (c) => valueOf(testingValue(c.input), (value) => printedAll({ ...value }, c.expect, c.digits)),
};
