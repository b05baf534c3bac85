import * as z from "zod";
import { creditOfLegume } from "../rules/legumeCredit.ts";
import type { CheckKind } from "./check.ts";
import { near, published, valueOf } from "./check.ts";
import { history, historyOf } from "./nitrogenInput.ts";

const shape = published.extend({
  rule: z.string(),
  input: z.strictObject({ history }),
  expect: z.strictObject({ credit: z.number(), upTo: z.number().optional() }),
});

export const legumeCreditCheck: CheckKind<z.infer<typeof shape>> = {
  file: "legumeCredit",
  list: "cases",
  title: "Nitrogen credit of the crop before",
  shape,
  run: (c, shelf) =>
    valueOf(creditOfLegume(shelf.rule(c.rule, "legumeCredit"), historyOf(c.input.history), "the publication"), (value) => [
      near("credit, lb/ac", value.credit, c.expect.credit, c),
      ...(c.expect.upTo === undefined ? [] : [near("upper end, lb/ac", value.upTo, c.expect.upTo, c)]),
    ]),
};
