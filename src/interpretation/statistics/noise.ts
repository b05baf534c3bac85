import type { Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import type { NoiseRule, Spread } from "../rules/noise.ts";
import { plain } from "../show.ts";
import type { AnalyteId, MethodId } from "../vocabulary.ts";
import { analyteInSentence, analytes } from "../vocabulary.ts";
import type { Bags, PooledDuplicates } from "./ownDuplicates.ts";
import { countPairs, fewestPairs, pooledDuplicates } from "./ownDuplicates.ts";

/** One source of noise: a standard deviation, averaged over so many cores. */
export interface NoisePart {
  readonly value: number;
  readonly as: "percent" | "units";
  readonly over: number;
  /** All bags of one day share it, so that it is no smaller in their mean: what another laboratory adds. */
  readonly shared?: true;
}

/** The noise of one composite result. */
export interface Noise {
  readonly from: "own duplicates" | "cores and laboratory" | "sampling and analysis together";
  readonly parts: readonly NoisePart[];
  /** Degrees of freedom, where it was learned from the farm's own duplicates: how many pairs. */
  readonly pairs?: number | undefined;
  /** To what the results are rounded, in the analyte's unit; 0 where that is not asked. */
  readonly step: number;
}

export interface NoiseQuestion {
  readonly analyte: AnalyteId;
  readonly method: MethodId;
  /** Cores in each composite; absent where the records do not say. */
  readonly cores?: number | undefined;
  /** More than one: the results that will be compared come from so many laboratories. */
  readonly labs?: number | undefined;
  /** The farm's own duplicates of this analyte by this method, a list of bags for each zone and day. */
  readonly duplicates?: readonly Bags[] | undefined;
  /** To what the results are rounded, in the analyte's unit: 0.1 for a pH of 6.3. */
  readonly step?: number | undefined;
}

/** The standard deviation of one composite whose result is `level`, or of the mean of several bags of a day, in the analyte's unit. */
export const sdAt = (noise: Pick<Noise, "parts">, level: number, bags = 1): number =>
  Math.sqrt(
    noise.parts.reduce(
      (sum, p) => sum + (p.as === "percent" ? (level * p.value) / 100 : p.value) ** 2 / (p.shared ? p.over : p.over * bags),
      0,
    ),
  );

const text = (p: { value: number; as: "percent" | "units" }): string =>
  `${plain(p.value, p.as === "percent" ? 1 : 3)}${p.as === "percent" ? "% of the value" : ""}`;

const step = (what: string, s: Spread): Step => ({ what, result: text(s), source: s.source, evidence: s.evidence, note: s.note });

const part = (s: { value: number; as: "percent" | "units" }, over = 1): NoisePart => ({ value: s.value, as: s.as, over });

/** What another laboratory adds to one laboratory's own spread: the variances' difference. Nothing where the two are in different measures. */
const betweenLabs = (r: NoiseRule | undefined): NoisePart[] => {
  if (!r?.labs || !r.lab || r.labs.as !== r.lab.as || r.labs.value <= r.lab.value) return [];
  return [{ value: Math.sqrt(r.labs.value ** 2 - r.lab.value ** 2), as: r.labs.as, over: 1, shared: true }];
};

const fromDuplicates = (own: PooledDuplicates, extra: readonly NoisePart[], step: number): Outcome<Noise> =>
  answer({ from: "own duplicates", parts: [part(own), ...extra], pairs: own.pairs, step }, [
    {
      what: `Standard deviation within the farm's own duplicates, from ${own.pairs} pairs`,
      result: text(own),
      note: "bags of one day; what a laboratory drifts from year to year is not in it",
    },
    ...extra.map((e): Step => ({ what: "Added because the results come from different laboratories", result: text(e) })),
  ]);

const fromRule = (r: NoiseRule, { cores, labs = 1, step: rounded = 0 }: NoiseQuestion): Outcome<Noise> => {
  if (r.core && r.lab && cores !== undefined) {
    const lab = labs > 1 ? r.labs : r.lab;
    if (!lab)
      return noAnswer("the results come from different laboratories, and how far laboratories differ is not known", [
        "results of one laboratory",
      ]);
    const between = labs > 1 ? betweenLabs(r) : [];
    const parts = [
      part(r.core, cores),
      ...(between.length > 0 ? [part(r.lab), ...between] : [{ ...part(lab), ...(labs > 1 && { shared: true as const }) }]),
    ];
    return answer({ from: "cores and laboratory", parts, step: rounded }, [
      step("Standard deviation between single cores", r.core),
      {
        what: `Of the mean of ${cores} cores`,
        expression: `${text(r.core)} ÷ √${cores}`,
        result: text({ value: r.core.value / Math.sqrt(cores), as: r.core.as }),
      },
      step(labs > 1 ? "Standard deviation between laboratories" : "Standard deviation within a laboratory", lab),
    ]);
  }
  if (!r.together)
    return noAnswer(`how many cores went into a bag is not recorded, and the noise of ${analyteInSentence(r.analyte)} depends on it`, [
      "cores",
    ]);
  const extra = labs > 1 ? betweenLabs(r) : [];
  return answer({ from: "sampling and analysis together", parts: [part(r.together), ...extra], step: rounded }, [
    step("Standard deviation of a composite, sampling and analysis together", r.together),
    ...extra.map((e): Step => ({
      what: "Added because the results come from different laboratories",
      result: text(e),
      source: r.labs!.source,
      evidence: r.labs!.evidence,
    })),
  ]);
};

/**
 * The noise of one composite result: s^2 = core^2 / cores + laboratory^2. Three pairs of the farm's own duplicates replace
 * the published figures; else the first rule for the analyte and method is used: cores and laboratory where the cores are
 * counted, else the published figure for both together. No answer where nothing was published.
 */
export const noiseOf = (question: NoiseQuestion, rules: readonly NoiseRule[]): Outcome<Noise> => {
  const { analyte, method, duplicates = [] } = question;
  const rule = rules.find((r) => r.analyte === analyte && (!r.methods || r.methods.includes(method)));
  const measure = analytes[analyte].unit === "pH" ? "units" : "percent";
  const own = pooledDuplicates(duplicates, measure);
  const several = (question.labs ?? 1) > 1;
  if (own && !(several && betweenLabs(rule).length === 0)) return fromDuplicates(own, several ? betweenLabs(rule) : [], question.step ?? 0);
  const pairs = countPairs(duplicates);
  if (!rule)
    return noAnswer(
      `no figure for the noise of ${analyteInSentence(analyte)} is installed, and there are ${pairs === 0 ? "no duplicates" : `too few duplicates that differ (${pairs})`} to learn it from`,
      [`${fewestPairs} pairs of duplicates`],
    );
  const found = fromRule(rule, question);
  if (found.kind === "noAnswer" || pairs === 0) return found;
  const why = own
    ? "they are of one laboratory each, and these results are of several"
    : pairs < fewestPairs
      ? `${fewestPairs} are needed`
      : "they agree to the printed digit, and rounding hides how far they differ";
  return {
    ...found,
    steps: [
      ...found.steps,
      { what: "The farm's own duplicates are not used", result: `${pairs} ${pairs === 1 ? "pair" : "pairs"}`, note: why },
    ],
  };
};
