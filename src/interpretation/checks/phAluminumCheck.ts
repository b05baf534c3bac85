import * as z from "zod";
import { limeByPhAluminum } from "../rules/phAluminum.ts";
import type { CheckKind } from "./check.ts";
import { near, published, same, valueOf } from "./check.ts";

const shape = published.extend({
  rule: z.string(),
  input: z.strictObject({ soilPh: z.number(), aluminum: z.number().optional(), target: z.number().default(6.5) }),
  expect: z.union([z.strictObject({ rate: z.number() }), z.strictObject({ outside: z.literal(true) })]),
});

export const phAluminumCheck: CheckKind<z.infer<typeof shape>> = {
  file: "phAluminum",
  list: "cases",
  title: "Lime by soil pH and aluminum",
  shape: shape,
  run: (c, shelf) => {
    const outcome = limeByPhAluminum(shelf.rule(c.rule, "phAluminum"), c.input.soilPh, c.input.aluminum, c.input.target, "the publication");
    const { expect } = c;
    return "rate" in expect ? valueOf(outcome, (got) => [near("rate", got, expect.rate, c)]) : [same("answer", outcome.kind, "noAnswer")];
  },
};
