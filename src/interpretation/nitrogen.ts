import type { CautionId } from "./cautions.ts";
import type { Guideline, Section } from "./guideline.ts";
import { sectionsOf } from "./guideline.ts";
import type { Measurement } from "./measurement.ts";
import { depthIn } from "./measurement.ts";
import type { Answer, NoAnswer, Outcome } from "./outcome.ts";
import { answer, noAnswer } from "./outcome.ts";
import type { Facts } from "./rules/conditions.ts";
import { creditOfLegume, isLegume } from "./rules/legumeCredit.ts";
import { outsideLimits } from "./rules/limits.ts";
import type { ManureSpread } from "./rules/manureAvailability.ts";
import { nitrogenOfManure } from "./rules/manureAvailability.ts";
import type { NitrateHistory } from "./rules/nitrateFacts.ts";
import { historyStep } from "./rules/nitrateFacts.ts";
import { rateByNitrateLinear } from "./rules/nitrateLinear.ts";
import { rateByNitrateTable } from "./rules/nitrateTable.ts";
import type { NutrientRate } from "./rules/nutrientRate.ts";
import type { Credit, CreditId, ProfileNitrateRule } from "./rules/profileNitrate.ts";
import { rateByProfileNitrate } from "./rules/profileNitrate.ts";
import { rateByYieldLessNitrate } from "./rules/yieldLessNitrate.ts";
import type { Try } from "./sample.ts";
import { firstAnswer } from "./sample.ts";
import type { Amount, YieldUnit } from "./units.ts";
import type { CropId } from "./vocabulary.ts";
import { crops } from "./vocabulary.ts";

/** A place's question for nitrogen: its newest nitrate test with the crop that stood then, or the next crop without a test. */
export interface NitrogenQuestion {
  /** Nitrate-N of one day; empty where it was not tested. */
  readonly measurements: readonly Measurement[];
  readonly facts: Facts;
  readonly history: NitrateHistory;
  readonly yieldGoal: Amount<YieldUnit> | undefined;
  /** Manure of this season and the two before; `undefined` where the seasons are not recorded. */
  readonly manure: readonly ManureSpread[] | undefined;
}

/** A rate, and whose: slopes differ threefold between publications, so an answer always names its rule. */
export interface NitrogenRate extends NutrientRate {
  readonly guideline: string;
  readonly rule: string;
}

export interface NitrogenCredit {
  readonly id: CreditId;
  readonly outcome: Outcome<{ readonly value: number }>;
  readonly pack: Guideline;
}

export interface NitrogenAdvice {
  /** Absent where none of the chosen guidelines has a nitrogen rule for the crop. */
  readonly nitrogen?: Outcome<NitrogenRate> | undefined;
  readonly nitrogenPack?: Guideline | undefined;
  /** Credits that a guideline states by themselves, for whoever sets the rate. */
  readonly nitrogenCredits: readonly NitrogenCredit[];
}

const kinds = ["nitrateLinear", "nitrateTable", "yieldLessNitrate", "profileNitrate"] as const;
type NitrogenRule = Extract<Section, { kind: (typeof kinds)[number] }>;

/** Crops that fix nitrogen: after any other crop a legume credit is nothing. */
const legumes: readonly CropId[] = ["alfalfa", "soybean", "dryBeans"];

const cropsOf = (rule: NitrogenRule): readonly CropId[] | undefined => (rule.kind === "profileNitrate" ? rule.crops : rule.limits.crops);

/** Rules in the pack's own order: where two could answer, the one that stands first does, and they are never joined. */
const rulesOf = (pack: Guideline): NitrogenRule[] => pack.sections.filter((s): s is NitrogenRule => (kinds as readonly string[]).includes(s.kind));

/** What the chosen guidelines say of nitrogen for one place. */
export const nitrogenAdvice = (packs: readonly Guideline[], question: NitrogenQuestion): NitrogenAdvice => {
  const { crop } = question.facts;
  const tries = packs.flatMap((pack): (Try<NitrogenRate>)[] => {
    const rules = rulesOf(pack).filter((rule) => crop !== undefined && (cropsOf(rule)?.includes(crop) ?? true));
    const rule = rules.find((each) => fits(each, question, pack)) ?? rules[0];
    if (!rule) return [];
    const outcome = rateBy(rule, pack, question);
    return [{ pack, outcome: outcome.kind === "answer" ? { ...outcome, value: { ...outcome.value, guideline: pack.id, rule: rule.id } } : outcome }];
  });
  const best = tries.length === 0 ? undefined : firstAnswer(tries, noAnswer("nitrate was not tested", ["nitrateN"]));
  return { nitrogen: best?.outcome, nitrogenPack: best?.pack, nitrogenCredits: packs.flatMap((pack) => ownCredits(pack, question)) };
};

/** Was the sample taken for this rule: its method, unit and depth? A rule with a stand-in fits where nothing was tested. */
const fits = (rule: NitrogenRule, { measurements, facts }: NitrogenQuestion, pack: Guideline): boolean => {
  const [m] = measurements;
  if (rule.kind !== "profileNitrate") return m !== undefined && outsideLimits(rule.limits, m, facts.crop, pack.short) === undefined;
  if (m === undefined) return rule.withoutTest.length > 0;
  return Math.max(...measurements.map((each) => depthIn(each.depth, "in").to)) >= rule.depth.least - 1;
};

const rateBy = (rule: NitrogenRule, pack: Guideline, question: NitrogenQuestion): Outcome<NutrientRate> => {
  const place = { facts: question.facts, history: question.history, yieldGoal: question.yieldGoal, pack: pack.short };
  if (rule.kind === "profileNitrate") {
    const credits: Credit[] = [];
    for (const id of rule.credits) {
      const credit = creditFor(id, rule, pack, question);
      if (credit.kind === "noAnswer") return credit;
      credits.push({ id, value: credit.value, steps: credit.steps, cautions: credit.cautions });
    }
    return rateByProfileNitrate(rule, question.measurements, place, credits);
  }
  const [m] = question.measurements;
  if (!m) return noAnswer("nitrate was not tested", ["nitrateN"]);
  return rule.kind === "nitrateLinear" ? rateByNitrateLinear(rule, m, place) : rule.kind === "nitrateTable" ? rateByNitrateTable(rule, m, place) : rateByYieldLessNitrate(rule, m, place);
};

/** A credit that a rule takes off, from the same guideline; nothing where the records show that it cannot apply. */
const creditFor = (id: CreditId, rule: ProfileNitrateRule, pack: Guideline, question: NitrogenQuestion): Answer<number> | NoAnswer => {
  const { history, manure } = question;
  if (id === "legume") {
    const previous = history.previousCrop;
    if (!previous) return noAnswer(`the crop before is not recorded, and ${pack.short} takes its credit off`, ["previousCrop"]);
    const crop = previous.value as CropId;
    if (!legumes.includes(crop)) return answer(0, [historyStep("previousCrop", history), { what: `No legume credit after ${crops[crop].label}`, result: "0 lb N/ac" }]);
    const table = sectionsOf(pack, "legumeCredit")[0];
    if (!table) return noAnswer(`${pack.short} takes a legume credit off and its values are not here`, [`a credit after ${crops[crop].label}`]);
    const found = creditOfLegume(table, history, pack.short);
    return found.kind === "answer" ? { ...found, value: found.value.credit } : found;
  }
  if (!manure) return noAnswer(`the seasons before are not all recorded, and ${pack.short} takes the nitrogen of manure off`, ["the seasons of the last three years"]);
  if (manure.length === 0) return answer(0, [{ what: "No manure in this season and the two before", result: "0 lb N/ac" }]);
  const table = sectionsOf(pack, "manureAvailability")[0];
  return table ? nitrogenOfManure(table, manure, pack.short) : noAnswer(`manure was spread, and the values by which ${pack.short} takes it off are not here (rule ${rule.id})`, ["a release of manure nitrogen"]);
};

/** Credits of a guideline that states them without a rate of its own, or beside rates that do not take them off. */
const ownCredits = (pack: Guideline, { facts, history, manure }: NitrogenQuestion): NitrogenCredit[] => {
  const taken = sectionsOf(pack, "profileNitrate").flatMap((rule) => (facts.crop && rule.crops.includes(facts.crop) ? rule.credits : []));
  const previous = history.previousCrop?.value as CropId | undefined;
  const legume = taken.includes("legume")
    ? []
    : sectionsOf(pack, "legumeCredit")
        .filter((rule) => previous !== undefined && isLegume(rule, previous) && (rule.before === undefined || (facts.crop !== undefined && rule.before.includes(facts.crop))))
        .map((rule): NitrogenCredit => {
          const found = creditOfLegume(rule, history, pack.short);
          return { id: "legume", pack, outcome: found.kind === "answer" ? { ...found, value: { value: found.value.credit } } : found };
        });
  const spread = taken.includes("manure") || !manure || manure.length === 0 ? [] : sectionsOf(pack, "manureAvailability");
  return [
    ...legume,
    ...spread.map((rule): NitrogenCredit => {
      const found = nitrogenOfManure(rule, manure!, pack.short);
      return { id: "manure", pack, outcome: found.kind === "answer" ? { ...found, value: { value: found.value } } : found };
    }),
  ];
};

/** Crops that are fed whole: nitrate in them can poison cattle. */
const fedWhole: readonly CropId[] = ["cornSilage", "grassHay", "grassPasture", "forageMaize", "grassSilageOneCut", "grassSilageTwoCuts", "grassSilageThreeCuts", "grassSilageFourCuts"];

interface Trigger {
  readonly caution: CautionId;
  readonly when: (given: { readonly rate: number; readonly question: NitrogenQuestion }) => boolean;
}

/** Which caution stands beside nitrogen advice, and when. */
const triggers: readonly Trigger[] = [
  { caution: "anhydrousAmmonia", when: ({ rate }) => rate > 0 },
  { caution: "nitrateAndWells", when: ({ rate, question }) => rate > 0 || question.measurements.length > 0 },
  { caution: "manureBeforeHarvest", when: ({ question }) => (question.manure ?? []).some((m) => m.yearsAgo === 0) },
  { caution: "nitrateInForage", when: ({ rate, question }) => rate > 0 && question.facts.crop !== undefined && fedWhole.includes(question.facts.crop) },
];

export const nitrogenCautions = (advice: NitrogenAdvice, question: NitrogenQuestion): CautionId[] => {
  const rate = advice.nitrogen?.kind === "answer" ? advice.nitrogen.value.rate.value : 0;
  return triggers.filter((t) => t.when({ rate, question })).map((t) => t.caution);
};
