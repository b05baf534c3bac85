import * as z from "zod";
import type { Measurement } from "../measurement.ts";
import { finishIds, methodIds, soilTestUnits } from "../vocabulary.ts";
import { graded, provenance } from "./sourced.ts";

/** A soil test of phosphorus above which a publication calls the soil a risk to water. */
export const environmentalLimit = z
  .strictObject({
    analyte: z.literal("P"),
    method: z.enum(methodIds),
    finish: z.enum(finishIds).optional(),
    unit: z.enum(soilTestUnits),
    above: z.number().positive(),
    ...provenance,
  })
  .check(graded);
export type EnvironmentalLimit = z.infer<typeof environmentalLimit>;

/** Was it measured as the limit is stated? A limit by one extractant says nothing of another. */
export const methodMatches = (limit: EnvironmentalLimit, m: Measurement): boolean =>
  m.analyte === limit.analyte &&
  m.method === limit.method &&
  m.unit === limit.unit &&
  (limit.finish === undefined || m.finish === limit.finish);
