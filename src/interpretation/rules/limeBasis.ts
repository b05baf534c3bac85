import * as z from "zod";
import { plain } from "../show.ts";
import { cropIds, limeIndexIds, limeIndices } from "../vocabulary.ts";
import { graded, provenance, sourcedDepth, sourcedNumber } from "./sourced.ts";

/** Units a lime requirement is printed in. */
const limeUnits = ["ton/ac", "lb/ac", "lb/1000 sq ft", "t/ha"] as const;
export type LimeUnit = (typeof limeUnits)[number];

/** The quality of lime that rates are stated for. For an index in lb/ton, rates in pounds of that index are of 2,000 lb/ton. */
export const assumedMaterial = z
  .strictObject({ index: z.enum(limeIndexIds), value: z.number().positive(), label: z.string(), ...provenance })
  .check(graded);
export type AssumedMaterial = z.infer<typeof assumedMaterial>;

export const cap = z.strictObject({
  placement: z.enum(["surface", "incorporated"]),
  maximum: sourcedNumber.describe("in the rule's unit, of the assumed material's worth"),
  then: z.string().describe("what the publication says to do with the rest"),
});

/** A shallow sample, as of no-till, that the publication gives a share of its rate instead of scaling it by depth. */
const shallowSample = z
  .strictObject({ to: z.number().positive(), unit: z.enum(["in", "cm"]), share: z.number().positive().max(1), ...provenance })
  .check(graded);

/** The companions without which a lime rate says nothing, alike for every kind of rule that gives one. */
export const limeBasis = {
  crops: z.array(z.enum(cropIds)).min(1).optional().describe("absent: every crop"),
  unit: z.enum(limeUnits),
  material: assumedMaterial.optional().describe("absent: the publication does not say of what quality of lime its rates are"),
  depth: sourcedDepth
    .optional()
    .describe("the depth of soil the rates are for; absent: the publication does not say, and its rates stand as printed"),
  shallow: shallowSample.optional(),
  caps: z.array(cap).optional(),
  least: sourcedNumber.optional().describe("a rate below this, in the rule's unit, is reported as none"),
};

export type LimeBasis = z.infer<z.ZodObject<typeof limeBasis>>;

/**
 * A lime rate inside a worked step, such that the next line comes out by the figure this one prints: tenths of a pound, thousandths of a
 * ton. With two decimals of a ton a rate of half a ton would be out by a hundredth.
 */
export const limeFigure = (value: number, unit: LimeUnit): string => plain(value, unit.startsWith("lb") ? 1 : 3);

/** "agricultural limestone", or plain "lime" where the publication does not say of what quality. */
export const limeName = (basis: Pick<LimeBasis, "material">): string => basis.material?.label ?? "lime of a quality not stated";

/** "100% ECCE (100 % ECCE (effective calcium carbonate equivalent))" */
export const materialLabel = ({ material }: Pick<LimeBasis, "material">): string =>
  material
    ? `${material.label} (${plain(material.value)} ${limeIndices[material.index].unit} ${limeIndices[material.index].label})`
    : "lime of a quality that the publication does not state";
