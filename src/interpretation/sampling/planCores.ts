import { publishedAskMore, usualCores } from "./event/cores.ts";
import type { Outcome, Source, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import type { SamplingPart } from "./samplingAdvice.ts";
import type { SamplingDepth, Span } from "../rules/samplingParts.ts";
import { samplingDepthLabel, spanLabel } from "../rules/samplingParts.ts";
import { counted } from "../show.ts";
import { coresNeeded } from "../statistics/coresNeeded.ts";
import { convert } from "../units.ts";
import type { PurposeId } from "../vocabulary.ts";

/** What was done last time, and where the record says so. */
export interface LastTime<T> {
  readonly value: T;
  readonly source: Source;
}

/** A mean that should miss the area's by at most `error` percent, 19 times in 20, with single cores that spread by `cv` percent. */
export interface WantedError {
  readonly cv: number;
  readonly error: number;
}

/** A record takes no more in one bag, and nobody walks for more. */
const mostCores = 200;

/**
 * How many cores each bag takes. By the error that is wanted, where one was given; else what the chosen guidelines ask, as near to
 * the number of last time as they allow, because the noise of a result depends on it; else, where they are silent, as many as
 * last time. Where there is neither, the upper end of common practice, but for nitrate: its tests were calibrated with more.
 */
export const planCores = (
  purpose: PurposeId,
  asked: SamplingPart<Span>,
  last: LastTime<number> | undefined,
  wanted: WantedError | undefined,
): Outcome<number> => {
  if (wanted) {
    const needed = coresNeeded({ ...wanted, confidence: 0.95 });
    if (needed.kind === "noAnswer") return needed;
    if (needed.value.cores > mostCores)
      return noAnswer(`so small an error is met by ${counted(needed.value.cores, "core")}, and one bag takes ${mostCores} at most`, [
        "a larger error allowed",
      ]);
    return answer(needed.value.cores, needed.steps);
  }
  const before = last && ({ what: "Cores in one bag last time", result: counted(last.value, "core"), source: last.source } satisfies Step);
  const { outcome } = asked;
  if (outcome.kind === "noAnswer") {
    if ((!last || !before) && purpose !== "nitrate")
      return answer(usualCores.most, [
        {
          what: "The upper end of common practice",
          result: `${spanLabel(usualCores)} cores`,
          source: "common-practice",
          note: `${outcome.because}; ${publishedAskMore}: name one among the guidelines to plan by it`,
        },
      ]);
    if (!last || !before)
      return noAnswer(`${outcome.because}, and no sampling of this kind is recorded that took a number of cores`, [
        ...outcome.missing,
        "cores",
      ]);
    return answer(last.value, [before, { what: "As many as last time", result: counted(last.value, "core"), note: outcome.because }]);
  }
  const { least = 1, most = Infinity } = outcome.value;
  const cores = Math.min(Math.max(last?.value ?? least, least), most);
  const why =
    last === undefined
      ? "The least it asks for"
      : cores === last.value
        ? "As many as last time, which the guideline allows"
        : `As near to last time as ${spanLabel(outcome.value)} allows`;
  return answer(cores, [...outcome.steps, ...(before ? [before] : []), { what: why, result: counted(cores, "core") }], outcome.cautions);
};

/** Inches: a depth that was turned from centimeters is not another for its last digits. */
const depthRounding = 0.05;

/** Whether a depth is the one that is asked, or within the range that is, in inches. */
const isAsAsked = (asked: SamplingDepth, was: SamplingDepth): boolean => {
  const inches = (value: number, { unit }: SamplingDepth): number => convert(value, unit, "in");
  const to = inches(was.to, was);
  return (
    Math.abs(inches(asked.from, asked) - inches(was.from, was)) < depthRounding &&
    to > inches(asked.to, asked) - depthRounding &&
    to < inches(asked.toMost ?? asked.to, asked) + depthRounding
  );
};

/**
 * How deep to sample. As last time, because a change of depth ends a history; a guideline that asks for another depth is named.
 * A nitrate test is only read at the depth it was calibrated for, so there the guideline goes first. `usual` stands in where neither
 * says anything.
 */
export const planDepth = (
  purpose: PurposeId,
  asked: SamplingPart<SamplingDepth>,
  last: LastTime<SamplingDepth> | undefined,
  usual: Outcome<SamplingDepth>,
): Outcome<SamplingDepth> => {
  const { outcome } = asked;
  const before = last && ({ what: "Depth last time", result: samplingDepthLabel(last.value), source: last.source } satisfies Step);
  if (outcome.kind === "noAnswer") {
    if (!last || !before)
      return usual.kind === "answer"
        ? usual
        : noAnswer(`${outcome.because}, no sampling of this kind is recorded, and ${usual.because}`, [
            ...outcome.missing,
            ...usual.missing,
          ]);
    return answer(last.value, [before, { what: "As deep as last time", result: samplingDepthLabel(last.value), note: outcome.because }]);
  }
  if (!last || !before) return outcome;
  if (isAsAsked(outcome.value, last.value))
    return answer(last.value, [
      ...outcome.steps,
      before,
      { what: "As deep as last time, as the guideline asks", result: samplingDepthLabel(last.value) },
    ]);
  if (purpose === "nitrate")
    return answer(
      outcome.value,
      [...outcome.steps, before],
      [
        `Last time it was ${samplingDepthLabel(last.value)} deep: the two results cannot be compared, but only this depth fits the nitrate rule.`,
      ],
    );
  return answer(
    last.value,
    [...outcome.steps, before, { what: "As deep as last time, so that the history goes on", result: samplingDepthLabel(last.value) }],
    [`${asked.pack?.short ?? "The guideline"} asks for ${samplingDepthLabel(outcome.value)}. A change of depth starts a new history.`],
  );
};
