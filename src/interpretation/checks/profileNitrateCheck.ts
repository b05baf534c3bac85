import * as z from "zod";
import type { Credit } from "../rules/profileNitrate.ts";
import { creditIds, rateByProfileNitrate } from "../rules/profileNitrate.ts";
import type { CheckKind } from "./check.ts";
import { published } from "./check.ts";
import { measured } from "./measured.ts";
import { crop, history, placeOf, rateOrRefusal, rateVerdicts, yieldGoal } from "./nitrogenInput.ts";

const layer = z.strictObject({
  from: z.number().default(0),
  to: z.number(),
  value: z.number(),
  unit: z.enum(["ppm", "lb/ac"]).default("ppm"),
});
const shape = published.extend({
  rule: z.string(),
  input: z.strictObject({
    layers: z.array(layer).default([]),
    crop: crop.optional(),
    history: history.optional(),
    yieldGoal: yieldGoal.optional(),
    credits: z.partialRecord(z.enum(creditIds), z.number()).default({}),
  }),
  expect: rateOrRefusal,
});

export const profileNitrateCheck: CheckKind<z.infer<typeof shape>> = {
  file: "profileNitrate",
  list: "cases",
  title: "Nitrogen by yield, less nitrate in the profile",
  shape,
  run: (c, shelf) => {
    const rule = shelf.rule(c.rule, "profileNitrate");
    const layers = c.input.layers.map((l) =>
      measured("nitrateN", l.value, { method: rule.method, unit: l.unit, depth: { from: l.from, to: l.to, unit: "in" } }),
    );
    const credits = rule.credits.map((id): Credit => ({ id, value: c.input.credits[id] ?? 0, steps: [] }));
    return rateVerdicts(rateByProfileNitrate(rule, layers, placeOf(c.input), credits), c.expect, c);
  },
};
