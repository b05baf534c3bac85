import * as z from "zod";
import type { Spread } from "../balance/balance.ts";
import { balanceBySeason, balancedIds } from "../balance/balance.ts";
import type { Harvest } from "../balance/harvestRemoval.ts";
import { manureOf } from "../manure.ts";
import { rateUnits, yieldUnits } from "../units.ts";
import { cropIds, strawIds, suppliedIds } from "../vocabulary.ts";
import type { CheckKind } from "./check.ts";
import { near, published, same } from "./check.ts";

const perTon = z.strictObject({ N: z.number(), P2O5: z.number(), K2O: z.number() });
const spread = z.strictObject({
  season: z.number().default(1),
  value: z.number(),
  unit: z.enum(rateUnits),
  analysis: z.partialRecord(z.enum(suppliedIds), z.number()).optional(),
  perTon: perTon.optional(),
});
const harvest = z.strictObject({
  season: z.number().default(1),
  crop: z.enum(cropIds),
  value: z.number().optional(),
  unit: z.enum(yieldUnits).default("bu/ac"),
  moisture: z.number().optional(),
  straw: z.enum(strawIds).optional(),
});
const shape = published.extend({
  rule: z.string(),
  input: z.strictObject({
    nutrient: z.enum(balancedIds),
    end: z.enum(["lower", "middle", "upper"]).optional(),
    spread: z.array(spread).default([]),
    harvests: z.array(harvest).min(1),
  }),
  expect: z.strictObject({
    applied: z.number().optional(),
    removed: z.number().optional(),
    net: z.number().optional(),
    sum: z.number().optional(),
    noSum: z.string().optional(),
    noNet: z.string().optional(),
  }),
});

/** Sums of nutrients applied and removed. `applied`, `removed` and `net` are of the last season, `sum` is of all. */
export const balanceCheck: CheckKind<z.infer<typeof shape>> = {
  file: "balance",
  list: "cases",
  title: "Nutrients applied less nutrients removed",
  shape,
  run: (c, shelf) => {
    const { nutrient, spread, harvests, end } = c.input;
    const source = "common-practice";
    const spreads = spread.map(({ season, value, unit, ...s }): Spread => ({
      season,
      date: `${season}`,
      name: "what was spread",
      rate: { value, unit },
      holds: s.perTon ? { kind: "manure", ...manureOf("perTon", s.perTon, undefined) } : { kind: "fertilizer", analysis: s.analysis ?? {} },
      source,
    }));
    const taken = harvests.map(({ value, unit, ...h }): Harvest => ({
      ...h,
      yield: value === undefined ? undefined : { value, unit },
      source,
    }));
    const records = { seasons: [...new Set([...spread, ...harvests].map((each) => each.season))], spreads, harvests: taken };
    const last = balanceBySeason(
      records,
      nutrient,
      [{ pack: "the publication", rule: shelf.rule(c.rule, "removal", "indexOfftake") }],
      end,
    ).at(-1)!;
    const { noSum, noNet, ...numbers } = c.expect;
    return [
      ...Object.entries(numbers).map(([key, wanted]) => {
        const outcome = last[key as keyof typeof numbers];
        return near(key, outcome.kind === "answer" ? outcome.value : undefined, wanted, c);
      }),
      ...(noNet === undefined ? [] : [same("no difference", last.net.kind === "noAnswer" ? last.net.because : "a difference", noNet)]),
      ...(noSum === undefined ? [] : [same("no sum", last.sum.kind === "noAnswer" ? last.sum.because : "a sum", noSum)]),
    ];
  },
};
