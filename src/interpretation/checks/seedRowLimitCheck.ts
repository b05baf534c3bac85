import * as z from "zod";
import { checkSeedRow } from "../rules/seedRowLimit.ts";
import { textureIds } from "../vocabulary.ts";
import type { CheckKind } from "./check.ts";
import { published, same, valueOf } from "./check.ts";

const shape = published.extend({
  rule: z.string(),
  input: z.strictObject({
    spacing: z.number(),
    texture: z.enum(textureIds),
    nitrogen: z.number(),
    potash: z.number(),
    urea: z.boolean().optional(),
  }),
  expect: z.strictObject({ limit: z.number(), safe: z.boolean() }),
});

export const seedRowLimitCheck: CheckKind<z.infer<typeof shape>> = {
  file: "seedRowLimit",
  list: "cases",
  title: "Fertilizer that touches the seed",
  shape,
  run: (c, shelf) => {
    const { spacing, texture, nitrogen, potash, urea = false } = c.input;
    return valueOf(
      checkSeedRow(
        shelf.rule(c.rule, "seedRowLimit"),
        { spacing, nitrogen, potash, holdsUrea: urea },
        { crop: "corn", texture },
        "the publication",
      ),
      (got) => [same("limit, lb/ac", got.limit, c.expect.limit), same("safe", String(got.safe), String(c.expect.safe))],
    );
  },
};
