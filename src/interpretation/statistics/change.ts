import type { Outcome } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { plain } from "../show.ts";
import { tQuantile } from "./distributions.ts";
import type { Noise } from "./noise.ts";
import { sdAt } from "./noise.ts";

/** A result, or the mean of several bags of one day. */
export interface Result {
  readonly value: number;
  readonly bags?: readonly unknown[] | undefined;
}

export interface Change {
  /** Second less first, in the analyte's unit. */
  readonly change: number;
  /** The least significant change: what noise alone stays within, as often as `confidence` says. */
  readonly least: number;
  readonly beyondNoise: boolean;
  readonly sds: readonly [number, number];
  /** z of the normal curve, or t where the noise was learned from a few duplicates. */
  readonly factor: number;
  readonly confidence: number;
  /** The noise is that of bags of one day, without what a laboratory drifts from year to year. */
  readonly ofOneDay: boolean;
}

/** How many standard deviations hold the share `p` below them: a few duplicates know the standard deviation poorly, so theirs is wider. */
export const factorFor = (noise: Noise, p: number): number => tQuantile(p, noise.pairs ?? Infinity);

const bagsOf = ({ bags }: Result): number => Math.max(1, bags?.length ?? 1);

/** A mean of several bags strays less than one bag. */
export const sdOf = (result: Result, noise: Noise): number => sdAt(noise, result.value, bagsOf(result));

/** "6.3", "6.3 of 2 bags" */
const told = (result: Result): string => `${plain(result.value)}${bagsOf(result) > 1 ? ` of ${bagsOf(result)} bags` : ""}`;

/**
 * The change between two results beside the least significant change, z * sqrt(s1^2 + s2^2). Both noises are taken
 * at their own result, since phosphorus and potassium scatter more where there is more; for these the limit is approximate,
 * because they scatter further upward than downward. Results that are rounded differ by whole steps, and chance makes such
 * a step from half of it on: half a step is added, without which a soil of 2.5 ppm that is printed as 2 and then as 3 has changed.
 */
export const changeBetween = (first: Result, second: Result, noise: Outcome<Noise>, confidence = 0.95): Outcome<Change> => {
  if (noise.kind === "noAnswer") return noise;
  const sds = [sdOf(first, noise.value), sdOf(second, noise.value)] as const;
  const both = Math.hypot(...sds);
  if (both === 0) return noAnswer("both results are zero, where noise in percent says nothing", ["a result above zero"]);
  const factor = factorFor(noise.value, (1 + confidence) / 2);
  const { step } = noise.value;
  const least = factor * both + step / 2;
  const change = second.value - first.value;
  const beyondNoise = Math.abs(change) > least;
  return answer({ change, least, beyondNoise, sds, factor, confidence, ofOneDay: noise.value.from === "own duplicates" }, [
    ...noise.steps,
    {
      what: "Noise of each result, one standard deviation",
      expression: `at ${told(first)} and ${told(second)}`,
      result: `${plain(sds[0])} and ${plain(sds[1])}`,
    },
    {
      what: `Least change that is more than noise, ${plain(confidence * 100)} in 100`,
      expression: `${plain(factor)} × √(${plain(sds[0])}² + ${plain(sds[1])}²)${step === 0 ? "" : ` + ${plain(step / 2, 4)}`}`,
      result: plain(least),
      note:
        [
          step > 0 && "half of the last printed place is added, because the results are rounded",
          noise.value.pairs !== undefined &&
            `Student's t for ${noise.value.pairs} pairs instead of 1.96: so few pairs know the noise only roughly`,
        ]
          .filter(Boolean)
          .join("; ") || undefined,
    },
    {
      what: "Change found",
      expression: `${plain(second.value)} − ${plain(first.value)}`,
      result: `${plain(change)}, ${beyondNoise ? "more" : "no more"} than noise`,
    },
  ]);
};

/** The most by which one result may miss on one side, one time in twenty. */
const oneSided = 0.95;

/** Of the edges of classes, those the true value may as well lie on the other side of: within the noise of one result. */
export const edgesWithinNoise = (result: Result, edges: readonly number[], noise: Noise): number[] => {
  const reach = factorFor(noise, oneSided) * sdOf(result, noise);
  return edges.filter((edge) => Math.abs(result.value - edge) <= reach);
};
