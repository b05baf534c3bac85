import * as z from "zod";
import type { Measurement } from "../measurement.ts";
import { depthLabel } from "../measurement.ts";
import type { NoAnswer, Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { belowZero, plain } from "../show.ts";
import { convert, sameDimension } from "../units.ts";
import { cropIds, crops, methodIds } from "../vocabulary.ts";
import { resultStep } from "./bands.ts";
import { chooseRow, historySteps, nitrateWhen, notChosen } from "./factTests.ts";
import { noRuleFor } from "./limits.ts";
import { mineralNitrogen, spans } from "./mineralNitrogen.ts";
import type { ManureSpread } from "./manureAvailability.ts";
import type { NitrogenPlace } from "./nitrateFacts.ts";
import { atLeastNothing } from "./nitrateFacts.ts";
import type { NutrientRate } from "./nutrientRate.ts";
import { graded, provenance, sourcedDepth, sourcedNumber } from "./sourced.ts";

const forOtherYields = z
  .strictObject({
    step: z.number().positive().describe("t/ha of difference that more and less are printed for; less than a step counts in proportion"),
    more: z.number().nonnegative().describe("kg N/ha added for each step above the printed yield"),
    less: z.number().nonnegative().describe("kg N/ha taken off for each step below it"),
    ...provenance,
  })
  .check(graded);

const need = z
  .strictObject({
    crop: z.enum(cropIds),
    yield: z.number().positive().describe("t/ha that the need is printed for"),
    nitrogen: z.number().nonnegative().describe("kg N/ha"),
    otherYields: forOtherYields.optional().describe("absent: only the printed yield is answered"),
    ...provenance,
  })
  .check(graded);
type Need = z.infer<typeof need>;

const choice = z.strictObject({ when: nitrateWhen.optional(), value: z.number().nonnegative().describe("kg N/ha taken off") });
const deduction = z.strictObject({ name: z.string().min(1), choices: z.array(choice).min(1), ...provenance }).check(graded);

/** Nitrogen that a crop needs at a printed yield, for the field's own yield, less what the soil holds and will still give; in kg/ha. */
export const nitrogenNeedRule = z
  .strictObject({
    kind: z.literal("nitrogenNeed"),
    id: z.string(),
    unit: z.literal("kg/ha"),
    method: z.enum(methodIds).describe("of the mineral nitrogen (mineralN) that is taken off as it is"),
    depth: sourcedDepth.describe("of the sample that holds it; the layers of one are recorded as their sum"),
    needs: z
      .array(need)
      .min(1)
      .refine((all) => new Set(all.map((n) => n.crop)).size === all.length, "names a crop twice"),
    atMost: z.boolean().optional().describe("true: the sum is the most that a law allows, and pages say so"),
    mostAdded: sourcedNumber.optional().describe("kg N/ha that a higher yield adds at most"),
    deductions: z.array(deduction).default([]).describe("by what is known of the field; in each the first choice whose tests all hold"),
    manureBefore: sourcedNumber.optional().describe("percent of the total nitrogen in manure spread for the crop before, taken off"),
    cautions: z.array(z.string().min(1)).default([]).describe("stand beside every rate: how it is meant, and what the sum leaves out"),
  })
  .check(({ value, issues }) => {
    value.needs.forEach(({ crop }, i) => {
      if (crops[crop].yieldUnit !== "t/ha")
        issues.push({
          code: "custom",
          input: value,
          path: ["needs", i, "crop"],
          message: `the yield of ${crops[crop].label} is in ${crops[crop].yieldUnit}, and the table is by t/ha`,
        });
    });
  });
export type NitrogenNeedRule = z.infer<typeof nitrogenNeedRule>;

/** One line of the sum: what it adds, or takes off where it is below nothing. */
interface Term {
  readonly value: number;
  readonly steps: readonly Step[];
}

const kg = (value: number): string => `${plain(value, 1)} kg N/ha`;

const inSoil = (rule: NitrogenNeedRule, tests: readonly Measurement[], pack: string): Term | NoAnswer => {
  const m = mineralNitrogen(tests, [rule.method], depthLabel(rule.depth), (each) => spans(each, rule.depth), pack);
  // Of "less than", the number itself is taken off: a limit must not come out too high for what the laboratory could not see.
  return "kind" in m ? m : { value: -m.value, steps: [resultStep(m, "Mineral nitrogen in the soil")] };
};

const forYield = (rule: NitrogenNeedRule, row: Need, place: NitrogenPlace): readonly Term[] | NoAnswer => {
  const { yieldGoal, facts, pack } = place;
  const { label } = crops[row.crop];
  if (!yieldGoal) return noAnswer("no yield goal is set, and the need depends on the yield", ["yieldGoal"]);
  if (!sameDimension(yieldGoal.unit, "t/ha"))
    return noAnswer(`the yield is in ${yieldGoal.unit} and ${pack} reads t/ha`, ["a yield in t/ha"]);
  const goal = convert(yieldGoal.value, yieldGoal.unit, "t/ha");
  const { source, evidence, note } = row;
  const printed: Term = {
    value: row.nitrogen,
    steps: [{ what: `Need of ${label} at ${plain(row.yield)} t/ha`, result: kg(row.nitrogen), source, evidence, note }],
  };
  const difference = Number((goal - row.yield).toPrecision(12));
  if (difference === 0) return [printed];
  const other = row.otherYields;
  if (!other)
    return noAnswer(`the yield is ${plain(goal)} t/ha, and ${pack} prints the need of ${label} for ${plain(row.yield)} t/ha alone`, [
      `a yield of ${plain(row.yield)} t/ha`,
    ]);
  const higher = difference > 0;
  const each = higher ? other.more : other.less;
  const size = (Math.abs(difference) / other.step) * each;
  const most = higher && rule.mostAdded && size > rule.mostAdded.value ? rule.mostAdded : undefined;
  const value = most ? most.value : size;
  return [
    printed,
    {
      value: higher ? value : -value,
      steps: [
        { what: "Yield", result: `${plain(goal)} t/ha`, ...(facts.origins?.yieldGoal && { source: facts.origins.yieldGoal }) },
        {
          what: higher ? "More, for the higher yield" : "Less, for the lower yield",
          expression: `(${plain(higher ? goal : row.yield)} − ${plain(higher ? row.yield : goal)}) ÷ ${plain(other.step)} × ${plain(each)}`,
          result: kg(size),
          source: other.source,
          evidence: other.evidence,
          note: other.note,
        },
        ...(most
          ? [{ what: "A higher yield adds at most", result: kg(most.value), source: most.source, evidence: most.evidence, note: most.note }]
          : []),
      ],
    },
  ];
};

const deducted = (rule: NitrogenNeedRule, { history, pack }: NitrogenPlace): readonly Term[] | NoAnswer => {
  const terms: Term[] = [];
  for (const { name, choices, source, evidence, note } of rule.deductions) {
    const chosen = chooseRow(choices, history);
    const asked = choices.flatMap((c) => c.when ?? []);
    if (!chosen.found) {
      const [fact] = historySteps(asked, history);
      return chosen.missing !== undefined || !fact
        ? notChosen(chosen.missing, pack)
        : noAnswer(`${pack} prints no deduction ${name} where it is ${fact.result}`, [`a deduction for ${fact.result}`]);
    }
    const { value } = chosen.found;
    terms.push({
      value: -value,
      steps: [...historySteps(asked, history), { what: `Less ${name}`, result: kg(value), source, evidence, note }],
    });
  }
  return terms;
};

const manured = (
  { manureBefore }: NitrogenNeedRule,
  manure: readonly ManureSpread[] | undefined,
  pack: string,
): readonly Term[] | NoAnswer => {
  if (!manureBefore) return [];
  if (!manure) return noAnswer(`the season before is not recorded, and ${pack} takes nitrogen of its manure off`, ["the season before"]);
  const { source, evidence, note, value: percent } = manureBefore;
  const terms: Term[] = [];
  for (const spread of manure.filter((m) => m.yearsAgo === 1)) {
    if (spread.nitrogen === undefined) return noAnswer(`the total nitrogen of ${spread.name} is not recorded`, ["nitrogen"]);
    const brought = convert(spread.tonsPerAcre * spread.nitrogen, "lb/ac", "kg/ha");
    const value = (brought * percent) / 100;
    terms.push({
      value: -value,
      steps: [
        {
          what: `Total nitrogen of ${spread.name}, spread for the crop before`,
          result: kg(brought),
          ...(spread.source && { source: spread.source }),
        },
        {
          what: "Less, for that manure",
          expression: `${plain(brought, 1)} × ${plain(percent)} ÷ 100`,
          result: kg(value),
          source,
          evidence,
          note,
        },
      ],
    });
  }
  return terms.length > 0 ? terms : [{ value: 0, steps: [{ what: "No manure for the crop before", result: kg(0), source, evidence }] }];
};

/**
 * Nitrogen, kg/ha: the crop's need at the printed yield, more or less for the field's own, less mineral nitrogen, less what the
 * ground will still give by its humus, the crop before and its manure; never below nothing. No answer for a crop or a place that is
 * not printed, for another depth or method, or where a fact that a deduction hangs on is not recorded.
 */
export const rateByNitrogenNeed = (
  rule: NitrogenNeedRule,
  tests: readonly Measurement[],
  place: NitrogenPlace,
  manure: readonly ManureSpread[] | undefined,
): Outcome<NutrientRate> => {
  const { facts, pack } = place;
  if (facts.crop === undefined) return noAnswer("no crop is planned", ["crop"]);
  const row = rule.needs.find((n) => n.crop === facts.crop);
  if (!row)
    return noRuleFor(
      facts.crop,
      rule.needs.map((n) => n.crop),
      pack,
    );
  const terms: Term[] = [];
  for (const part of [forYield(rule, row, place), inSoil(rule, tests, pack), deducted(rule, place), manured(rule, manure, pack)]) {
    if ("kind" in part) return part;
    terms.push(...("steps" in part ? [part] : part));
  }
  const counted = terms.filter((t) => t.value !== 0);
  const raw = terms.reduce((sum, t) => sum + t.value, 0);
  const value = atLeastNothing(Number(raw.toPrecision(12)));
  const [first, ...rest] = counted;
  const sum = `${plain(first?.value ?? 0, 1)}${rest.map((t) => ` ${t.value < 0 ? "−" : "+"} ${plain(Math.abs(t.value), 1)}`).join("")}`;
  return answer(
    { rate: { value, unit: "kg/ha" }, ...(rule.atMost && { atMost: true }) },
    [
      ...terms.flatMap((t) => t.steps),
      raw <= 0
        ? { what: "The soil covers the need", expression: sum, result: `${belowZero(raw, 1)}${kg(0)}` }
        : { what: "Nitrogen", expression: sum, result: kg(value) },
    ],
    rule.cautions,
  );
};
