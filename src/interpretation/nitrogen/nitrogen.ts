import type { Guideline, Section } from "../guideline.ts";
import type { Measurement } from "../measurement.ts";
import { depthIn } from "../measurement.ts";
import { nitrateNitrogen } from "./nitrateNitrogen.ts";
import type { NitrogenCredit, NitrogenQuestion } from "./nitrogenCredits.ts";
import { creditTakenOff, statedCredits } from "./nitrogenCredits.ts";
import type { Outcome } from "../outcome.ts";
import { noAnswer } from "../outcome.ts";
import { outsideLimits } from "../rules/limits.ts";
import { rateByNitrateLinear } from "../rules/nitrateLinear.ts";
import { rateByNitrateTable } from "../rules/nitrateTable.ts";
import type { NutrientRate } from "../rules/nutrientRate.ts";
import type { Credit } from "../rules/profileNitrate.ts";
import { rateByNitrogenNeed } from "../rules/nitrogenNeed.ts";
import { rateByNitrogenSupply } from "../rules/nitrogenSupply.ts";
import { rateByProfileNitrate } from "../rules/profileNitrate.ts";
import { rateByYieldLessNitrate } from "../rules/yieldLessNitrate.ts";
import type { CropId } from "../vocabulary.ts";
import type { Try } from "../firstAnswer.ts";
import { firstAnswer, unlessWithheld } from "../firstAnswer.ts";

/** A rate, and whose: slopes differ threefold between publications, so an answer always names its rule. */
export interface NitrogenRate extends NutrientRate {
  readonly guideline: string;
  readonly rule: string;
}

export interface NitrogenAdvice {
  /** Absent where none of the chosen guidelines has a nitrogen rule for the crop. */
  readonly nitrogen?: Outcome<NitrogenRate> | undefined;
  readonly nitrogenPack?: Guideline | undefined;
  /** Credits that a guideline states by themselves, for whoever sets the rate. */
  readonly nitrogenCredits: readonly NitrogenCredit[];
}

export const nitrogenKinds = [
  "nitrateLinear",
  "nitrateTable",
  "yieldLessNitrate",
  "profileNitrate",
  "nitrogenNeed",
  "nitrogenSupply",
] as const;
type NitrogenRule = Extract<Section, { kind: (typeof nitrogenKinds)[number] }>;

const cropsOf = (rule: NitrogenRule): readonly CropId[] | undefined =>
  rule.kind === "nitrogenNeed"
    ? rule.needs.map((n) => n.crop)
    : rule.kind === "nitrogenSupply"
      ? rule.crops.flatMap((c) => c.crops)
      : rule.kind === "profileNitrate"
        ? rule.crops
        : rule.limits.crops;

/** Does the rule read mineral nitrogen, and not nitrate? */
const readsMineral = ({ kind }: NitrogenRule): boolean => kind === "nitrogenNeed" || kind === "nitrogenSupply";

/** Rules in the pack's own order: where two could answer, the one that stands first does, and they are never joined. */
const rulesOf = (pack: Guideline): NitrogenRule[] =>
  pack.sections.filter((s): s is NitrogenRule => (nitrogenKinds as readonly string[]).includes(s.kind));

/** What the chosen guidelines say of nitrogen for one place. */
export const nitrogenAdvice = (packs: readonly Guideline[], asked: NitrogenQuestion): NitrogenAdvice => {
  const { measurements, steps } = nitrateNitrogen(asked.measurements);
  const question = { ...asked, measurements, mineral: asked.measurements.filter((m) => m.analyte === "mineralN") };
  const { crop } = question.facts;
  const tries = packs.flatMap((pack): Try<NitrogenRate>[] => {
    const rules = rulesOf(pack).filter((rule) => crop !== undefined && (cropsOf(rule)?.includes(crop) ?? true));
    const rule = rules.find((each) => fits(each, question, pack)) ?? rules[0];
    if (!rule) return [];
    const outcome = rateBy(rule, pack, packs, question);
    return [
      {
        pack,
        outcome:
          outcome.kind === "answer"
            ? {
                ...outcome,
                steps: [...(readsMineral(rule) ? [] : steps), ...outcome.steps],
                value: { ...outcome.value, guideline: pack.id, rule: rule.id },
              }
            : outcome,
      },
    ];
  });
  const best = tries.length === 0 ? undefined : firstAnswer(tries, nitrateUntested, question.facts);
  return { nitrogen: best?.outcome, nitrogenPack: best?.pack, nitrogenCredits: creditsBeside(best, packs, question) };
};

const nitrateUntested = noAnswer("nitrate was not tested", ["nitrateN"]);

/** The question, its nitrate as nitrate-N, and beside it the mineral nitrogen that other rules read. */
interface Parted extends NitrogenQuestion {
  readonly mineral: readonly Measurement[];
}

/** Was the sample taken for this rule: its method, unit and depth? A rule with a stand-in fits where nothing was tested. */
const fits = (rule: NitrogenRule, { measurements, mineral, facts }: Parted, pack: Guideline): boolean => {
  if (rule.kind === "nitrogenNeed" || rule.kind === "nitrogenSupply") return mineral.length > 0;
  const [m] = measurements;
  if (rule.kind !== "profileNitrate") return m !== undefined && outsideLimits(rule.limits, m, facts.crop, pack.short) === undefined;
  if (m === undefined) return rule.withoutTest.length > 0;
  return Math.max(...measurements.map((each) => depthIn(each.depth, "in").to)) >= rule.depth.least - 1;
};

/** The credits to show beside the rate: not those it takes off already, and with a word on those that its test measured. */
const creditsBeside = (
  best: ReturnType<typeof firstAnswer<NitrogenRate>> | undefined,
  packs: readonly Guideline[],
  question: NitrogenQuestion,
): NitrogenCredit[] => {
  const rate = best?.outcome.kind === "answer" ? best.outcome.value : undefined;
  const rule = rate && best?.pack && rulesOf(best.pack).find((each) => each.id === rate.rule);
  const takenOff = rule?.kind === "profileNitrate" ? rule.credits : [];
  const measured = rule !== undefined && rule.kind !== "profileNitrate";
  return packs
    .flatMap((pack) => statedCredits(pack, question))
    .filter(({ id }) => !takenOff.includes(id))
    .map((credit) => ({ ...credit, outcome: unlessWithheld(credit.outcome, question.facts), measured }));
};

const rateBy = (rule: NitrogenRule, pack: Guideline, packs: readonly Guideline[], question: Parted): Outcome<NutrientRate> => {
  const place = { facts: question.facts, history: question.history, yieldGoal: question.yieldGoal, pack: pack.short };
  if (rule.kind === "nitrogenNeed") return rateByNitrogenNeed(rule, question.mineral, place, question.manure ?? question.manureBefore);
  if (rule.kind === "nitrogenSupply") return rateByNitrogenSupply(rule, question.mineral, place);
  if (rule.kind === "profileNitrate") {
    const credits: Credit[] = [];
    for (const id of rule.credits) {
      const credit = creditTakenOff(id, pack, packs, question);
      if (credit.kind === "noAnswer") return credit;
      credits.push({ id, value: credit.value, steps: credit.steps, cautions: credit.cautions });
    }
    return rateByProfileNitrate(rule, question.measurements, place, credits);
  }
  const [m] = question.measurements;
  if (!m) return nitrateUntested;
  return rule.kind === "nitrateLinear"
    ? rateByNitrateLinear(rule, m, place)
    : rule.kind === "nitrateTable"
      ? rateByNitrateTable(rule, m, place)
      : rateByYieldLessNitrate(rule, m, place);
};
