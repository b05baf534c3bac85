import type { Measurement } from "../measurement.ts";
import type { Limits } from "../rules/limits.ts";
import type { AnalyteId, MethodId } from "../vocabulary.ts";
import { analytes } from "../vocabulary.ts";

const usualMethod: Partial<Record<AnalyteId, MethodId>> = { pH: "water1to1", bufferPh: "smp" };

/** A laboratory result such as a published example takes for granted: Mehlich-3, in the analyte's usual unit, eight inches deep. */
export const measured = (analyte: AnalyteId, value: number, over: Partial<Measurement> = {}): Measurement => ({
  analyte,
  value,
  unit: analytes[analyte].unit,
  method: usualMethod[analyte] ?? "mehlich3",
  depth: { from: 0, to: 8, unit: "in" },
  date: "2025-10-18",
  purpose: "routine",
  lab: "north-lab",
  origin: { file: "fields/north/samplings/2025-10-18.yaml", line: 12, column: 9 },
  ...over,
});

/** A result taken just as a rule wants it. */
export const measuredFor = (limits: Limits, analyte: AnalyteId, value: number, over: Partial<Measurement> = {}): Measurement =>
  measured(analyte, value, {
    method: limits.method,
    finish: limits.finish,
    preparation: limits.preparation,
    unit: limits.unit,
    ...(limits.depth && { depth: { from: limits.depth.from, to: limits.depth.to, unit: limits.depth.unit } }),
    ...over,
  });
