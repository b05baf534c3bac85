import { depthTolerance } from "../../comparable.ts";
import type { Depth } from "../../measurement.ts";
import { depthIn, depthLabel } from "../../measurement.ts";
import { plain } from "../../show.ts";
import type { LengthUnit } from "../../units.ts";
import { convert } from "../../units.ts";
import type { Finding, SampledPlace, SamplingEvent } from "./finding.ts";
import { provenanceOf } from "./finding.ts";
import type { SamplingDepth } from "../../rules/samplingParts.ts";
import { eventMonth } from "./eventMonth.ts";

const slack = depthTolerance + 1e-3;

/**
 * How deep it went against what the field's guideline asks, else as deep as it reads its results, else common practice
 * (`usual`); an inch either way is let pass. Where none of them says, it is not judged.
 */
export const depthFinding = (event: SamplingEvent, { zones, usual }: SampledPlace): Finding => {
  const base = { id: "depth", analytes: "all" } as const;
  const asked = zones.find((z) => event.bags.some((b) => b.zone === z.id))?.advice.depth.outcome;
  const taken = `Taken from ${depthLabel(event.depth)}`;
  const outcome = asked?.kind === "answer" ? asked : usual;
  if (outcome.kind !== "answer")
    return {
      ...base,
      severity: "not judged",
      words: `${taken}. ${outcome.because.charAt(0).toUpperCase()}${outcome.because.slice(1)}, and no chosen guideline says how deep to sample.`,
    };
  const from = provenanceOf(outcome);
  const [top, least, most] = inInches(outcome.value);
  const had = depthIn(event.depth, "in");
  const common = from.source === "common-practice";
  const [step] = outcome.steps;
  const asks =
    outcome === asked
      ? "the guideline asks for"
      : common || !step
        ? "common practice is"
        : `${step.what.charAt(0).toLowerCase()}${step.what.slice(1)} is`;
  const wanted = `${asks} ${depthWords([top, least, most], event.depth.unit)}`;
  if (fits(had, [top, least, most])) return { ...base, ...from, severity: "fine", words: `${taken}; ${wanted}.` };
  // A depth at which another chosen guideline reads its results is no fault of the sampling.
  const [reads] = outcome === asked && usual.kind === "answer" && provenanceOf(usual).source !== "common-practice" ? usual.steps : [];
  if (reads && usual.kind === "answer" && fits(had, inInches(usual.value)))
    return {
      ...base,
      ...from,
      severity: "not judged",
      words: `${taken}, where ${wanted}; ${reads.what.charAt(0).toLowerCase()}${reads.what.slice(1)} is ${reads.result}, so the chosen guidelines differ.`,
    };
  if (event.purpose === "nitrate" && common && had.to > most)
    return {
      ...base,
      ...from,
      severity: "not judged",
      words: `${taken}, deeper than the June test; no chosen guideline says how deep a test before planting goes.`,
    };
  const way = had.to < least - slack ? "too shallow" : had.to > most + slack ? "too deep" : "from another layer";
  if (event.purpose === "nitrate")
    return {
      ...base,
      ...from,
      severity: "not fit for the purpose",
      words: `${taken}, where ${wanted}: a nitrate test of another depth fits no calibration.`,
      brief: `taken ${way} for a nitrate test`,
    };
  return { ...base, ...from, severity: "read with care", words: `${taken}, where ${wanted}.`, brief: `taken ${way}` };
};

type Inches = readonly [top: number, least: number, most: number];

const inInches = ({ from, to, toMost, unit }: SamplingDepth): Inches => [
  convert(from, unit, "in"),
  convert(to, unit, "in"),
  convert(toMost ?? to, unit, "in"),
];

const fits = (had: { readonly from: number; readonly to: number }, [top, least, most]: Inches): boolean =>
  Math.abs(had.from - top) <= slack && had.to >= least - slack && had.to <= most + slack;

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
  if (Math.abs(difference) <= slack && top <= slack)
    return { ...base, severity: "fine", words: `As deep as the sampling before it, ${was}.` };
  const brief =
    difference < -slack
      ? "taken shallower than before"
      : difference > slack
        ? "taken deeper than before"
        : "taken from another layer than before";
  return {
    ...base,
    severity: "read with care",
    words: `${brief.charAt(0).toUpperCase()}${brief.slice(1)}: ${depthLabel(event.depth)} now, ${was}. Lime and fertilizer stay near the top, so the results of the two are not comparable.`,
    brief,
  };
};
