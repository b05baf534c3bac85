import * as z from "zod";
import { bandOf } from "../rules/bands.ts";
import type { OwnTarget } from "../rules/targetPh.ts";
import { phBands, targetPhFor } from "../rules/targetPh.ts";
import type { CheckKind } from "./check.ts";
import { facts, published, same, valueOf } from "./check.ts";

const shape = published.extend({
  rule: z.string(),
  input: z.strictObject({ facts, pH: z.number().optional(), own: z.number().optional() }),
  expect: z.union([
    z.strictObject({ limeBelow: z.number(), target: z.union([z.number(), z.literal("none")]) }),
    z.strictObject({ call: z.enum(["lime due", "in range", "above range"]) }),
  ]),
});

/** A target that the field's own record sets. */
export const ownTarget = (value: number): OwnTarget => ({ value, step: { what: "Target pH of the field", result: `pH ${value}` } });

export const targetPhCheck: CheckKind<z.infer<typeof shape>> = {
  file: "targetPh",
  list: "cases",
  title: "When to lime and how far",
  shape,
  run: (c, shelf) => {
    const rule = shelf.rule(c.rule, "targetPh");
    const { pH, own } = c.input;
    const { expect } = c;
    return valueOf(targetPhFor(rule, c.input.facts, own === undefined ? undefined : ownTarget(own), "the publication", pH), (target) =>
      "call" in expect
        ? [same("call", bandOf(pH!, phBands(rule.range, target, c.input.facts.crop)).band, expect.call)]
        : [same("lime below", target.limeBelow, expect.limeBelow), same("target", target.target ?? "none", expect.target)],
    );
  },
};
