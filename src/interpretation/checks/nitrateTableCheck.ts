import * as z from "zod";
import { rateByNitrateTable } from "../rules/nitrateTable.ts";
import type { CheckKind } from "./check.ts";
import { published } from "./check.ts";
import { measuredFor } from "./measured.ts";
import { crop, history, placeOf, rateOrRefusal, rateVerdicts, yieldGoal } from "./nitrogenInput.ts";

const shape = published.extend({
  rule: z.string(),
  input: z.strictObject({ nitrate: z.number(), crop: crop.optional(), history: history.optional(), yieldGoal: yieldGoal.optional() }),
  expect: rateOrRefusal,
});

export const nitrateTableCheck: CheckKind<z.infer<typeof shape>> = {
  file: "nitrateTable",
  list: "cases",
  title: "Nitrogen from nitrate: classes",
  shape,
  run: (c, shelf) => {
    const rule = shelf.rule(c.rule, "nitrateTable");
    return rateVerdicts(rateByNitrateTable(rule, measuredFor(rule.limits, "nitrateN", c.input.nitrate), placeOf(c.input)), c.expect, c);
  },
};
