import * as z from "zod";
import { rateByNitrateLinear } from "../rules/nitrateLinear.ts";
import type { CheckKind } from "./check.ts";
import { published } from "./check.ts";
import { measuredFor } from "./measured.ts";
import { crop, history, placeOf, rateOrRefusal, rateVerdicts, yieldGoal } from "./nitrogenInput.ts";

const shape = published.extend({
  rule: z.string(),
  input: z.strictObject({ nitrate: z.number(), crop: crop.optional(), history: history.optional(), yieldGoal: yieldGoal.optional() }),
  expect: rateOrRefusal,
});

export const nitrateLinearCheck: CheckKind<z.infer<typeof shape>> = {
  file: "nitrateLinear",
  list: "cases",
  title: "Nitrogen from nitrate: pounds per ppm",
  shape,
  run: (c, shelf) => {
    const rule = shelf.rule(c.rule, "nitrateLinear");
    return rateVerdicts(rateByNitrateLinear(rule, measuredFor(rule.limits, "nitrateN", c.input.nitrate), placeOf(c.input)), c.expect, c);
  },
};
