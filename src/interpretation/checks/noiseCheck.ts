import * as z from "zod";
import type { NoiseRule } from "../rules/noise.ts";
import { changeBetween } from "../statistics/change.ts";
import { noiseOf } from "../statistics/noise.ts";
import type { MethodId } from "../vocabulary.ts";
import { methodIds, methodMeasures } from "../vocabulary.ts";
import type { CheckKind } from "./check.ts";
import { published, valueOf } from "./check.ts";
import { digits, printedAll, printedNumber } from "./printed.ts";

const spread = z.strictObject({ value: z.number(), as: z.enum(["percent", "units"]) });
const shape = published.extend({
  digits,
  rule: z.string().optional(),
  input: z
    .strictObject({
      core: spread.optional(),
      lab: spread.optional(),
      together: spread.optional(),
      cores: z.number().optional(),
      labs: z.number().optional(),
      results: z.tuple([z.number(), z.number()]),
      confidence: z.number().optional(),
    })
    .optional(),
  expect: z.record(z.string(), printedNumber),
});
type Case = z.infer<typeof shape>;

const inlineRule = ({ core, lab, together }: NonNullable<Case["input"]>): NoiseRule => {
  const given = (s: z.infer<typeof spread> | undefined): NoiseRule["core"] => s && { ...s, source: "common-practice" };
  return { kind: "noise", id: "stated", analyte: "P", core: given(core), lab: given(lab), together: given(together) };
};

export const noiseCheck: CheckKind<Case> = {
  file: "noise",
  list: "cases",
  title: "The noise of a result",
  shape,
  run: (c, shelf) => {
    const rule = c.rule ? shelf.rule(c.rule, "noise") : inlineRule(c.input!);
    if (!c.input)
      return printedAll(
        Object.fromEntries((["core", "lab", "labs", "together"] as const).map((key) => [key, rule[key]?.value])),
        c.expect,
        c.digits,
      );
    const { results, cores, labs, confidence } = c.input;
    const method: MethodId = rule.methods?.[0] ?? methodIds.find((m) => methodMeasures(m, rule.analyte))!;
    return valueOf(
      changeBetween(
        { value: results[0] },
        { value: results[1] },
        noiseOf({ analyte: rule.analyte, method, cores, labs }, [rule]),
        confidence,
      ),
      ({ sds, factor, ...rest }) =>
        printedAll(
          { least: rest.least, change: rest.change, beyondNoise: rest.beyondNoise, s1: sds[0], s2: sds[1], z: factor },
          c.expect,
          c.digits,
        ),
    );
  },
};
