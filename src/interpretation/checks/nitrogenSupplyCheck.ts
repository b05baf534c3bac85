import * as z from "zod";
import { rateByNitrogenSupply } from "../rules/nitrogenSupply.ts";
import { soilCategoryIds, textureIds } from "../vocabulary.ts";
import type { CheckKind } from "./check.ts";
import { near, published, same, valueOf } from "./check.ts";
import { measured } from "./measured.ts";
import { crop, history, placeOf, yieldGoal } from "./nitrogenInput.ts";

const shape = published.extend({
  rule: z.string(),
  input: z.strictObject({
    crop,
    soil: z.enum(soilCategoryIds).optional(),
    texture: z.enum(textureIds).optional(),
    yieldGoal: yieldGoal.optional(),
    mineralN: z.number().optional().describe("kg/ha in the rule's own depth"),
    depth: z.number().optional().describe("cm; absent: the rule's own"),
    date: z.string().optional().describe("of the sampling; absent: in spring"),
    history: history.optional().describe("absent: nothing in the crop, 3 percent of organic matter, winter wheat before"),
  }),
  expect: z.union([
    z.strictObject({ rate: z.number(), to: z.number().optional(), index: z.string().optional(), says: z.string().optional() }),
    z.strictObject({ refused: z.literal(true) }),
  ]),
});

export const nitrogenSupplyCheck: CheckKind<z.infer<typeof shape>> = {
  file: "nitrogenSupply",
  list: "cases",
  title: "Nitrogen by the index of the soil's supply",
  shape,
  run: (c, shelf) => {
    const rule = shelf.rule(c.rule, "nitrogenSupply");
    const { mineralN, depth, date, soil, texture, ...input } = c.input;
    const counted = input.history?.shoots !== undefined || input.history?.greenAreaIndex !== undefined;
    const place = placeOf({
      ...input,
      history: { ...(counted ? {} : { cropNitrogen: 0 }), organicMatter: 3, previousCrop: "winterWheat", ...input.history },
    });
    const tests =
      mineralN === undefined
        ? []
        : [
            measured("mineralN", mineralN, {
              method: rule.methods[0]!,
              unit: "kg/ha",
              depth: { from: 0, to: depth ?? rule.depth.to, unit: "cm" },
              date: date ?? "2026-02-10",
            }),
          ];
    const got = rateByNitrogenSupply(rule, tests, { ...place, facts: { ...place.facts, soilCategory: soil, texture } });
    const { expect } = c;
    return "refused" in expect
      ? [same("answer", got.kind, "noAnswer")]
      : valueOf(got, ({ rate, to, level }) => [
          near("rate, kg/ha", rate.value, expect.rate, c),
          same("upper end", to, expect.to as number),
          ...(expect.index === undefined ? [] : [same("index", level?.replace(/.*index /, ""), expect.index)]),
          ...(expect.says === undefined
            ? []
            : [
                same(
                  "beside it",
                  got.kind === "answer" && got.cautions.some((s) => s.includes(expect.says!)) ? expect.says : undefined,
                  expect.says,
                ),
              ]),
        ]);
  },
};
