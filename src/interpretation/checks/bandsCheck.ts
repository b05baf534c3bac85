import * as z from "zod";
import { positions, rateByBands } from "../rules/bands.ts";
import type { CheckKind } from "./check.ts";
import { facts, published, same, valueOf } from "./check.ts";
import { measuredFor } from "./measured.ts";

const shape = published.extend({
  rule: z.string(),
  input: z.strictObject({ value: z.number(), facts: facts.optional() }),
  expect: z.strictObject({ band: z.string(), position: z.enum(positions).optional() }),
});

export const bandsCheck: CheckKind<z.infer<typeof shape>> = {
  file: "bands",
  list: "cases",
  title: "Rating by classes",
  shape,
  run: (c, shelf) => {
    const rule = shelf.rule(c.rule, "bands");
    return valueOf(
      rateByBands(rule, measuredFor(rule.limits, rule.analyte, c.input.value), c.input.facts ?? {}, "the publication"),
      (value) => [
        same("class", value.band, c.expect.band),
        ...(c.expect.position ? [same("position", value.position, c.expect.position)] : []),
      ],
    );
  },
};
