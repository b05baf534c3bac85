import type { Measurement } from "../../measurement.ts";
import { methodLabel } from "../../measurement.ts";
import type { AnalyteId } from "../../vocabulary.ts";
import { analyteInSentence } from "../../vocabulary.ts";
import { eventMonth } from "./eventMonth.ts";
import type { Finding, SampledPlace, SamplingEvent } from "./finding.ts";
import { testedIn } from "./finding.ts";
import { list } from "../../list.ts";

/** The laboratory of the sampling before it? Two laboratories differ more than one from itself. */
export const laboratoryFinding = (event: SamplingEvent, { before }: SampledPlace): Finding | undefined => {
  if (!before) return undefined;
  const base = { id: "laboratory", analytes: "all", source: { reference: "newyork-cca-study" }, evidence: "read" } as const;
  if (event.lab.id === before.lab.id) return { ...base, severity: "fine", words: `${event.lab.name}, as in ${eventMonth(before)}.` };
  return {
    ...base,
    severity: "read with care",
    words: `${event.lab.name}, where ${before.lab.name} had it in ${eventMonth(before)}: two laboratories answer a little differently by the same method.`,
    brief: "tested by another laboratory than before",
  };
};

const ways = ({ measurements }: SamplingEvent): Map<AnalyteId, Measurement[]> => {
  const found = new Map<AnalyteId, Measurement[]>();
  for (const m of measurements) found.set(m.analyte, [...(found.get(m.analyte) ?? []), m]);
  return found;
};

const wayOf = (m: Measurement): string => `${methodLabel(m)}${m.unit === "pH" ? "" : `, ${m.unit}`}`;

/** The methods and units of the sampling before it, for all that both tested? Nothing to say while results are awaited. */
export const methodsFinding = (event: SamplingEvent, { before }: SampledPlace): Finding | undefined => {
  if (!before || event.measurements.length === 0 || before.measurements.length === 0) return undefined;
  const [now, then] = [ways(event), ways(before)];
  const both = testedIn(event).filter((a) => then.has(a));
  const changed = both.filter((a) => !now.get(a)!.some((m) => then.get(a)!.some((o) => wayOf(o) === wayOf(m))));
  const base = { id: "methods", analytes: changed, source: { reference: "newyork-cca-study" }, evidence: "read" } as const;
  if (both.length === 0) return { ...base, severity: "fine", words: `Nothing that was tested in ${eventMonth(before)} was tested again.` };
  if (changed.length === 0) return { ...base, severity: "fine", words: `By the same methods as in ${eventMonth(before)}.` };
  const each = changed.map((a) => `${analyteInSentence(a)} by ${wayOf(now.get(a)![0]!)} (before: ${wayOf(then.get(a)![0]!)})`);
  return {
    ...base,
    severity: "read with care",
    words: `Measured otherwise than in ${eventMonth(before)}: ${list(each)}. No line joins the two.`,
    brief: "measured by another method than before",
  };
};
