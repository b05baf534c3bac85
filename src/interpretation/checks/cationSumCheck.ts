import * as z from "zod";
import { sumCations } from "../rules/cationSum.ts";
import type { CheckKind } from "./check.ts";
import { near, published, valueOf } from "./check.ts";
import { measured } from "./measured.ts";

const bases = ["Ca", "Mg", "K", "Na"] as const;
const perBase = <T extends z.ZodType>(each: T) => ({ Ca: each, Mg: each, K: each, Na: each });
const shape = published.extend({
  rule: z.string(),
  input: z.strictObject({ ...perBase(z.number().optional()), buffer: z.enum(["adamsEvans", "smp"]), bufferPh: z.number() }),
  expect: z.strictObject({
    cec: z.number().optional(),
    acidity: z.number().optional(),
    baseSaturation: z.number().optional(),
    meq: z.strictObject(perBase(z.number().optional())).optional(),
  }),
});

export const cationSumCheck: CheckKind<z.infer<typeof shape>> = {
  file: "cationSum",
  list: "cases",
  title: "The sum of cations",
  shape,
  run: (c, shelf) => {
    const { buffer, bufferPh, ...ppm } = c.input;
    const measurements = [
      ...bases.flatMap((base) => (ppm[base] === undefined ? [] : measured(base, ppm[base]))),
      measured("bufferPh", bufferPh, { method: buffer }),
    ];
    const { meq, ...whole } = c.expect;
    return valueOf(sumCations(shelf.rule(c.rule, "cationSum"), measurements), (got) => [
      ...(["cec", "acidity", "baseSaturation"] as const).flatMap((key) =>
        whole[key] === undefined ? [] : [near(key, got[key], whole[key], c)],
      ),
      ...bases.flatMap((base) =>
        meq?.[base] === undefined ? [] : [near(`${base}, meq/100 g`, (got.saturation[base]! * got.cec) / 100, meq[base], c)],
      ),
    ]);
  },
};
