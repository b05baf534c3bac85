import * as z from "zod";
import { yieldUnits } from "../units.ts";
import { facts } from "./check.ts";

/** What a check value of a rate by soil test states: the test in the rule's own unit, the place, and the yield goal. */
export const rateInput = z.strictObject({
  value: z.number(),
  facts,
  yieldGoal: z.strictObject({ value: z.number(), unit: z.enum(yieldUnits) }).optional(),
});
