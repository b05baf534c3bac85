import * as z from "zod";
import { limeByAcidity } from "../rules/acidityMultiple.ts";
import type { CheckKind } from "./check.ts";
import { near, published, same, valueOf } from "./check.ts";

const shape = published.extend({
  rule: z.string(),
  input: z.strictObject({ acidity: z.number(), soilPh: z.number(), target: z.number() }),
  expect: z.union([z.strictObject({ rate: z.number() }), z.strictObject({ outside: z.literal(true) })]),
});

export const acidityMultipleCheck: CheckKind<z.infer<typeof shape>> = {
  file: "acidityMultiple",
  list: "cases",
  title: "Lime by exchangeable acidity",
  shape,
  run: (c, shelf) => {
    const outcome = limeByAcidity(
      shelf.rule(c.rule, "acidityMultiple"),
      c.input.acidity,
      c.input.soilPh,
      c.input.target,
      "the publication",
    );
    const { expect } = c;
    return "rate" in expect ? valueOf(outcome, (got) => [near("rate", got, expect.rate, c)]) : [same("answer", outcome.kind, "noAnswer")];
  },
};
