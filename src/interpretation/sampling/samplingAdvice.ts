import type { Guideline } from "../guideline.ts";
import { sectionsOf } from "../guideline.ts";
import type { Outcome } from "../outcome.ts";
import { noAnswer } from "../outcome.ts";
import type { SamplingParts } from "../rules/samplingParts.ts";
import { samplingBySpec } from "../rules/samplingParts.ts";
import type { SamplingQuestion } from "../rules/samplingWhen.ts";
import { purposes } from "../vocabulary.ts";
import type { Try } from "../firstAnswer.ts";
import { firstAnswer } from "../firstAnswer.ts";

/** One part of a sampling plan: what is asked, and which guideline asks it. */
export interface SamplingPart<T> {
  readonly outcome: Outcome<T>;
  readonly pack: Guideline | undefined;
}

export type SamplingAdvice = { readonly [K in keyof SamplingParts]: SamplingParts[K] extends Outcome<infer T> ? SamplingPart<T> : never };

/**
 * What the chosen guidelines ask of a sampling: cores in a composite, depth, composites for the area, years between two
 * samplings, and handling. Each part is put to the guidelines in order until one can answer it, so the parts may come from
 * different publications; each names its own.
 */
export const samplingAdvice = (packs: readonly Guideline[], question: SamplingQuestion): SamplingAdvice => {
  const specs = packs.flatMap((pack) =>
    sectionsOf(pack, "samplingSpec")
      .filter((rule) => rule.purpose === question.purpose)
      .map((rule) => ({ pack, parts: samplingBySpec(rule, question, pack.short) })),
  );
  const part = <K extends keyof SamplingParts>(key: K, silent: string): SamplingAdvice[K] => {
    const tries = specs.map(({ pack, parts }): Try<unknown> => ({ pack, outcome: parts[key] }));
    return firstAnswer(
      tries,
      noAnswer(`none of the chosen guidelines ${silent} for ${purposes[question.purpose].label}`, ["a guideline on sampling"]),
    ) as SamplingAdvice[K];
  };
  return {
    cores: part("cores", "says how many cores to take"),
    depth: part("depth", "says how deep to sample"),
    composites: part("composites", "says how many composites to take"),
    interval: part("interval", "gives an interval"),
    sameCrop: part("sameCrop", "says after which crop to sample"),
    handling: part("handling", "says how to handle the bags"),
  };
};
