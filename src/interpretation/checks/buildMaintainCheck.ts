import * as z from "zod";
import { rateByBuildMaintain } from "../rules/buildMaintain.ts";
import { rateAtLevel } from "../rules/buildMaintainLevels.ts";
import { yieldUnits } from "../units.ts";
import { cropIds } from "../vocabulary.ts";
import type { CheckKind } from "./check.ts";
import { facts, near, published, same, valueOf } from "./check.ts";
import { measuredFor } from "./measured.ts";

const shape = published.extend({
  rule: z.string(),
  removal: z.string().optional(),
  input: z.strictObject({
    value: z.number(),
    crop: z.enum(cropIds),
    cec: z.number().optional(),
    facts: facts.omit({ crop: true, cec: true }).optional().describe("what else the rule asks of the place"),
    yieldGoal: z.strictObject({ value: z.number(), unit: z.enum(yieldUnits) }).optional(),
  }),
  expect: z.strictObject({ rate: z.number().optional(), class: z.string().optional() }),
});

export const buildMaintainCheck: CheckKind<z.infer<typeof shape>> = {
  file: "buildMaintain",
  list: "cases",
  title: "A rate by build-up and maintenance",
  shape,
  run: (c, shelf) => {
    const rule = shelf.rule(c.rule, "buildMaintain");
    const { value, crop, cec, yieldGoal, facts: more } = c.input;
    const removal = shelf.rule(c.removal ?? "us-tristate-974-2020/removal", "removal");
    const place = { facts: { ...more, crop, cec }, yieldGoal, removal, pack: "the publication" };
    const m = measuredFor(rule.limits, rule.analyte, value);
    const { class: band, rate } = c.expect;
    return [
      ...(band === undefined ? [] : valueOf(rateAtLevel(rule, m, place), (got) => [same("class", got.rating.band, band)])),
      ...(rate === undefined
        ? []
        : valueOf(rateByBuildMaintain(rule, m, place), (got) => [
            near(`rate, ${got.rate.unit}`, got.rate.unit === "lb/ac" ? got.rate.value : undefined, rate, c),
          ])),
    ];
  },
};
