import * as z from "zod";
import type { Measurement } from "../measurement.ts";
import { boundWords, depthIn, depthLabel } from "../measurement.ts";
import type { NoAnswer, Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { plain } from "../show.ts";
import { convert, sameDimension, yieldUnits } from "../units.ts";
import { cropIds, methodIds, methods } from "../vocabulary.ts";
import { resultStep } from "./bands.ts";
import type { NitrogenPlace } from "./nitrateFacts.ts";
import { chooseRow, historySteps, nitrateWhen, notChosen } from "./factTests.ts";
import { atLeastNothing } from "./nitrateFacts.ts";
import { noRuleFor } from "./limits.ts";
import { checkPreconditions, precondition } from "./preconditions.ts";
import type { NutrientRate } from "./nutrientRate.ts";
import { graded, provenance, sourcedNumber } from "./sourced.ts";
import { goalInPounds, nitrogenForYield, yieldTable } from "./yieldTable.ts";

const fallback = z.strictObject({ when: nitrateWhen.optional(), value: z.number().nonnegative(), ...provenance }).check(graded);
export const creditIds = ["legume", "manure"] as const;
export type CreditId = (typeof creditIds)[number];

/** Nitrogen by what the yield takes, less nitrate in two feet or more of soil, less organic matter and credits. */
export const profileNitrateRule = z
  .strictObject({
    kind: z.literal("profileNitrate"),
    id: z.string(),
    unit: z.literal("lb/ac"),
    crops: z.array(z.enum(cropIds)).min(1),
    method: z.enum(methodIds),
    requires: z.array(precondition).default([]),
    depth: z
      .strictObject({ least: z.number().positive(), most: z.number().positive(), ...provenance })
      .check(graded)
      .describe("inches from the surface"),
    yieldUnit: z.enum(yieldUnits),
    poundsPerBushel: sourcedNumber.optional().describe("where the yield is counted in lb/ac and records count the crop in bushels"),
    constant: sourcedNumber.optional().describe("lb N an acre"),
    perYield: sourcedNumber.optional().describe("lb N an acre per unit of yield"),
    byYield: yieldTable.optional().describe("in place of perYield: lb N an acre as printed for some yields"),
    nitrate: z
      .strictObject({ per: z.enum(["ppm", "lb/ac"]), factor: z.number().positive(), ...provenance })
      .check(graded)
      .describe("lb N an acre for each ppm, or for each lb/ac in the depth"),
    poundsPerPpmFoot: sourcedNumber.optional().describe("turns ppm into lb/ac for each foot sampled"),
    withoutTest: z.array(fallback).default([]).describe("ppm where no deep sample was taken"),
    organicMatter: z
      .strictObject({
        perYield: z.number().positive().describe("lb N an acre for each percent and unit of yield"),
        floor: z.number().nonnegative(),
        cap: z.number().positive(),
        withoutTest: z.array(fallback).default([]),
        ...provenance,
      })
      .check(graded)
      .optional(),
    credits: z.array(z.enum(creditIds)).default([]),
    leftOut: z.array(z.string().min(1)).default([]).describe("parts of the publication's sum whose values are not here; each is a caution"),
  })
  .refine((r) => (r.perYield === undefined) !== (r.byYield === undefined), {
    path: ["perYield"],
    error: "needs perYield or byYield, and not both",
  });
export type ProfileNitrateRule = z.infer<typeof profileNitrateRule>;

/** A credit that was worked out, or that does not apply: then `value` is 0 and the step says why. */
export interface Credit {
  readonly id: CreditId;
  readonly value: number;
  readonly steps: readonly Step[];
  readonly cautions?: readonly string[] | undefined;
}

/**
 * Layers from the surface down as one: the mean of their ppm by depth, and the depth they reach, in inches.
 * A gap, an overlap, or a start below the surface gives no mean.
 */
const weightedLayers = (layers: readonly Measurement[]): { mean: number; to: number; steps: Step[] } | NoAnswer => {
  const sorted = layers.map((m) => ({ m, ...depthIn(m.depth, "in") })).sort((a, b) => a.from - b.from);
  let at = 0;
  for (const { m, from, to } of sorted) {
    if (m.qualifier) return noAnswer(`${boundWords(m)}, and the rule reads a number`, ["nitrateN as a number"]);
    if (Math.abs(from - at) > 1e-3)
      return noAnswer(`the layer ${depthLabel(m.depth)} does not begin where the one above it ends, so it is no profile`, [
        "layers without a gap",
      ]);
    at = to;
  }
  const mean = sorted.reduce((sum, { m, from, to }) => sum + m.value * (to - from), 0) / at;
  const steps = sorted.map(({ m }) => resultStep(m, `Nitrate-N, ${depthLabel(m.depth)}`));
  if (sorted.length > 1)
    steps.push({
      what: "Mean by depth",
      expression: `(${sorted.map(({ m, from, to }) => `${plain(m.value)} × ${plain(to - from)}`).join(" + ")}) ÷ ${plain(at)}`,
      result: `${plain(mean, 2)} ppm`,
    });
  return { mean, to: at, steps };
};

interface Found {
  readonly value: number;
  readonly steps: readonly Step[];
}

const soilNitrate = (rule: ProfileNitrateRule, layers: readonly Measurement[], { history, pack }: NitrogenPlace): Found | NoAnswer => {
  if (layers.length === 0) {
    if (rule.withoutTest.length === 0) return noAnswer("nitrate was not tested", ["nitrateN"]);
    const chosen = chooseRow(rule.withoutTest, history);
    if (!chosen.found)
      return chosen.missing
        ? notChosen(chosen.missing, pack)
        : noAnswer(`nitrate was not tested, and ${pack} prints nothing to put in its place for this soil`, ["nitrateN"]);
    const { value, source, evidence, note, when } = chosen.found;
    return {
      value,
      steps: [
        ...historySteps(when ?? [], history),
        { what: "Nitrate-N taken without a deep sample", result: `${plain(value)} ppm`, source, evidence, note },
      ],
    };
  }
  const [first] = layers;
  if (layers.some((m) => m.method !== rule.method))
    return noAnswer(`nitrate was measured by ${methods[first!.method].label} and ${pack} reads ${methods[rule.method].label}`, [
      `nitrateN by ${methods[rule.method].label}`,
    ]);
  const inPounds = first!.unit === "lb/ac";
  const other = layers.find((m) => m.unit !== first!.unit);
  if (other)
    return noAnswer(`one layer is in ${first!.unit} and another in ${other.unit}, and layers of two units have no mean`, [
      "layers in one unit",
    ]);
  if (!inPounds && first!.unit !== "ppm") return noAnswer(`the result is in ${first!.unit} and ${pack} reads ppm`, ["nitrateN in ppm"]);
  const deep = weightedLayers(layers);
  if ("kind" in deep) return deep;
  if (deep.to < rule.depth.least - 1 || deep.to > rule.depth.most + 1) {
    const wanted =
      rule.depth.least === rule.depth.most ? `${plain(rule.depth.least)} in` : `${plain(rule.depth.least)} to ${plain(rule.depth.most)} in`;
    return noAnswer(`the sample was taken to ${plain(deep.to, 1)} in and ${pack} asks for ${wanted}`, [`a sample ${wanted} deep`]);
  }
  if (rule.nitrate.per === "ppm")
    return inPounds
      ? noAnswer(`the result is in lb/ac and ${pack} reads ppm`, ["nitrateN in ppm"])
      : { value: deep.mean, steps: deep.steps };
  if (inPounds) {
    const sum = layers.reduce((total, m) => total + m.value, 0);
    return { value: sum, steps: [...layers.map((m) => resultStep(m, `Nitrate-N, ${depthLabel(m.depth)}`))] };
  }
  const factor = rule.poundsPerPpmFoot;
  if (!factor) return noAnswer(`the result is in ppm and ${pack} reads lb/ac`, ["nitrateN in lb/ac"]);
  const feet = deep.to / 12;
  const value = deep.mean * factor.value * feet;
  const step: Step = {
    what: "Nitrate-N in the depth sampled",
    expression: `${plain(deep.mean, 2)} × ${plain(factor.value)} × ${plain(feet, 2)} ft`,
    result: `${plain(value, 1)} lb/ac`,
    source: factor.source,
    evidence: factor.evidence,
    note: factor.note,
  };
  return { value, steps: [...deep.steps, step] };
};

const soilOrganicMatter = (rule: ProfileNitrateRule, { history, pack }: NitrogenPlace): Found | NoAnswer | undefined => {
  const term = rule.organicMatter;
  if (!term) return undefined;
  const from = { source: term.source, evidence: term.evidence };
  const steps: Step[] = [];
  let stated = history.organicMatter?.value;
  if (stated === undefined) {
    const chosen = chooseRow(term.withoutTest, history);
    if (!chosen.found)
      return term.withoutTest.length === 0 ? noAnswer("organic matter was not tested", ["organicMatter"]) : notChosen(chosen.missing, pack);
    const { value, source, evidence, note, when } = chosen.found;
    stated = value;
    steps.push(...historySteps(when ?? [], history), {
      what: "Organic matter taken without a test",
      result: `${plain(value)} %`,
      source,
      evidence,
      note,
    });
  } else steps.push(...historySteps([{ fact: "organicMatter", from: 0 }], history));
  const value = Math.min(term.cap, Math.max(term.floor, stated));
  if (value !== stated) steps.push({ what: value === term.cap ? "Counted up to" : "Counted from", result: `${plain(value)} %`, ...from });
  return { value, steps };
};

/**
 * Nitrogen, lb/ac: constant + a x yield - b x nitrate - c x yield x organic matter - credits, never below nothing. Where the
 * publication prints nitrogen for some yields in place of a x yield, only a yield it prints is answered.
 * `layers`: nitrate-N from the surface down, in ppm (their mean by depth) or lb/ac (their sum); none: the publication's own
 * stand-in where it has one. Organic matter is held between the printed floor and cap. Every credit the rule names must be
 * handed in. No answer for another crop, a shallower or deeper sample, no yield goal, or a failed condition.
 */
export const rateByProfileNitrate = (
  rule: ProfileNitrateRule,
  layers: readonly Measurement[],
  place: NitrogenPlace,
  credits: readonly Credit[] = [],
): Outcome<NutrientRate> => {
  const { pack, history, yieldGoal, facts } = place;
  if (facts.crop === undefined) return noAnswer("no crop is planned", ["crop"]);
  if (!rule.crops.includes(facts.crop)) return noRuleFor(facts.crop, rule.crops, pack);
  const checked = checkPreconditions(rule.requires, history, pack);
  if (checked.refused) return checked.refused;
  const nitrate = soilNitrate(rule, layers, place);
  if ("kind" in nitrate) return nitrate;
  if (!yieldGoal) return noAnswer("no yield goal is set, and the rate depends on the yield", ["yieldGoal"]);
  const pounds =
    rule.poundsPerBushel && yieldGoal.unit === "bu/ac" && rule.yieldUnit === "lb/ac"
      ? goalInPounds(yieldGoal.value, rule.poundsPerBushel, rule.byYield)
      : undefined;
  if (!pounds && !sameDimension(yieldGoal.unit, rule.yieldUnit))
    return noAnswer(`the yield is in ${yieldGoal.unit} and ${pack} reads ${rule.yieldUnit}`, [`a yield in ${rule.yieldUnit}`]);
  const organic = soilOrganicMatter(rule, place);
  if (organic && "kind" in organic) return organic;
  const lacking = rule.credits.find((id) => !credits.some((c) => c.id === id));
  if (lacking) return noAnswer(`the credit for ${lacking} is not known, and ${pack} takes it off`, [`a ${lacking} credit`]);
  const goal = pounds ? pounds.goal : convert(yieldGoal.value, yieldGoal.unit, rule.yieldUnit);
  const printed = rule.byYield && nitrogenForYield(rule.byYield, goal, rule.yieldUnit, pack, pounds?.asked);
  if (printed?.kind === "noAnswer") return printed;
  const counted = credits.filter((c) => rule.credits.includes(c.id));
  const steps: Step[] = [...checked.steps, ...nitrate.steps, ...(organic?.steps ?? []), ...counted.flatMap((c) => c.steps)];
  steps.push({
    what: "Yield goal",
    result: pounds ? `${plain(yieldGoal.value)} ${yieldGoal.unit}` : `${plain(goal)} ${rule.yieldUnit}`,
    ...(facts.origins?.yieldGoal && { source: facts.origins.yieldGoal }),
  });
  if (pounds) steps.push(pounds.step);
  const plus: number[] = [];
  const term = (
    what: string,
    expression: string | undefined,
    value: number,
    from: { source: NonNullable<Step["source"]>; evidence?: Step["evidence"]; note?: string | undefined },
  ): number => {
    steps.push({
      what,
      ...(expression !== undefined && { expression }),
      result: `${plain(value, 1)} lb N/ac`,
      source: from.source,
      evidence: from.evidence,
      note: from.note,
    });
    return value;
  };
  if (rule.constant) plus.push(term("For every acre", undefined, rule.constant.value, rule.constant));
  if (rule.perYield)
    plus.push(term("For the yield", `${plain(rule.perYield.value)} × ${plain(goal)}`, rule.perYield.value * goal, rule.perYield));
  if (printed) {
    plus.push(printed.value);
    steps.push(...printed.steps);
  }
  const minus = [
    term(
      "Less, for nitrate",
      `${plain(rule.nitrate.factor)} × ${plain(nitrate.value, 2)}`,
      rule.nitrate.factor * nitrate.value,
      rule.nitrate,
    ),
  ];
  if (organic && rule.organicMatter)
    minus.push(
      term(
        "Less, for organic matter",
        `${plain(rule.organicMatter.perYield)} × ${plain(goal)} × ${plain(organic.value, 2)}`,
        rule.organicMatter.perYield * goal * organic.value,
        rule.organicMatter,
      ),
    );
  minus.push(...counted.map((c) => c.value).filter((v) => v > 0));
  const raw = plus.reduce((a, b) => a + b, 0) - minus.reduce((a, b) => a + b, 0);
  const value = atLeastNothing(raw);
  steps.push(
    raw <= 0
      ? { what: "Soil and credits cover the yield", result: "0 lb N/ac" }
      : {
          what: "Nitrogen",
          expression: `${plus.map((n) => plain(n, 1)).join(" + ")} − ${minus.map((n) => plain(n, 1)).join(" − ")}`,
          result: `${plain(value, 1)} lb N/ac`,
        },
  );
  return answer({ rate: { value, unit: "lb/ac" } }, steps, [
    ...checked.cautions,
    ...counted.flatMap((c) => c.cautions ?? []),
    ...rule.leftOut,
  ]);
};
