import * as z from "zod";
import { rateByYieldLessNitrate } from "../rules/yieldLessNitrate.ts";
import type { CheckKind } from "./check.ts";
import { published } from "./check.ts";
import { measuredFor } from "./measured.ts";
import { crop, history, placeOf, rateOrRefusal, rateVerdicts, yieldGoal } from "./nitrogenInput.ts";

const shape = published.extend({
  rule: z.string(),
  input: z.strictObject({ nitrate: z.number(), crop: crop.optional(), history: history.optional(), yieldGoal: yieldGoal.optional() }),
  expect: rateOrRefusal,
});

export const yieldLessNitrateCheck: CheckKind<z.infer<typeof shape>> = {
  file: "yieldLessNitrate",
  list: "cases",
  title: "Nitrogen by yield, less nitrate",
  shape,
  run: (c, shelf) => {
    const rule = shelf.rule(c.rule, "yieldLessNitrate");
    return rateVerdicts(rateByYieldLessNitrate(rule, measuredFor(rule.limits, "nitrateN", c.input.nitrate), placeOf(c.input)), c.expect, c);
  },
};
