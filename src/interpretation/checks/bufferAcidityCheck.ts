import * as z from "zod";
import type { Source } from "../outcome.ts";
import { limeByBufferAcidity } from "../rules/bufferAcidity.ts";
import { soilClassIds } from "../vocabulary.ts";
import type { CheckKind } from "./check.ts";
import { near, published, same, valueOf } from "./check.ts";

const shape = published.extend({
  rule: z.string(),
  input: z.strictObject({
    bufferPh: z.number().optional(),
    acidity: z.number().optional(),
    soilPh: z.number(),
    target: z.number(),
    soilClass: z.enum(soilClassIds).optional(),
    earlier: z.array(z.strictObject({ rate: z.number(), months: z.number() })).default([]),
  }),
  expect: z.union([z.strictObject({ rate: z.number() }), z.strictObject({ outside: z.literal(true) })]),
});

const source: Source = { record: { file: "fields/north/seasons/2025.yaml", line: 9, column: 5 } };

export const bufferAcidityCheck: CheckKind<z.infer<typeof shape>> = {
  file: "bufferAcidity",
  list: "cases",
  title: "Lime by buffer acidity",
  shape: shape,
  run: (c, shelf) => {
    const { bufferPh, acidity, soilPh, target, soilClass, earlier } = c.input;
    const found = acidity === undefined ? { bufferPh: bufferPh ?? NaN } : { acidity };
    const outcome = limeByBufferAcidity(shelf.rule(c.rule, "bufferAcidity"), {
      found,
      soilPh,
      target,
      soilClass,
      earlier: earlier.map((e) => ({ ...e, source })),
      pack: "the publication",
    });
    const { expect } = c;
    return "rate" in expect ? valueOf(outcome, (got) => [near("rate", got, expect.rate, c)]) : [same("answer", outcome.kind, "noAnswer")];
  },
};
