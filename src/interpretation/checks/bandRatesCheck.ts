import * as z from "zod";
import { classByBandRates, rateByBandRates } from "../rules/bandRates.ts";
import { soilTestUnits } from "../vocabulary.ts";
import type { CheckKind } from "./check.ts";
import { near, published, same, valueOf } from "./check.ts";
import { measuredFor } from "./measured.ts";
import { rateInput } from "./rateInput.ts";

const shape = published.extend({
  rule: z.string(),
  removal: z.string().optional(),
  input: rateInput.extend({ unit: z.enum(soilTestUnits).optional().describe("absent: the rule's own") }),
  expect: z.union([
    z.strictObject({ rate: z.number(), to: z.number().optional(), class: z.string().optional() }),
    z.strictObject({ class: z.string() }),
    z.strictObject({ class: z.string(), noRate: z.literal(true) }).describe("the class is known and its rate is not"),
  ]),
});

export const bandRatesCheck: CheckKind<z.infer<typeof shape>> = {
  file: "bandRates",
  list: "cases",
  title: "A rate for each class",
  shape,
  run: (c, shelf) => {
    const rule = shelf.rule(c.rule, "bandRates");
    const { value, unit, yieldGoal, facts } = c.input;
    const removal = c.removal === undefined ? undefined : shelf.rule(c.removal, "removal");
    const m = measuredFor(rule.limits, rule.analyte, value, unit && { unit });
    const outcome = rateByBandRates(rule, m, { facts, yieldGoal, removal, pack: "the publication" });
    const wanted = c.expect;
    return [
      ...(wanted.class === undefined
        ? []
        : valueOf(classByBandRates(rule, m, facts, "the publication"), (got) => [same("class", got.band, wanted.class!)])),
      ...("noRate" in wanted ? [same("answer", outcome.kind, "noAnswer")] : []),
      ...("rate" in wanted
        ? valueOf(outcome, (got) => [
            near(`rate, ${got.rate.unit}`, got.rate.value, wanted.rate, c),
            ...(wanted.to === undefined
              ? got.to === undefined
                ? []
                : [same("upper end", got.to, "none")]
              : [near("upper end", got.to, wanted.to, c)]),
          ])
        : []),
    ];
  },
};
