import * as z from "zod";
import { limeByFactor } from "../rules/limeFactor.ts";
import { cropIds, textureIds } from "../vocabulary.ts";
import type { CheckKind } from "./check.ts";
import { near, published, valueOf } from "./check.ts";

const shape = published.extend({
  rule: z.string(),
  input: z.strictObject({
    crop: z.enum(cropIds),
    texture: z.enum(textureIds).optional(),
    organicMatter: z.number().optional(),
    pH: z.number(),
    targetPh: z.number().optional().describe("as a field sets it"),
  }),
  expect: z.strictObject({ rate: z.number(), doubt: z.string().optional() }),
});

export const limeFactorCheck: CheckKind<z.infer<typeof shape>> = {
  file: "limeFactor",
  list: "cases",
  title: "Lime for each unit of pH",
  shape,
  run: (c, shelf) => {
    const { pH, targetPh, ...facts } = c.input;
    const own = targetPh === undefined ? undefined : { value: targetPh, step: { what: "Lime up to, as set", result: `pH ${targetPh}` } };
    return valueOf(limeByFactor(shelf.rule(c.rule, "limeFactor"), pH, facts, "the publication", own), (got) => [
      near("rate, t/ha", got.rate, c.expect.rate, c),
      {
        what: "doubt",
        got: got.doubt ?? "none",
        wanted: c.expect.doubt ?? "none",
        ok: c.expect.doubt === undefined ? got.doubt === undefined : new RegExp(c.expect.doubt).test(got.doubt ?? ""),
      },
    ]);
  },
};
