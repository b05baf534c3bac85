import * as z from "zod";
import { minimumDetectableSlope, usualDemand } from "../statistics/power.ts";
import type { CheckKind } from "./check.ts";
import { published } from "./check.ts";
import { digits, printedAll } from "./printed.ts";

const shape = published.extend({
  digits,
  input: z.strictObject({
    samplings: z.number(),
    interval: z.number(),
    power: z.number().optional(),
    alpha: z.number().optional(),
    sides: z.union([z.literal(1), z.literal(2)]).optional(),
  }),
  expect: z.strictObject({ slope: z.number() }),
});

export const detectableSlopeCheck: CheckKind<z.infer<typeof shape>> = {
  file: "detectableSlope",
  list: "cases",
  title: "The smallest slope that so many samplings show",
  shape,
  run: ({
    input: { samplings, interval, power = usualDemand.power, alpha = usualDemand.alpha, sides = usualDemand.sides },
    expect,
    digits: places,
  }) => printedAll({ slope: minimumDetectableSlope(samplings, interval, { power, alpha, sides }) }, expect, places),
};
