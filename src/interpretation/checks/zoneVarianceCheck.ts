import * as z from "zod";
import { summaryOf } from "../statistics/twoAreas.ts";
import { zoneVariance } from "../statistics/zoneVariance.ts";
import type { CheckKind } from "./check.ts";
import { published, valueOf } from "./check.ts";
import { digits, printedAll } from "./printed.ts";

const summary = z.strictObject({ n: z.number().int().min(2), mean: z.number(), squares: z.number() });
const input = z.union([z.strictObject({ zones: z.array(z.array(z.number())) }), z.strictObject({ summaries: z.array(summary) })]);
const shape = published.extend({ digits, input, expect: z.record(z.string(), z.number()) });

/** Results with this number, mean and sum of squared deviations: all that the zones' variances depend on. */
const standIn = ({ n, mean: middle, squares }: z.infer<typeof summary>): number[] => {
  const reach = Math.sqrt(squares / 2);
  return [middle - reach, middle + reach, ...Array<number>(n - 2).fill(middle)];
};

export const zoneVarianceCheck: CheckKind<z.infer<typeof shape>> = {
  file: "zoneVariance",
  list: "cases",
  title: "The spread that a map of zones takes away",
  shape,
  run: (c) => {
    const zones = "zones" in c.input ? c.input.zones : c.input.summaries.map(standIn);
    const { mean, sd } = summaryOf(zones.flat());
    return valueOf(zoneVariance(zones), (v) =>
      printedAll(
        {
          ...v,
          mean,
          sd,
          cvPercent: (100 * sd) / mean,
          withinByShare: v.total * (1 - v.reductionByShare),
          reductionBySharePercent: 100 * v.reductionByShare,
        },
        c.expect,
        c.digits,
      ),
    );
  },
};
