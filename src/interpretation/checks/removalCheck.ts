import * as z from "zod";
import { cropRemoval } from "../rules/removal.ts";
import { yieldUnits } from "../units.ts";
import { cropIds, nutrientIds } from "../vocabulary.ts";
import type { CheckKind } from "./check.ts";
import { near, published, valueOf } from "./check.ts";

const harvest = z.strictObject({ crop: z.enum(cropIds), value: z.number(), unit: z.enum(yieldUnits) });
const shape = published.extend({
  rule: z.string(),
  input: z.strictObject({ nutrient: z.enum(nutrientIds), harvests: z.array(harvest).min(1) }),
  expect: z.strictObject({ removed: z.number() }),
});

export const removalCheck: CheckKind<z.infer<typeof shape>> = {
  file: "removal",
  list: "cases",
  title: "Taken away by the harvest",
  shape,
  run: (c, shelf) => {
    const rule = shelf.rule(c.rule, "removal");
    const each = c.input.harvests.map(({ crop, ...yieldGoal }) => cropRemoval(rule, crop, c.input.nutrient, yieldGoal, "the publication"));
    const refused = each.find((outcome) => outcome.kind === "noAnswer");
    if (refused) return valueOf(refused, () => []);
    return [
      near(
        "removed",
        each.reduce((sum, outcome) => sum + (outcome.kind === "answer" ? outcome.value : 0), 0),
        c.expect.removed,
        c,
      ),
    ];
  },
};
