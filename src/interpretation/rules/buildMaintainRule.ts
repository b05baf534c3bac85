import * as z from "zod";
import { analyteIds, nutrientIds } from "../vocabulary.ts";
import { when } from "./conditions.ts";
import { limits } from "./limits.ts";
import { graded, provenance, sourcedNumber } from "./sourced.ts";

/** A number, or one that rises with the cation exchange capacity (meq/100 g). */
const critical = z.union([sourcedNumber, z.strictObject({ intercept: z.number(), perCec: z.number(), ...provenance }).check(graded)]);

const level = z
  .strictObject({
    when: when.optional(),
    critical: critical.describe("critical level: below it the soil is built up"),
    maintenanceLimit: sourcedNumber.optional().describe("maintenance limit: at and above it nothing is applied, or the drawdown begins"),
    plateau: sourcedNumber.optional().describe("the same limit as units of test above the critical level"),
    atLimit: z.literal("maintain").optional().describe("where a test exactly at the limit is still maintained"),
    drawdown: sourcedNumber.optional().describe("units of test above the limit over which maintenance falls to nothing"),
  })
  .refine((l) => (l.maintenanceLimit === undefined) !== (l.plateau === undefined), "needs either maintenanceLimit or plateau")
  .refine(
    (l) => l.maintenanceLimit === undefined || !("value" in l.critical) || l.critical.value < l.maintenanceLimit.value,
    "the maintenance limit must be above the critical level",
  )
  .refine(
    (l) => (l.plateau?.value ?? 1) >= 0 && (l.drawdown?.value ?? 1) > 0,
    "the plateau must not be negative, and the drawdown must be above 0",
  );

/** lb per acre and year for each unit of test below the critical level: a constant, or linear in CEC. */
const perUnit = z.union([
  z.strictObject({ value: z.number().positive(), ...provenance }).check(graded),
  z.strictObject({ intercept: z.number(), perCec: z.number(), ...provenance }).check(graded),
]);

const equation = z.strictObject(provenance).check(graded);

/**
 * Build up to a critical level, keep by replacing crop removal, stop at a maintenance limit: at once (2020), or falling to
 * nothing over a drawdown range (1995).
 */
export const buildMaintainRule = z
  .strictObject({
    kind: z.literal("buildMaintain"),
    id: z.string(),
    analyte: z.enum(analyteIds),
    nutrient: z.enum(nutrientIds),
    limits,
    levels: z.array(level).min(1),
    classes: z
      .strictObject({ below: z.string(), within: z.string(), above: z.string(), ...provenance })
      .check(graded)
      .describe("the publication's names for the three ranges"),
    buildUp: z.strictObject({ perUnit, years: sourcedNumber.optional() }),
    extra: sourcedNumber.optional().describe("lb/ac added to removal wherever anything is applied"),
    cecInstead: z
      .array(z.strictObject({ when, value: z.number().positive(), ...provenance }).check(graded))
      .optional()
      .describe(
        "soils for which a set CEC is read instead of the measured one; used where the place is known to be such; where all that is known fits and a fact is missing, there is no answer",
      ),
    maximum: z
      .array(z.strictObject({ when: when.optional(), value: z.number().positive(), ...provenance }).check(graded))
      .optional()
      .describe("the most to apply in a year, lb/ac"),
    equations: z.strictObject({ buildUp: equation, maintenance: equation, drawdown: equation.optional(), none: equation }),
  })
  .refine(
    (r) => r.equations.drawdown !== undefined || r.levels.every((l) => l.drawdown === undefined),
    "has a drawdown and no equation for it",
  );
export type BuildMaintainRule = z.infer<typeof buildMaintainRule>;
