import * as z from "zod";
import { cropIds } from "../../interpretation/vocabulary.ts";
import { lengthUnits, rateUnits, volumeRateUnits, yieldUnits } from "../../interpretation/units.ts";

/** The id of a record: it names a file or folder and stands in addresses, so it can never leave the folder. */
export const id = z
  .string()
  .min(1)
  .max(60)
  .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, "must be lower-case letters, digits and single hyphens, such as north-meadow");

/**
 * A record's word for another one, its id. It is only ever looked up among those there are: what is none of them, "West end" for west,
 * is told by their names and not by how an id is spelled.
 */
export const named = z.string().trim().min(1).max(60);

export const text = z.string().trim().min(1).max(400);
export const longText = z.string().trim().min(1).max(4000);

/** A calendar day, `2025-10-18`, of the years that a season may be of. */
export const date = z.iso.date({ abort: true }).refine((day) => day >= "1900" && day < "2201", "must be a day of the years 1900 to 2200");
export const year = z.number().int().min(1900).max(2200);

/** A label is text even when it looks like a number: `"0012"` keeps its zeros only in quotes. */
export const label = z.string().trim().min(1).max(60);

export const depth = z
  .strictObject({
    from: z.number().min(0).max(200),
    to: z.number().positive().max(300),
    unit: z.enum(lengthUnits),
  })
  .refine((d) => d.from < d.to, { path: ["to"], error: "must be deeper than from" });

export const length = z.strictObject({ value: z.number().positive().max(300), unit: z.enum(lengthUnits) });
export const yieldAmount = z.strictObject({ value: z.number().nonnegative().max(100_000), unit: z.enum(yieldUnits) });
export const rateAmount = z.strictObject({ value: z.number().nonnegative().max(1_000_000), unit: z.enum(rateUnits) });
/** A rate by weight, or by the volume of a liquid whose density is known. */
export const spreadAmount = rateAmount.extend({ unit: z.enum([...rateUnits, ...volumeRateUnits]) });
/** Crops grown in turn. */
export const rotation = z
  .array(z.enum(cropIds))
  .min(1)
  .refine((crops) => new Set(crops).size === crops.length, "names a crop twice")
  .optional();
/** A currency as ISO 4217 writes it. */
export const currency = z.string().regex(/^[A-Z]{3}$/, "must be a three-letter ISO 4217 code, such as USD");
export const percent = z.number().min(0).max(100);
