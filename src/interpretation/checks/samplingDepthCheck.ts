import * as z from "zod";
import { outsideLimits } from "../rules/limits.ts";
import { lengthUnits } from "../units.ts";
import type { CheckKind } from "./check.ts";
import { published, same } from "./check.ts";
import { measuredFor } from "./measured.ts";

const shape = published.extend({
  rule: z.string(),
  input: z.strictObject({ from: z.number().nonnegative(), to: z.number().positive(), unit: z.enum(lengthUnits) }),
  expect: z.enum(["read", "refused"]),
});

/** Would a sample of this depth be read by the rule, everything else being as the rule wants it? */
export const samplingDepthCheck: CheckKind<z.infer<typeof shape>> = {
  file: "samplingDepth",
  list: "cases",
  title: "The depth a calibration holds for",
  shape,
  run: (c, shelf) => {
    const [pack, id] = c.rule.split("/");
    const rule = shelf.pack(pack!).sections.find((s) => s.id === id);
    if (!rule || !("limits" in rule) || !("analyte" in rule)) throw new Error(`${c.rule} is no rule for one test with limits`);
    const { limits, analyte } = rule;
    const outside = outsideLimits(limits, measuredFor(limits, analyte, 1, { depth: c.input }), limits.crops?.[0], "the publication");
    return [same("a sample of this depth is", outside ? "refused" : "read", c.expect)];
  },
};
