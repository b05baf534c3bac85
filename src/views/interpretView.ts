import type { Advice } from "../interpretation/advise.ts";
import { cautions } from "../interpretation/cautions.ts";
import { measurementLabel } from "../interpretation/measurement.ts";
import type { Answer, NoAnswer, Outcome, Step } from "../interpretation/outcome.ts";
import { weakestEvidence } from "../interpretation/outcome.ts";
import { limeName } from "../interpretation/rules/limeBasis.ts";
import type { Sample } from "../interpretation/sample.ts";
import { pH, plain } from "../interpretation/show.ts";
import { analyteInSentence, crops, nutrients } from "../interpretation/vocabulary.ts";
import type { Farm } from "../records/model.ts";
import { evidenceMark, sourceLink } from "./steps.ts";
import { capital, list } from "./words.ts";

type References = Farm["references"];

/** What a sample came to, as data: the same keys in the same order on every machine. */
export const interpretJson = (sample: Sample, advice: Advice): object => {
  const { lime } = advice;
  return {
    guidelines: sample.packs.map((p) => p.id),
    ...(sample.facts.crop && { crop: sample.facts.crop }),
    ratings: Object.fromEntries(
      advice.ratings.map(({ measurement, outcome, pack }) => [
        measurement.analyte,
        asJson(outcome, (r) => ({ band: r.band, position: r.position, ...(pack && { guideline: pack.id }) })),
      ]),
    ),
    rates: Object.fromEntries(
      advice.rates.map(({ nutrient, outcome, pack }) => [nutrient, asJson(outcome, ({ rate, to }) => ({ value: rate.value, ...(to !== undefined && { to }), unit: rate.unit, ...(pack && { guideline: pack.id }) }))]),
    ),
    lime: {
      ...asJson(lime.needed, (need) =>
        need === "none" ? { requirement: "none" } : { requirement: { value: need.requirement.value, unit: need.requirement.unit }, ...(need.target !== undefined && { targetPh: need.target }), guideline: need.pack.id },
      ),
      ...(lime.rates[0] && { material: materialJson(lime.rates[0]) }),
    },
    ...(advice.cations.kind === "answer" && { cations: asJson(advice.cations, ({ cec, acidity, baseSaturation, saturation }) => ({ cec, acidity, baseSaturation, saturation })) }),
    ...nitrogenJson(advice),
    cautions: advice.cautions,
  };
};

/** The material at hand: tons of it as hauled, split where one application may not hold them. */
const materialJson = ({ material, outcome }: Advice["lime"]["rates"][number]): object => ({
  name: material.name,
  ...asJson(outcome, (r) => ({
    value: r.rate.value,
    unit: r.rate.unit,
    applications: r.applications.map((a) => a.value),
    ...(r.then && { then: r.then }),
    ...(r.costPerAcre !== undefined && { costPerAcre: r.costPerAcre }),
  })),
});

const nitrogenJson = ({ nitrogen, nitrogenCredits = [] }: Advice): Record<string, unknown> => ({
  ...(nitrogen && { nitrogen: asJson(nitrogen, ({ rate, guideline, rule }) => ({ value: rate.value, unit: rate.unit, guideline, rule })) }),
  ...(nitrogenCredits.length > 0 && { nitrogenCredits: nitrogenCredits.map(({ id, pack, outcome }) => ({ credit: id, guideline: pack.id, ...asJson(outcome, ({ value }) => ({ value, unit: "lb/ac" })) })) }),
});

const asJson = <T>(outcome: Outcome<T>, of: (value: T) => object): object =>
  outcome.kind === "answer"
    ? { ...of(outcome.value), steps: outcome.steps.map(stepJson), evidence: weakestEvidence(outcome.steps) }
    : { noAnswer: { because: outcome.because, missing: outcome.missing } };

const stepJson = ({ what, expression, result, source, evidence, note }: Step): object => ({ what, expression, result, source, evidence, note });

/** What an adviser would read aloud: each class, each rate with its reason and how well it is known, cautions at the end. */
export const interpretText = (sample: Sample, advice: Advice, references: References): string => {
  const { crop } = sample.facts;
  const goal = sample.yieldGoal ? `, yield goal ${plain(sample.yieldGoal.value)} ${sample.yieldGoal.unit}` : "";
  const lines: string[] = [`${crop ? `${capital(crops[crop].label)}${goal}` : "No crop is named"}; read by ${list(sample.packs.map((p) => `${p.short}${p.status === "superseded" ? " (superseded)" : ""}`), "then")}.`, ""];
  for (const { measurement: m, outcome } of advice.ratings) {
    // A buffer pH is read for lime and never classed.
    if (m.analyte === "bufferPh") continue;
    const result = `${capital(analyteInSentence(m.analyte))}, ${measurementLabel(m)}`;
    lines.push(outcome.kind === "answer" ? `${result}: ${outcome.value.band}${known(outcome)}.` : `${result}: no class, because ${outcome.because}.`);
  }
  lines.push("");
  for (const { nutrient, outcome, pack } of advice.rates) {
    const { label, symbol } = nutrients[nutrient];
    if (outcome.kind === "noAnswer") lines.push(refusal(`${label.toLowerCase()} rate`, outcome));
    else {
      const { rate, to } = outcome.value;
      const shown = (n: number): string => plain(n, n < 10 ? 1 : 0);
      const amount = `${shown(rate.value)}${to === undefined ? "" : ` to ${shown(to)}`}`;
      lines.push(`${rate.value === 0 && to === undefined ? `Apply no ${label.toLowerCase()} (${symbol})` : `Apply ${amount} ${rate.unit} of ${label.toLowerCase()} (${symbol})`}${pack ? `, says ${pack.short}` : ""}${known(outcome)}.`);
      lines.push(...reasons(outcome, references));
    }
  }
  lines.push(...nitrogenLines(advice, references), ...limeLines(advice, references));
  lines.push("", "Cautions:", ...advice.cautions.map((id) => `- ${cautions[id]}`));
  return `${lines.join("\n")}\n`;
};

const nitrogenLines = ({ nitrogen, nitrogenPack, nitrogenCredits = [] }: Advice, references: References): string[] => [
  ...(nitrogen === undefined
    ? []
    : nitrogen.kind === "noAnswer"
      ? [refusal("nitrogen rate", nitrogen)]
      : [
          `${nitrogen.value.rate.value === 0 ? "Apply no nitrogen (N)" : `Apply ${plain(nitrogen.value.rate.value, 0)} ${nitrogen.value.rate.unit} of nitrogen (N)`}${nitrogenPack ? `, says ${nitrogenPack.short}` : ""}${known(nitrogen)}. ${nitrogen.cautions.map((c) => `${c.replace(/\.$/, "")}.`).join(" ")}`.trimEnd(),
          ...reasons(nitrogen, references),
        ]),
  ...nitrogenCredits.flatMap(({ id, pack, outcome, measured }) =>
    outcome.kind === "noAnswer"
      ? [refusal(`credit for ${id === "legume" ? "the crop before" : "manure"}`, outcome)]
      : [`Take ${plain(outcome.value.value, 0)} lb/ac of nitrogen off a rate that does not count ${id === "legume" ? "the crop before" : "manure"}, says ${pack.short}${known(outcome)}${measured ? "; not off the rate above, whose test found that nitrogen in the soil already" : ""}.`, ...reasons(outcome, references)],
  ),
];

const limeLines = ({ lime }: Advice, references: References): string[] => {
  const { needed, rates } = lime;
  if (needed.kind === "noAnswer") return [refusal("lime rate", needed)];
  if (needed.value === "none") return [`Apply no lime${known(needed)}.`, ...reasons(needed, references)];
  const { requirement, basis, target, pack } = needed.value;
  const goal = target === undefined ? "" : ` to reach pH ${pH(target)}`;
  const lines = rates.flatMap(({ material, outcome }) => {
    if (outcome.kind === "noAnswer") return [refusal(`rate of ${material.name}`, outcome)];
    const { rate, applications, then, costPerAcre } = outcome.value;
    const split = applications.length > 1 ? `, in ${applications.length} applications of ${plain(applications[0]!.value, 1)} ${rate.unit}. ${then ?? ""}` : "";
    return [`Spread ${plain(rate.value, 1)} ${rate.unit} of ${material.name}${goal}${costPerAcre === undefined ? "" : `, ${plain(costPerAcre, 2)} an acre`}${split}, says ${pack.short}${known(outcome)}.`, ...reasons(outcome, references)];
  });
  if (lines.length > 0) return lines;
  return [`The soil needs ${plain(requirement.value, 2)} ${requirement.unit} of ${limeName(basis)}${goal}, says ${pack.short}${known(needed)}. No liming material is named.`, ...reasons(needed, references)];
};

const refusal = (what: string, { because, missing }: NoAnswer): string => `No ${what}, because ${because}.${missing.length > 0 ? ` Missing: ${missing.join(", ")}.` : ""}`;

const known = (outcome: Answer<unknown>): string => {
  const mark = evidenceMark(weakestEvidence(outcome.steps));
  return mark ? ` (${mark.words})` : "";
};

/** Each step on a line: what, the sum, the result, and where it comes from. */
const reasons = ({ steps }: Answer<unknown>, references: References): string[] =>
  steps.map(({ what, expression, result, source }) => {
    const from = sourceLink(source, references)?.text;
    return `    ${what}: ${expression && !result.startsWith(`${expression} `) ? `${expression} = ` : ""}${result}${from ? ` [${from}]` : ""}`;
  });
