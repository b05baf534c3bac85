import type { Measurement } from "../measurement.ts";
import { measurementLabel } from "../measurement.ts";
import type { Step } from "../outcome.ts";
import { plain } from "../show.ts";
import { nitrogenInNitrate } from "../units.ts";
import type { AnalyteId } from "../vocabulary.ts";

/** Tests of the soil's nitrogen for one crop, whichever way the laboratory counts it: nitrate, or nitrate and ammonium together. */
export const nitrogenTests: readonly AnalyteId[] = ["nitrateN", "nitrate", "mineralN"];
export const isNitrogenTest = (m: Pick<Measurement, "analyte">): boolean => nitrogenTests.includes(m.analyte);

/** Read in two feet of soil, and tested with the nitrate there: both move down with water as it does. */
const deepTests: readonly AnalyteId[] = ["Cl", "S"];
export const isDeepTest = (analyte: AnalyteId): boolean => deepTests.includes(analyte);

export interface NitrateNitrogen {
  /** As nitrate-N, in the unit of the result. */
  readonly measurements: readonly Measurement[];
  /** How nitrate was turned into nitrate-N; empty where the laboratory reports nitrate-N. */
  readonly steps: readonly Step[];
}

/**
 * Results as nitrate-N, which every rule reads. A laboratory that reports nitrate (NO3) reports 4.43 times the number: its
 * results are turned by atomic weights, and a step says so. Where both are reported, nitrate-N counts. Mineral nitrogen holds ammonium too and
 * is never taken for nitrate.
 */
export const nitrateNitrogen = (measurements: readonly Measurement[]): NitrateNitrogen => {
  const direct = measurements.filter((m) => m.analyte === "nitrateN");
  if (direct.length > 0) return { measurements: direct, steps: [] };
  const nitrate = measurements.filter((m) => m.analyte === "nitrate");
  return {
    measurements: nitrate.map((m) => ({
      ...m,
      analyte: "nitrateN",
      value: Number((m.value * nitrogenInNitrate).toPrecision(12)),
      bags: undefined,
      correction: undefined,
    })),
    steps: nitrate.map((m) => ({
      what: "The laboratory reports nitrate; its nitrogen, by atomic weights",
      expression: `${measurementLabel(m)} × ${plain(nitrogenInNitrate, 4)}`,
      result: `${plain(m.value * nitrogenInNitrate, 2)} ${m.unit}`,
      source: { record: m.origin },
    })),
  };
};
