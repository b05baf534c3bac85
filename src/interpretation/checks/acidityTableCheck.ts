import * as z from "zod";
import { limeByAcidityTable } from "../rules/acidityTable.ts";
import type { CheckKind } from "./check.ts";
import { near, published, same, valueOf } from "./check.ts";

const shape = published.extend({
  rule: z.string(),
  input: z.union([
    z.strictObject({ acidity: z.number(), soilPh: z.number(), target: z.number() }),
    z.strictObject({ acidity: z.array(z.number()) }),
  ]),
  expect: z.union([
    z.strictObject({ rate: z.number() }),
    z.strictObject({ outside: z.literal(true) }),
    z.strictObject({ rates: z.record(z.string(), z.array(z.number())) }),
  ]),
});

/** A soil pH below every target, where a case is about the table alone. */
const acidSoil = 4;

export const acidityTableCheck: CheckKind<z.infer<typeof shape>> = {
  file: "acidityTable",
  list: "cases",
  title: "Lime by a table of exchangeable acidity",
  shape,
  run: (c, shelf) => {
    const rule = shelf.rule(c.rule, "acidityTable");
    const { input, expect } = c;
    const acidities = [input.acidity].flat();
    if ("rates" in expect)
      return Object.entries(expect.rates).flatMap(([target, column]) => [
        same(`rates for target ${target}`, acidities.length, column.length),
        ...column.flatMap((wanted, i) =>
          valueOf(limeByAcidityTable(rule, acidities[i]!, acidSoil, Number(target), "the publication"), (got) => [
            near(`acidity ${acidities[i]!}, target ${target}`, got, wanted, c),
          ]),
        ),
      ]);
    const outcome = limeByAcidityTable(
      rule,
      acidities[0]!,
      "soilPh" in input ? input.soilPh : NaN,
      "target" in input ? input.target : NaN,
      "the publication",
    );
    return "rate" in expect ? valueOf(outcome, (got) => [near("rate", got, expect.rate, c)]) : [same("answer", outcome.kind, "noAnswer")];
  },
};
