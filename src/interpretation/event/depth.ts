import { depthTolerance } from "../comparable.ts";
import type { Depth } from "../measurement.ts";
import { depthIn, depthLabel } from "../measurement.ts";
import { plain } from "../show.ts";
import type { SamplingDepth } from "../rules/samplingParts.ts";
import type { LengthUnit } from "../units.ts";
import { convert } from "../units.ts";
import { commonDepths } from "../usualDepth.ts";
import type { Finding, SampledPlace, SamplingEvent } from "./finding.ts";
import { provenanceOf } from "./finding.ts";
import { eventMonth } from "./eventMonth.ts";

const slack = depthTolerance + 1e-3;

/** How deep it went against what the field's guideline asks, else, but for sod, against common practice; an inch either way is let pass. */
export const depthFinding = (event: SamplingEvent, { zones, sod }: SampledPlace): Finding => {
  const base = { id: "depth", analytes: "all" } as const;
  const outcome = zones.find((z) => event.bags.some((b) => b.zone === z.id))?.advice.depth.outcome;
  const taken = `Taken from ${depthLabel(event.depth)}`;
  if (outcome?.kind !== "answer" && sod && event.purpose !== "nitrate") return { ...base, severity: "not judged", words: `${taken}. How deep sod is sampled differs between places, and no chosen guideline says.` };
  const told: SamplingDepth = outcome?.kind === "answer" ? outcome.value : commonDepths[event.purpose];
  const from = outcome?.kind === "answer" ? provenanceOf(outcome) : { source: "common-practice" as const };
  const inches = (value: number): number => convert(value, told.unit, "in");
  const [top, least, most] = [inches(told.from), inches(told.to), inches(told.toMost ?? told.to)];
  const had = depthIn(event.depth, "in");
  const wanted = `${outcome?.kind === "answer" ? "the guideline asks for" : "common practice is"} ${depthWords([top, least, most], event.depth.unit)}`;
  if (Math.abs(had.from - top) <= slack && had.to >= least - slack && had.to <= most + slack) return { ...base, ...from, severity: "fine", words: `${taken}; ${wanted}.` };
  if (event.purpose === "nitrate" && outcome?.kind !== "answer" && had.to > most)
    return { ...base, ...from, severity: "not judged", words: `${taken}, deeper than the June test; no chosen guideline says how deep a test before planting goes.` };
  const way = had.to < least - slack ? "too shallow" : had.to > most + slack ? "too deep" : "from another layer";
  if (event.purpose === "nitrate")
    return { ...base, ...from, severity: "not fit for the purpose", words: `${taken}, where ${wanted}: a nitrate test of another depth fits no calibration.`, brief: `taken ${way} for a nitrate test` };
  return { ...base, ...from, severity: "read with care", words: `${taken}, where ${wanted}.`, brief: `taken ${way}` };
};

/** In the unit the event itself is recorded in. */
const depthWords = ([top, least, most]: readonly [number, number, number], unit: LengthUnit): string => {
  const shown = (inches: number): string => plain(convert(inches, "in", unit), unit === "cm" ? 0 : 1);
  return `${shown(top)} to ${shown(least)}${most > least ? ` or as far as ${shown(most)}` : ""} ${unit}`;
};

const deeper = (had: Depth, before: Depth): number => depthIn(had, "in").to - depthIn(before, "in").to;

/** The same layer as the sampling before it? */
export const depthBeforeFinding = (event: SamplingEvent, { before }: SampledPlace): Finding | undefined => {
  if (!before) return undefined;
  const base = { id: "depthBefore", analytes: "all", source: "common-practice" } as const;
  const difference = deeper(event.depth, before.depth);
  const top = Math.abs(depthIn(event.depth, "in").from - depthIn(before.depth, "in").from);
  const was = `${depthLabel(before.depth)} (${eventMonth(before)})`;
  if (Math.abs(difference) <= slack && top <= slack) return { ...base, severity: "fine", words: `As deep as the sampling before it, ${was}.` };
  const brief = difference < -slack ? "taken shallower than before" : difference > slack ? "taken deeper than before" : "taken from another layer than before";
  return { ...base, severity: "read with care", words: `${brief.charAt(0).toUpperCase()}${brief.slice(1)}: ${depthLabel(event.depth)} now, ${was}. Lime and fertilizer stay near the top, so the results of the two are not comparable.`, brief };
};
