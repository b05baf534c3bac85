import * as z from "zod";
import { limeByClass } from "../rules/limeClass.ts";
import { cropIds, soilCategoryIds, textureIds } from "../vocabulary.ts";
import type { CheckKind } from "./check.ts";
import { published, same, valueOf } from "./check.ts";

const shape = published.extend({
  input: z.strictObject({
    soil: z.enum(soilCategoryIds),
    pH: z.number(),
    crop: z.enum(cropIds).optional(),
    texture: z.enum(textureIds).optional(),
  }),
  expect: z.union([
    z.strictObject({ need: z.string(), dose: z.number(), mostAtOnce: z.number().optional() }),
    z.strictObject({ dash: z.literal(true) }),
    z.strictObject({ none: z.literal(true) }),
  ]),
});

export const limeClassCheck: CheckKind<z.infer<typeof shape>> = {
  file: "limeClass",
  list: "cases",
  title: "Need for lime by soil category",
  shape,
  run: (c, shelf) => {
    const { soil, pH, ...facts } = c.input;
    const outcome = limeByClass(shelf.rule("pl-iung-lime/lime", "limeClass"), pH, { soilCategory: soil, ...facts }, "the publication");
    const { expect } = c;
    if ("dash" in expect || "none" in expect) return [same("answer", outcome.kind, "noAnswer")];
    return valueOf(outcome, (got) => [
      same("need", got.need, expect.need),
      same("dose", got.rate, expect.dose),
      ...(expect.mostAtOnce === undefined ? [] : [same("most at once", got.mostAtOnce, expect.mostAtOnce)]),
    ]);
  },
};
