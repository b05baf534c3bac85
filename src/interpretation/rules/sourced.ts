import * as z from "zod";
import { evidenceGrades } from "../outcome.ts";
import { lengthUnits } from "../units.ts";

export const id = z
  .string()
  .max(60)
  .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, "must be lower-case letters, digits and hyphens, such as us-example-2020");

/** Where a rule value comes from: a publication in references.yaml and the place in it, or `common-practice`. */
export const source = z.union([z.literal("common-practice"), z.strictObject({ reference: id, at: z.string().min(1).optional() })]);
export const evidence = z.enum(evidenceGrades);

/** Every rule value or table says where it comes from and how well that is known. */
export const provenance = {
  source,
  evidence: evidence.optional().describe("read, derived, secondary or memory; may be left out for common-practice only"),
  note: z.string().optional(),
};

export interface Provenance {
  source: z.infer<typeof source>;
  evidence?: z.infer<typeof evidence> | undefined;
  note?: string | undefined;
}

/** A publication without a grade would pass for checked: refuse it. */
export const graded = <T extends Provenance>(ctx: z.core.ParsePayload<T>): void => {
  const { value } = ctx;
  if (value.source !== "common-practice" && value.evidence === undefined)
    ctx.issues.push({
      code: "custom",
      input: value,
      path: [],
      message: "evidence is missing; write read, derived, secondary or memory",
    });
};

export const sourcedNumber = z.strictObject({ value: z.number(), ...provenance }).check(graded);

export const sourcedDepth = z
  .strictObject({
    from: z.number().nonnegative().default(0),
    to: z.number().positive(),
    unit: z.enum(lengthUnits),
    ...provenance,
  })
  .check(graded);
