import * as z from "zod";
import { bandedRate, broadcastLeft } from "../rules/starterShare.ts";
import type { CheckKind } from "./check.ts";
import { near, published, valueOf } from "./check.ts";

const shape = published.extend({
  rule: z.string(),
  input: z.strictObject({ recommended: z.number(), banded: z.number().optional() }),
  expect: z.union([z.strictObject({ banded: z.number() }), z.strictObject({ left: z.number() })]),
});

export const starterShareCheck: CheckKind<z.infer<typeof shape>> = {
  file: "starterShare",
  list: "cases",
  title: "Phosphate in the planter band",
  shape,
  run: (c, shelf) => {
    const rule = shelf.rule(c.rule, "starterShare");
    const { recommended, banded } = c.input;
    const { expect } = c;
    return "banded" in expect
      ? valueOf(bandedRate(rule, recommended, "corn", "the publication"), (got) => [near("banded, lb/ac", got, expect.banded, c)])
      : valueOf(broadcastLeft(rule, recommended, banded!, "corn", "the publication"), (got) => [
          near("left to broadcast, lb/ac", got, expect.left, c),
        ]);
  },
};
