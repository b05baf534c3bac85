import type { Outcome } from "../../interpretation/outcome.ts";
import { crops, nitrogenFixers } from "../../interpretation/vocabulary.ts";
import type { Farm } from "../../records/model.ts";
import { leavesOut, leftOutForReader, noCropWords } from "../leftOut.ts";
import type { ZoneAdvice } from "./sample.ts";
import { missingWords } from "./missingWords.ts";
import { isPastNitrogen } from "./nitrogenHandled.ts";
import { outcomeEvidence, stepRows } from "../steps.ts";
import { nitrogenRate, nutrientRate } from "../units.ts";
import { list, longDate } from "../words.ts";
import type { NitrogenCredit } from "../../interpretation/nitrogen/nitrogenCredits.ts";
import type { AdviceRow } from "./adviceRow.ts";
import { spreadSinceTest } from "./nitrogenLimit.ts";

/** Where a person records what a nitrogen rule asks for. */
const places: Readonly<Record<string, string>> = {
  nitrateN: "a nitrate test",
  yieldGoal: "a yield goal in the plan of field.yaml",
  cropHeight: "cropHeight under nitrate in the sampling's file",
  hoursToLab: "hoursToLab under nitrate in the sampling's file",
  daysSinceRain: "daysSinceRain under nitrate in the sampling's file",
  rainOfNormal: "rainOfNormal under nitrate in the sampling's file",
  cropNitrogen: "cropNitrogen under nitrate in the sampling's file",
  shoots: "shoots on a square meter, or cropNitrogen, under nitrate in the sampling's file",
  greenAreaIndex: "greenAreaIndex, or cropNitrogen, under nitrate in the sampling's file",
  plannedNitrogen: "plannedNitrogen under nitrate in the sampling's file",
  previousCrop: "the crop before, in its season's file",
  "the season before": "the season before, with its manure or without, in its season's file",
  standDensity: "the stand of the crop before, in its season's file",
  standPercent: "the stand of the crop before, in its season's file",
  regrowth: "the regrowth of the crop before, in its season's file",
  nitrogen: "the analysis of the manure in farm.yaml",
  organicNitrogen: "ammoniumN of the manure in farm.yaml",
  species: "the species of the manure in farm.yaml",
  dryMatter: "the dryMatter of the manure in farm.yaml",
  texture: "the soil texture in field.yaml",
};

const isPast = (farm: Farm, { nitrogen, crop }: ZoneAdvice): boolean => isPastNitrogen(nitrogen, crop, farm.today);

/** "for corn 2025, now past" */
const cropBasis = (farm: Farm, zone: ZoneAdvice): string => {
  const asked = zone.nitrogen!;
  return asked.crop
    ? `for ${crops[asked.crop.crop].label} ${asked.crop.season}${isPast(farm, zone) ? ", now past" : ""}`
    : noCropWords(farm);
};

/** The same, and the test that it rests on: "for corn 2025, from the nitrate test of 11 June 2025". */
export const nitrogenBasis = (farm: Farm, zone: ZoneAdvice, without: string): string => {
  const { sampling } = zone.nitrogen!;
  const test = zone.nitrogenQuestion?.measurements.some((m) => m.analyte === "mineralN") ? "nitrogen" : "nitrate";
  return `${cropBasis(farm, zone)}${sampling ? `, from the ${test} test of ${longDate(sampling.date)}` : without}`;
};

const creditUse = (credit: number, measured: boolean): string => {
  if (credit === 0) return "nothing to be taken off";
  return measured
    ? "not to be taken off the rate above, whose test found that nitrogen in the soil already"
    : "to be taken off a rate that does not count it";
};

const creditRow = (farm: Farm, zone: ZoneAdvice, { id, outcome, pack, measured }: NitrogenCredit, index: number): AdviceRow => {
  const subject = id === "legume" ? "Nitrogen credit, crop before" : "Nitrogen credit, manure";
  const base = {
    id: `${zone.zone.id}-n-${id}-${index + 1}`,
    zone: zone.zone,
    subject,
    past: isPast(farm, zone),
    guideline: { id: pack.id, short: pack.short },
    evidence: outcomeEvidence(outcome),
  };
  if (outcome.kind === "noAnswer")
    return {
      ...base,
      value: "",
      unit: "",
      detail: "",
      none: `No ${id} credit, because ${outcome.because}.`,
      missing: missingWords(outcome.missing, places),
      steps: [],
    };
  const shown = nutrientRate({ value: outcome.value.value, unit: "lb/ac" }, farm.units);
  return {
    ...base,
    ...shown,
    detail: [`${cropBasis(farm, zone)}, ${creditUse(outcome.value.value, measured)}`, ...outcome.cautions].join(". "),
    none: undefined,
    missing: [],
    steps: stepRows(outcome.steps, farm.references),
  };
};

/** What settles nitrogen that no chosen guideline holds for a crop. */
export const nitrogenElsewhere = (label: string): string => `a guideline that tells nitrogen for ${label}, or your own plan for it`;

/** A row that only says why no guideline tells a rate. */
const silentRow = ({ zone }: ZoneAdvice, none: string, missing: readonly string[] = []): AdviceRow => ({
  id: `${zone.id}-n`,
  zone,
  subject: "Nitrogen (N)",
  value: "",
  unit: "",
  detail: "",
  none,
  missing,
  guideline: undefined,
  evidence: undefined,
  steps: [],
});

/** A test of nitrogen that no chosen guideline reads for the crop: without a word of it the crop would seem to need none, as a legume does. */
const unreadTest = (farm: Farm, zone: ZoneAdvice): AdviceRow[] => {
  const crop = zone.nitrogen?.crop;
  if (!crop || nitrogenFixers.has(crop.crop) || !zone.nitrogen.sampling || isPast(farm, zone)) return [];
  const { label } = crops[crop.crop];
  const none = `No nitrogen rate ${nitrogenBasis(farm, zone, "")}, because none of the chosen guidelines reads it for ${label}.`;
  return [silentRow(zone, none, [nitrogenElsewhere(label)])];
};

/** Nitrogen for a zone as rows of its advice: the rate and whose rule it is, or why there is none; credits beside it. */
export const nitrogenRows = (farm: Farm, zone: ZoneAdvice): AdviceRow[] => {
  const { nitrogen, nitrogenPack: pack, nitrogenCredits = [] } = zone.advice;
  if (leavesOut(farm, "nitrogen")) return [silentRow(zone, `Nitrogen is ${leftOutForReader}.`)];
  if (!zone.nitrogen) return [];
  const credits = nitrogenCredits.map((credit, i) => creditRow(farm, zone, credit, i));
  if (!nitrogen) return [...unreadTest(farm, zone), ...credits];
  const base = {
    id: `${zone.zone.id}-n`,
    zone: zone.zone,
    subject: "Nitrogen (N)",
    past: isPast(farm, zone),
    guideline: pack && { id: pack.id, short: pack.short },
    evidence: outcomeEvidence(nitrogen),
  };
  if (nitrogen.kind === "noAnswer")
    return [
      {
        ...base,
        value: "",
        unit: "",
        detail: "",
        none: `No nitrogen rate ${nitrogenBasis(farm, zone, "")}, because ${nitrogen.because}.`,
        missing: missingWords(nitrogen.missing, places),
        steps: [],
      },
      ...credits,
    ];
  const shown = nitrogenRate(nitrogen.value, farm.units);
  const past = isPast(farm, zone);
  const doubts = nitrogen.cautions.map((c) => c.replace(/\.$/, ""));
  const spread = past ? [] : spreadSinceTest(farm, zone);
  const detail = [
    `${nitrogen.value.atMost ? "at most, " : ""}${nitrogenBasis(farm, zone, ", without a nitrogen test")}${nitrogen.value.level === undefined ? "" : `, at ${nitrogen.value.level}`}`,
    ...(spread.length > 0 ? [`Since the test ${list(spread)} ${spread.length > 1 ? "were" : "was"} spread, and not taken off this`] : []),
    ...(past ? [] : doubts),
  ].join(". ");
  // A rate that no longer holds never stands where a rate to spread is looked for, and what is said against it stands with its working.
  const standing = past ? { value: "", unit: "", detail: `${shown.value} ${shown.unit} ${detail}`, doubts } : { ...shown, detail };
  return [{ ...base, ...standing, none: undefined, missing: [], steps: stepRows(nitrogen.steps, farm.references) }, ...credits];
};

export const nitrogenOutcomes = (zone: ZoneAdvice): Outcome<unknown>[] => {
  const { nitrogen, nitrogenCredits = [] } = zone.advice;
  return [...(nitrogen ? [nitrogen] : []), ...nitrogenCredits.map((c) => c.outcome)];
};
