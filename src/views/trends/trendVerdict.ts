import type { Measurement } from "../../interpretation/measurement.ts";
import { numberLabel } from "../../interpretation/measurement.ts";
import type { Outcome, Step } from "../../interpretation/outcome.ts";
import type { Band } from "../../interpretation/rules/bands.ts";
import { plain } from "../../interpretation/show.ts";
import { edgesWithinNoise } from "../../interpretation/statistics/change.ts";
import type { Noise } from "../../interpretation/statistics/noise.ts";
import type { Application } from "../../records/model.ts";
import type { ComparableHistory } from "./history.ts";
import { sinceLime } from "./sinceLime.ts";
import type { Told } from "./trendWords.ts";
import { edgeWords, trendWords } from "./trendWords.ts";
import { count, monthYear } from "../words.ts";

/** Where the results of one zone stand and where they are going, in words, with the sum behind them. */
export interface TrendVerdict {
  /** The newest value, and where its comparable series began. */
  readonly now: string;
  /** Whether it rises or falls, or why that cannot be said. */
  readonly says: string;
  /** Whether it is called rising or falling. */
  readonly directed: boolean;
  /** Where the newest value lies within noise of a class's edge. */
  readonly edge: string | undefined;
  /** What in the taking of the newest sampling casts doubt on it. */
  readonly care: string | undefined;
  readonly numbers: readonly string[];
  readonly steps: readonly Step[];
}

const nowWords = (measurements: readonly Measurement[]): string => {
  const first = measurements[0]!;
  const last = measurements.at(-1)!;
  const now = `${numberLabel(last)} in ${monthYear(last.date)}`;
  return first === last
    ? `${now}; nothing earlier to compare it with.`
    : `${now}; ${numberLabel(first)} in ${monthYear(first.date)}, measured the same way.`;
};

export const edgesOf = (bands: readonly Band[]): number[] => bands.flatMap((b) => b.from ?? b.above ?? []);

const stepsOf = (outcome: Outcome<unknown>): readonly Step[] => (outcome.kind === "answer" ? outcome.steps : []);

/** The sum of a trend may tell of its noise already. */
const withNoiseFirst = (noise: readonly Step[], trend: readonly Step[]): Step[] => [...noise.filter((s) => !trend.includes(s)), ...trend];

/** A series judged: `bands` are the classes that hold for its newest result, `care` what to beware of in how that was taken, `limes` what bent it. */
export const trendVerdict = (
  history: ComparableHistory,
  bands: readonly Band[],
  { care, limes = [], ...told }: Told & { readonly care?: string | undefined; readonly limes?: readonly Pick<Application, "date">[] } = {},
): TrendVerdict => {
  const { measurements, noise, trend } = history;
  const last = measurements.at(-1)!;
  const { says, numbers } = trendWords(trend, last, told);
  const near = noise.kind === "answer" && !last.qualifier ? edgesWithinNoise(last, edgesOf(bands), noise.value) : [];
  return {
    now: nowWords(measurements),
    says: measurements.length > 1 ? [says, sinceLime(history, limes)].filter(Boolean).join(" ") : "",
    directed: trend.kind === "answer" && (trend.value.finding === "rising" || trend.value.finding === "falling"),
    edge: edgeWords(near, last),
    care,
    numbers,
    steps: withNoiseFirst(stepsOf(noise), stepsOf(trend)),
  };
};

/** Where the noise of a chart comes from, as the end of "by ...". */
export const noiseSource = (noise: Noise): string => {
  switch (noise.from) {
    case "own duplicates":
      return `the farm's own duplicate bags, ${count(noise.pairs ?? 0, "pair")}`;
    case "cores and laboratory":
      return `published figures for cores and laboratories, ${plain(noise.parts[0]!.over, 0)} cores a bag`;
    case "sampling and analysis together":
      return "a published figure for sampling and analysis together";
  }
};
