import type { Guideline, Section } from "./guideline.ts";
import type { Measurement } from "./measurement.ts";
import type { AnalyteId, MethodId } from "./vocabulary.ts";
import { methodMeasures } from "./vocabulary.ts";

/** How an analyte is measured, as far as a rule asks: no finish is any finish, no preparation is dried soil. */
export type WayRead = Pick<Measurement, "method" | "finish" | "preparation" | "unit">;

/** Where a section says only the method, what it reads is a pH, or another analyte in the unit that its own code asks for. */
const byMethodAlone = (method: MethodId, analyte: AnalyteId): WayRead[] =>
  (analyte === "pH" || analyte === "bufferPh") && methodMeasures(method, analyte) ? [{ method, unit: "pH" }] : [];

/** The ways in which one rule reads an analyte; empty: it does not read it. */
export const waysOfRule = (s: Section, analyte: AnalyteId): readonly WayRead[] => {
  if ("limits" in s) {
    if (("analyte" in s ? s.analyte : "nitrateN") !== analyte) return [];
    const other = "otherUnit" in s.limits ? s.limits.otherUnit : undefined;
    return other ? [s.limits, { ...s.limits, unit: other.unit }] : [s.limits];
  }
  if (s.kind === "nitrogenNeed") return analyte === "mineralN" ? [{ method: s.method, unit: "kg/ha" }] : [];
  if (s.kind === "nitrogenSupply") return analyte === "mineralN" ? s.methods.map((method) => ({ method, unit: "kg/ha" })) : [];
  if (s.kind === "phAluminum" && analyte === "Al") return [{ method: s.aluminum, unit: "ppm" }];
  if (s.kind === "acidityMultiple" || s.kind === "acidityTable")
    return analyte === "exchangeableAcidity" ? [{ method: s.method, unit: "meq/100 g" }] : [];
  if ("buffer" in s) return byMethodAlone(s.buffer, analyte);
  return "method" in s ? byMethodAlone(s.method, analyte) : [];
};

/** The ways in which a guideline's rules read an analyte, in the order of its sections; each once. Empty: it does not read it. */
export const waysRead = (pack: Guideline, analyte: AnalyteId): readonly WayRead[] => {
  const ways = pack.sections.flatMap((s) => waysOfRule(s, analyte));
  return ways.filter(
    (w, i) =>
      ways.findIndex((o) => o.method === w.method && o.finish === w.finish && o.preparation === w.preparation && o.unit === w.unit) === i,
  );
};

/** Whether one of the ways is the one in which a laboratory measures. */
export const isReadBy = (ways: readonly WayRead[], m: WayRead): boolean =>
  ways.some(
    (w) =>
      w.method === m.method &&
      (w.finish === undefined || w.finish === m.finish) &&
      (w.preparation ?? "dried") === (m.preparation ?? "dried") &&
      w.unit === m.unit,
  );
