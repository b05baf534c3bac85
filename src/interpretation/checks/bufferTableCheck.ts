import * as z from "zod";
import { limeByBufferTable } from "../rules/bufferTable.ts";
import type { CheckKind } from "./check.ts";
import { near, published, same, valueOf } from "./check.ts";

const shape = published.extend({
  rule: z.string(),
  input: z.union([z.strictObject({ bufferPh: z.number(), target: z.number() }), z.strictObject({ bufferPh: z.array(z.number()) })]),
  expect: z.union([
    z.strictObject({ rate: z.number() }),
    z.strictObject({ outside: z.literal(true) }),
    z.strictObject({ rates: z.record(z.string(), z.array(z.number())) }),
  ]),
});

export const bufferTableCheck: CheckKind<z.infer<typeof shape>> = {
  file: "bufferTable",
  list: "cases",
  title: "Lime by buffer pH",
  shape,
  run: (c, shelf) => {
    const rule = shelf.rule(c.rule, "bufferTable");
    const lime = (bufferPh: number, target: number) => limeByBufferTable(rule, bufferPh, target, "the publication");
    const { expect } = c;
    const buffers = [c.input.bufferPh].flat();
    if ("rates" in expect)
      return Object.entries(expect.rates).flatMap(([target, column]) => [
        ...(column.length === buffers.length ? [] : [same(`rates for target ${target}`, buffers.length, column.length)]),
        ...column.flatMap((wanted, i) =>
          valueOf(lime(buffers[i]!, Number(target)), (got) => [near(`buffer ${buffers[i]!}, target ${target}`, got, wanted, c)]),
        ),
      ]);
    const outcome = lime(buffers[0]!, "target" in c.input ? c.input.target : NaN);
    if ("rate" in expect) return valueOf(outcome, (got) => [near("rate", got, expect.rate, c)]);
    return [same("answer", outcome.kind, "noAnswer")];
  },
};
