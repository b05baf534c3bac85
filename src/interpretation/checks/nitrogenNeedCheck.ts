import * as z from "zod";
import { rateByNitrogenNeed } from "../rules/nitrogenNeed.ts";
import { convert } from "../units.ts";
import type { CheckKind } from "./check.ts";
import { near, published, same, valueOf } from "./check.ts";
import { measured } from "./measured.ts";
import { crop, history, placeOf, yieldGoal } from "./nitrogenInput.ts";

const shape = published.extend({
  rule: z.string(),
  input: z.strictObject({
    crop,
    yieldGoal: yieldGoal.optional(),
    mineralN: z.number().optional().describe("kg/ha in the rule's own depth"),
    depth: z.number().optional().describe("cm; absent: the rule's own"),
    history: history.optional(),
    manureNitrogen: z.number().optional().describe("kg/ha of total nitrogen in manure spread for the crop before"),
  }),
  expect: z.union([z.strictObject({ rate: z.number() }), z.strictObject({ refused: z.literal(true) })]),
});

/** A ton an acre of it brings so many pounds; any rate that makes up the total will do. */
const spread = (kilograms: number) => ({
  name: "manure",
  yearsAgo: 1,
  tonsPerAcre: 1,
  nitrogen: convert(kilograms, "kg/ha", "lb/ac"),
  organicNitrogen: undefined,
  species: undefined,
  dryMatter: undefined,
});

export const nitrogenNeedCheck: CheckKind<z.infer<typeof shape>> = {
  file: "nitrogenNeed",
  list: "cases",
  title: "Nitrogen by the crop's need, less mineral nitrogen",
  shape,
  run: (c, shelf) => {
    const rule = shelf.rule(c.rule, "nitrogenNeed");
    const { mineralN, depth, manureNitrogen, ...place } = c.input;
    const tests =
      mineralN === undefined
        ? []
        : [
            measured("mineralN", mineralN, {
              method: rule.method,
              unit: "kg/ha",
              depth: { from: 0, to: depth ?? rule.depth.to, unit: "cm" },
            }),
          ];
    const manure = manureNitrogen === undefined ? [] : [spread(manureNitrogen)];
    const got = rateByNitrogenNeed(rule, tests, placeOf(place), manure);
    return "refused" in c.expect
      ? [same("answer", got.kind, "noAnswer")]
      : valueOf(got, ({ rate }) => [
          same("unit", rate.unit, "kg/ha"),
          near("rate, kg/ha", rate.value, (c.expect as { rate: number }).rate, c),
        ]);
  },
};
