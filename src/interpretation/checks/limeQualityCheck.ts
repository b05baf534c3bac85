import * as z from "zod";
import { limeQuality } from "../rules/limeQuality.ts";
import { limeIndices } from "../vocabulary.ts";
import type { CheckKind } from "./check.ts";
import { near, published, valueOf } from "./check.ts";

const shape = published.extend({
  rule: z.string(),
  input: z.strictObject({ cce: z.number(), moisture: z.number(), passing: z.record(z.string(), z.number()) }),
  expect: z.union([z.strictObject({ index: z.number() }), z.strictObject({ poundsPerTon: z.number() })]),
});

export const limeQualityCheck: CheckKind<z.infer<typeof shape>> = {
  file: "limeQuality",
  list: "cases",
  title: "What a liming material is worth",
  shape,
  run: (c, shelf) => {
    const { expect } = c;
    const rule = shelf.rule(c.rule, "limeQuality");
    const { unit } = limeIndices[rule.index];
    return valueOf(limeQuality(rule, c.input), (value) =>
      "index" in expect
        ? [near("index", value, expect.index, c)]
        : [near("pounds per ton", unit === "%" ? (value / 100) * 2000 : value, expect.poundsPerTon, c)],
    );
  },
};
