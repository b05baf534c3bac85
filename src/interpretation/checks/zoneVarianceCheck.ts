import * as z from "zod";
import { zoneVariance } from "../statistics/zoneVariance.ts";
import type { CheckKind } from "./check.ts";
import { published, valueOf } from "./check.ts";
import { digits, printedAll } from "./printed.ts";

const shape = published.extend({ digits, input: z.strictObject({ zones: z.array(z.array(z.number())) }), expect: z.record(z.string(), z.number()) });

export const zoneVarianceCheck: CheckKind<z.infer<typeof shape>> = {
  file: "zoneVariance",
  list: "cases",
  title: "The spread that a map of zones takes away",
  shape,
  run: (c) =>
    valueOf(zoneVariance(c.input.zones), (v) => printedAll({ ...v, withinByShare: v.total * (1 - v.reductionByShare), reductionBySharePercent: 100 * v.reductionByShare }, c.expect, c.digits)),
};
