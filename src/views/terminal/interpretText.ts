import type { Advice } from "../../interpretation/advise.ts";
import { shortBases } from "../../interpretation/cations.ts";
import { cautions } from "../../interpretation/cautions.ts";
import { measurementLabel } from "../../interpretation/measurement.ts";
import type { Answer, NoAnswer } from "../../interpretation/outcome.ts";
import { weakestEvidence } from "../../interpretation/outcome.ts";
import type { NitrogenAdvice } from "../../interpretation/nitrogen/nitrogen.ts";
import { limeName } from "../../interpretation/rules/limeBasis.ts";
import { numberIds, wordIds } from "../../interpretation/rules/nitrateFacts.ts";
import type { NutrientRate } from "../../interpretation/rules/nutrientRate.ts";
import type { Sample } from "../../interpretation/sample.ts";
import { plain } from "../../interpretation/show.ts";
import type { UnitChoice } from "../../interpretation/unitChoices.ts";
import { costPerArea, money, unitChoices } from "../../interpretation/unitChoices.ts";
import type { Amount, RateUnit } from "../../interpretation/units.ts";
import { analyteInSentence, crops, nutrients } from "../../interpretation/vocabulary.ts";
import type { Farm } from "../../records/model.ts";
import { missingWords } from "../advice/missingWords.ts";
import { evidenceMark, sourceLink } from "../steps.ts";
import { limeRate, nutrientSpan, rateDecimals, roundedDown } from "../units.ts";
import { limeGoal } from "../advice/limeGoal.ts";
import { capital, list } from "../words.ts";
import { nitrogenAsked } from "./nitrogenAsked.ts";

type References = Farm["references"];

/** What to print in; without units, rates stand as the guideline prints them. */
interface WrittenIn {
  readonly units?: UnitChoice | undefined;
  readonly currency?: string | undefined;
}

/** What an adviser would read aloud: each class, each rate with its reason and how well it is known, cautions at the end. */
export const interpretText = (sample: Sample, advice: Advice, references: References, written: WrittenIn = {}): string => {
  const { crop } = sample.facts;
  const goal = sample.yieldGoal ? `, yield goal ${plain(sample.yieldGoal.value)} ${sample.yieldGoal.unit}` : "";
  const lines: string[] = [
    `${crop ? `${capital(crops[crop].label)}${goal}` : "No crop is named"}; read by ${list(
      sample.packs.map((p) => `${p.short}${p.status === "superseded" ? " (superseded)" : ""}`),
      "then",
    )}.`,
    "",
  ];
  for (const { measurement: m, outcome } of advice.ratings) {
    // A buffer pH is read for lime and never classed.
    if (m.analyte === "bufferPh") continue;
    const result = `${capital(analyteInSentence(m.analyte))}, ${measurementLabel(m)}`;
    if (outcome.kind === "noAnswer") lines.push(`${result}: no class, because ${outcome.because}.`);
    else {
      const told = m.analyte === "pH" || advice.rates.some((r) => r.analyte === m.analyte && r.outcome.kind === "answer");
      lines.push(`${result}: ${outcome.value.band}${known(outcome)}.${told ? "" : classNote(outcome)}`);
    }
  }
  const short = advice.cations.kind === "answer" ? shortBases(sample.packs, advice.cations.value) : [];
  lines.push(...short.map(({ what, result, source }) => `${what}: ${result} [${sourceLink(source, references)!.text}].`), "");
  for (const { nutrient, outcome, pack } of advice.rates) {
    const { label, symbol } = nutrients[nutrient];
    if (outcome.kind === "noAnswer") lines.push(refusal(`${label.toLowerCase()} rate`, outcome));
    else {
      lines.push(
        `${applyWords(outcome.value, `${label.toLowerCase()} (${symbol})`, written)}${says(pack)}${known(outcome)}.${doseWords(outcome.value, written)}`,
      );
      lines.push(...reasons(outcome, references));
    }
  }
  lines.push(
    ...nitrogenLines({ ...advice, nitrogen: nitrogenAsked(sample, advice) }, references, written),
    ...limeLines(advice, references, written),
  );
  lines.push("", "Cautions:", ...advice.cautions.map((id) => `- ${cautions[id].text}`));
  return `${lines.join("\n")}\n`;
};

/** "Apply 120 lb/ac of potash (K₂O)", "Apply no potash (K₂O)" */
const applyWords = (found: Pick<NutrientRate, "rate" | "to" | "atMost">, what: string, written: WrittenIn): string =>
  found.rate.value === 0 && found.to === undefined
    ? `Apply no ${what}`
    : `Apply ${found.atMost ? "at most " : ""}${rateWords(found, written)} of ${what}`;

const says = (pack: { readonly short: string } | undefined): string => (pack ? `, says ${pack.short}` : "");

const nitrogenLines = (advice: Advice, references: References, written: WrittenIn): string[] => [
  ...nitrogenRateLines(advice, references, written),
  ...(advice.nitrogenCredits ?? []).flatMap((credit) => creditLines(credit, references, written)),
];

const nitrogenRateLines = ({ nitrogen, nitrogenPack }: Advice, references: References, written: WrittenIn): string[] => {
  if (nitrogen === undefined) return [];
  if (nitrogen.kind === "noAnswer") return [refusal("nitrogen rate", nitrogen)];
  const { level } = nitrogen.value;
  const beware = nitrogen.cautions.map((c) => ` ${c.replace(/\.$/, "")}.`).join("");
  return [
    `${applyWords(nitrogen.value, "nitrogen (N)", written)}${level === undefined ? "" : `, at ${level}`}${says(nitrogenPack)}${known(nitrogen)}.${beware}`,
    ...reasons(nitrogen, references),
  ];
};

const creditLines = (
  { id, pack, outcome, measured }: NitrogenAdvice["nitrogenCredits"][number],
  references: References,
  written: WrittenIn,
): string[] => {
  const of = id === "legume" ? "the crop before" : "manure";
  if (outcome.kind === "noAnswer") return [refusal(`credit for ${of}`, outcome)];
  const amount = rateWords({ rate: { value: outcome.value.value, unit: "lb/ac" } }, written);
  const above = measured ? "; not off the rate above, whose test found that nitrogen in the soil already" : "";
  return [
    `Take ${amount} of nitrogen off a rate that does not count ${of}${says(pack)}${known(outcome)}${above}.`,
    ...reasons(outcome, references),
  ];
};

const limeLines = ({ lime, ratings }: Advice, references: References, { units, currency }: WrittenIn): string[] => {
  const said = (rate: Amount<RateUnit>, decimals: number): string =>
    units ? `${limeRate(rate, units).value} ${limeRate(rate, units).unit}` : `${plain(rate.value, decimals)} ${rate.unit}`;
  const cost = (perAcre: number): string =>
    units ? `${money(costPerArea(perAcre, units), currency, 2)} ${unitChoices[units].per}` : `${money(perAcre, currency, 2)} an acre`;
  const { needed, rates } = lime;
  if (needed.kind === "noAnswer") return [refusal("lime rate", needed)];
  if (needed.value === "none") return [`Apply no lime${known(needed)}.`, ...reasons(needed, references)];
  const { requirement, basis, target, pack } = needed.value;
  const goal = limeGoal(ratings, target).replace(/^, to/, " to");
  const need = (more: string): string[] => [
    `The soil needs ${said(requirement, 2)} of ${limeName(basis)}${goal}, says ${pack.short}${known(needed)}.${more}`,
    ...reasons(needed, references),
  ];
  const lines = rates.flatMap(({ material, outcome }) => {
    if (outcome.kind === "noAnswer") return [...need(""), refusal(`rate of ${material.name}`, outcome)];
    const { rate, applications, then, costPerAcre } = outcome.value;
    const priced = costPerAcre === undefined ? "" : `, ${cost(costPerAcre)}`;
    const split = applications.length > 1 ? `, in ${applications.length} applications of ${said(applications[0]!, 1)}` : "";
    const rest = applications.length > 1 && then ? ` ${then}` : "";
    return [
      `Spread ${said(rate, 1)} of ${material.name}${goal}${priced}${split}${says(pack)}${known(outcome)}.${rest}`,
      ...reasons(outcome, references),
    ];
  });
  return lines.length > 0 ? lines : need(" No liming material is named.");
};

/** "120 lb/ac", "20 to 40 kg/ha"; in the units wanted, where some are. */
const rateWords = ({ rate, to, atMost }: Pick<NutrientRate, "rate" | "to" | "atMost">, { units }: WrittenIn): string => {
  if (units) {
    const span = nutrientSpan({ rate, to, atMost }, units);
    return `${span.value} ${span.unit}`;
  }
  if (atMost) return `${roundedDown(rate.value, 0)} ${rate.unit}`;
  const shown = (n: number): string => plain(n, rateDecimals(n));
  return `${shown(rate.value)}${to === undefined ? "" : ` to ${shown(to)}`} ${rate.unit}`;
};

/** " In doses: 70 kg/ha for the first cut, 25 kg/ha for the second cut." and why a printed figure is doubtful. */
const doseWords = ({ doses, doubt, rate }: NutrientRate, written: WrittenIn): string =>
  [
    doses && ` In doses: ${doses.map((d) => `${rateWords({ rate: { value: d.value, unit: rate.unit } }, written)} ${d.when}`).join(", ")}.`,
    doubt && ` Doubtful: ${doubt}.`,
  ]
    .filter(Boolean)
    .join("");

/** A sample by itself has no field's file to add a fact to: what a nitrogen rule asks stands under `history`, and a manure's own under that. */
const inTheSample = (words: string): string => words.replace(/(the plan of )?field\.yaml/, "the sample's file");
const places = Object.fromEntries([
  ...[...numberIds, ...wordIds]
    .filter((id) => id !== "organicMatter" && id !== "texture")
    .map((id) => [id, `${id} under history in the sample's file`]),
  ...["nitrogen", "organicNitrogen", "species", "dryMatter"].map((id) => [id, `${id} of the manure under history in the sample's file`]),
]) as Readonly<Record<string, string>>;

const refusal = (what: string, { because, missing }: NoAnswer): string =>
  `No ${what}, because ${because}.${missing.length > 0 ? ` Missing: ${missingWords(missing, places).map(inTheSample).join(", ")}.` : ""}`;

const known = (outcome: Answer<unknown>): string => {
  const mark = evidenceMark(weakestEvidence(outcome.steps));
  return mark ? ` (${mark.words})` : "";
};

/** What the publication adds to its classes, where no rate or lime below repeats it: "warning" says little without it. */
const classNote = ({ steps }: Answer<unknown>): string => {
  const note = steps.at(-1)?.note;
  return note ? ` ${capital(note)}.` : "";
};

/** Each step on a line: what, the sum, the result, the condition or doubt that goes with it, and where it comes from. */
const reasons = ({ steps }: Answer<unknown>, references: References): string[] =>
  steps.map(({ what, expression, result, source, note }) => {
    const from = sourceLink(source, references)?.text;
    return `    ${what}: ${expression && !result.startsWith(`${expression} `) ? `${expression} = ` : ""}${result}${note ? ` (${note})` : ""}${from ? ` [${from}]` : ""}`;
  });
