import type { Advice } from "../../interpretation/advise.ts";
import type { Guideline, SectionKind } from "../../interpretation/guideline.ts";
import type { LimeAdvice } from "../../interpretation/lime/lime.ts";
import type { Measurement } from "../../interpretation/measurement.ts";
import { depthLabel, measurementLabel } from "../../interpretation/measurement.ts";
import type { RateAdvice } from "../../interpretation/nutrientRates.ts";
import type { Outcome } from "../../interpretation/outcome.ts";
import { weakestEvidence } from "../../interpretation/outcome.ts";
import { limeName } from "../../interpretation/rules/limeBasis.ts";
import type { RatingAdvice } from "../../interpretation/rating.ts";
import { pH, plain, show } from "../../interpretation/show.ts";
import type { NutrientId } from "../../interpretation/vocabulary.ts";
import { analyteInSentence, analytes, methods, nutrients } from "../../interpretation/vocabulary.ts";
import type { Farm } from "../../records/model.ts";
import { cropWords } from "../advice/adviceView.ts";
import { nitrogenBasis } from "../advice/nitrogenView.ts";
import type { Asked, FieldComparison, OtherTest } from "./comparison.ts";
import { comparisons, mostFields } from "./comparison.ts";
import type { EvidenceMark } from "../steps.ts";
import { evidenceMark } from "../steps.ts";
import { inUnitsOf, limeRate, nutrientSpan } from "../units.ts";
import { capital, list, longDate } from "../words.ts";

export interface CompareCell {
  readonly text: string;
  /** Nothing was answered; the reason stands below the table. */
  readonly none: boolean;
}

export interface CompareRow {
  readonly pack: Guideline;
  /** One of the field's own guidelines. */
  readonly chosen: boolean;
  readonly P: CompareCell;
  readonly K: CompareCell;
  readonly lime: CompareCell;
  readonly P2O5: CompareCell;
  readonly K2O: CompareCell;
  readonly N: CompareCell;
  readonly why: string;
  readonly evidence: EvidenceMark | undefined;
}

export interface CompareSection {
  readonly id: string;
  readonly title: string;
  readonly sample: string;
  readonly field: string;
  readonly sampling: string;
  readonly rows: readonly CompareRow[];
  /** One of the rows gives nitrogen: it has a column. */
  readonly nitrogen: boolean;
  /** What a guideline in the table could not say, and why. */
  readonly gaps: readonly string[];
  /** What another test would read, by relations that guidelines print. */
  readonly otherTests: readonly OtherTestRow[];
  /** Guidelines that could say nothing of this sample and why, those of the same reasons in one line. */
  readonly silent: readonly { readonly names: string; readonly reasons: string }[];
  readonly silentCount: number;
}

export interface OtherTestRow {
  readonly pack: Guideline;
  /** "Phosphorus, 27 ppm by Mehlich-3, is about 20 ppm by Bray P1 on soils of Ohio and Indiana." */
  readonly text: string;
  readonly evidence: EvidenceMark | undefined;
}

export interface CompareView {
  readonly sections: readonly CompareSection[];
  readonly note: string | undefined;
}

/** All that the page shows which puts every guideline to the same samples. */
export const compareView = (farm: Farm): CompareView => ({
  sections: comparisons(farm).map((each) => section(inUnitsOf(farm, each.field), each)),
  note: farm.fields.length > mostFields ? `The first ${mostFields} fields of ${farm.fields.length} are compared.` : undefined,
});

const section = (farm: Farm, { field, zone, asked, otherTests }: FieldComparison): CompareSection => {
  const answering = asked.filter((a) => a.answers);
  const tested = zone.nitrogenQuestion?.measurements ?? [];
  const nitrogen = answering.some((a) => a.advice.nitrogen?.kind === "answer");
  return {
    id: field.id,
    title: field.name,
    sample: [
      `${zone.zone.name}, sampled ${longDate(zone.sampling.date)}, for ${cropWords(zone)}: ${results(zone.sample.measurements.filter((m) => ["pH", "bufferPh", "P", "K"].includes(m.analyte)))}.`,
      ...(nitrogen
        ? [`Nitrogen is ${nitrogenBasis(farm, zone, ", without a nitrogen test")}${tested.length > 0 ? `: ${results(tested)}` : ""}.`]
        : []),
    ].join(" "),
    field: field.id,
    sampling: zone.sampling.id,
    rows: answering.map((a) => row(farm, a, field.guidelines.includes(a.pack))),
    nitrogen,
    gaps: answering.flatMap((a) => gaps(a)),
    otherTests: otherTests.map(otherTestRow),
    silent: silentOf(asked),
    silentCount: asked.filter(isSilent).length,
  };
};

/** "soil pH 6.1 and phosphorus 52 ppm" */
const results = (all: readonly Measurement[]): string => list(all.map((m) => `${analyteInSentence(m.analyte)} ${measurementLabel(m)}`));

const otherTestRow = ({ pack, measurement: m, soils, outcome }: OtherTest): OtherTestRow => {
  const tested = `${capital(analyteInSentence(m.analyte))}, ${measurementLabel(m)} by ${methods[m.method].label},`;
  if (outcome.kind === "noAnswer")
    return { pack, text: `${tested} has no value by another test, because ${outcome.because}.`, evidence: undefined };
  const { value, method } = outcome.value;
  return {
    pack,
    text: `${tested} is about ${show(value, analytes[m.analyte].decimals)} ${m.unit} by ${methods[method].label}, as found on ${soils}.`,
    evidence: evidenceMark(weakestEvidence(outcome.steps)),
  };
};

const nothing: CompareCell = { text: "no answer", none: true };
const silence: CompareCell = { text: "not in it", none: true };

const own = <T extends { readonly pack: Guideline | undefined }>(all: readonly T[], pack: Guideline): T[] =>
  all.filter((each) => each.pack?.id === pack.id);

const ratingCell = (ratings: readonly RatingAdvice[], analyte: "P" | "K"): CompareCell => {
  const found = ratings.filter((r) => r.measurement.analyte === analyte);
  const best = found.find((r) => r.outcome.kind === "answer");
  if (best?.outcome.kind === "answer") return { text: best.outcome.value.band, none: false };
  return found.length > 0 ? nothing : silence;
};

const rateCell = (farm: Farm, rates: readonly RateAdvice[], ids: readonly NutrientId[]): CompareCell => {
  const found = rates.filter((r) => ids.includes(r.nutrient));
  const best = found.find((r) => r.outcome.kind === "answer");
  if (best?.outcome.kind !== "answer") return found.length > 0 ? nothing : silence;
  const shown = nutrientSpan(best.outcome.value, farm.units);
  return {
    text: best.nutrient === ids[0] ? `${shown.value} ${shown.unit}` : `${shown.value} ${shown.unit} of ${nutrients[best.nutrient].symbol}`,
    none: false,
  };
};

const nitrogenCell = (farm: Farm, { nitrogen }: Advice): CompareCell => {
  if (nitrogen?.kind !== "answer") return nitrogen ? nothing : silence;
  const shown = nutrientSpan(nitrogen.value, farm.units);
  return { text: `${nitrogen.value.atMost ? "at most " : ""}${shown.value} ${shown.unit}`, none: false };
};

const limeCell = (farm: Farm, { needed, rates }: LimeAdvice, pack: Guideline): CompareCell => {
  if (!holdsLime(pack)) return silence;
  if (needed.kind === "noAnswer") return nothing;
  if (needed.value === "none") return { text: "none is called for", none: false };
  const { requirement, basis, target } = needed.value;
  const material = rates.flatMap((r) => (r.outcome.kind === "answer" ? [r.outcome.value] : []))[0];
  const shown = limeRate(material?.rate ?? requirement, farm.units);
  return {
    text: `${shown.value} ${shown.unit} of ${material?.material.name ?? limeName(basis)}${target === undefined ? "" : `, to pH ${pH(target)}`}`,
    none: false,
  };
};

/** Kinds of rule that say when to lime or how much. */
const holdsLime = (pack: Guideline): boolean =>
  pack.sections.some(
    (s) => s.kind === "targetPh" || s.kind === "bufferTable" || (/lime|acidity|aluminum/i.test(s.kind) && s.kind !== "limeQuality"),
  );

const row = (farm: Farm, { pack, advice }: Asked, chosen: boolean): CompareRow => {
  const ratings = own(advice.ratings, pack);
  const rates = own(advice.rates, pack);
  const used: Outcome<unknown>[] = [
    ...ratings.filter((r) => r.measurement.analyte === "P" || r.measurement.analyte === "K").map((r) => r.outcome),
    ...rates.map((r) => r.outcome),
    ...(holdsLime(pack) ? [advice.lime.needed] : []),
    ...(advice.nitrogen ? [advice.nitrogen] : []),
  ];
  return {
    pack,
    chosen,
    P: ratingCell(ratings, "P"),
    K: ratingCell(ratings, "K"),
    lime: limeCell(farm, advice.lime, pack),
    P2O5: rateCell(farm, rates, ["P2O5", "P"]),
    K2O: rateCell(farm, rates, ["K2O", "K"]),
    N: nitrogenCell(farm, advice),
    why: why(pack, ratings),
    evidence: evidenceMark(weakestEvidence(used.flatMap((o) => (o.kind === "answer" ? o.steps : [])))),
  };
};

/** How a guideline comes to its rates, by the kinds of rule it holds. A kind that is not named here speaks for itself on the guideline's page. */
const philosophies: Partial<Record<SectionKind, string>> & Readonly<Record<string, string>> = {
  buildMaintain: "builds the soil up to a critical level and then replaces what the harvest takes",
  bandRates: "prints a rate for each class",
  sufficiency: "feeds the crop what this year's yield answers to",
  linearYield: "lowers the rate in a line as the test rises, by yield goal",
  quadraticIndex: "lowers the rate along a curve as the index rises",
  indexOfftake: "replaces offtake at the target index, with more below it and less above",
  indexRates: "prints a rate for each index",
};

const why = (pack: Guideline, ratings: readonly RatingAdvice[]): string => {
  const kinds = [...new Set(pack.sections.map((s) => philosophies[s.kind]).filter((w) => w !== undefined))];
  const levels = ratings.flatMap(({ measurement, outcome, bands }) => {
    const from = bands.find((b) => b.position === "within");
    const edge = from?.from ?? from?.above;
    return outcome.kind === "answer" && edge !== undefined && ["P", "K"].includes(measurement.analyte)
      ? [`keeps ${measurement.analyte} from ${plain(edge)} ${measurement.unit} up`]
      : [];
  });
  const depths = [
    ...new Set(
      pack.sections.flatMap((s) =>
        "limits" in s && s.limits.depth
          ? [depthLabel(s.limits.depth)]
          : s.kind === "bufferTable"
            ? [`${depthLabel(s.depth)} for lime`]
            : [],
      ),
    ),
  ];
  const parts = [
    ...kinds,
    list([...new Set(levels)]),
    depths.length > 0 ? `made for samples ${list(depths)} deep` : "",
    pack.status === "superseded" ? "superseded" : "",
  ];
  return capital(`${parts.filter(Boolean).join("; ")}${parts.some(Boolean) ? "." : ""}`);
};

interface Gap {
  readonly what: string;
  readonly because: string;
}

const gapsOf = ({ pack, advice, nitrogenTested }: Asked): Gap[] => {
  const found: Gap[] = [];
  for (const r of own(advice.ratings, pack))
    if ((r.measurement.analyte === "P" || r.measurement.analyte === "K") && r.outcome.kind === "noAnswer")
      found.push({ what: `class of ${analyteInSentence(r.measurement.analyte)}`, because: r.outcome.because });
  for (const r of own(advice.rates, pack))
    if (r.outcome.kind === "noAnswer")
      found.push({ what: `${nutrients[r.nutrient].label.toLowerCase()} rate`, because: r.outcome.because });
  if (holdsLime(pack) && advice.lime.needed.kind === "noAnswer") found.push({ what: "lime rate", because: advice.lime.needed.because });
  if (advice.nitrogen?.kind === "noAnswer" && nitrogenTested) found.push({ what: "nitrogen rate", because: advice.nitrogen.because });
  return found;
};

/** The guideline's name stands before its reasons, and need not stand in them again. */
const withoutName = (because: string, { short }: Guideline): string => because.replaceAll(short, "the guideline");

const isSilent = (a: Asked): boolean => !a.answers && gapsOf(a).length > 0;

/** The guidelines without any answer, those of one reason together, in the order in which each reason is met first. */
const silentOf = (asked: readonly Asked[]): CompareSection["silent"] => {
  const byReasons = new Map<string, string[]>();
  for (const a of asked) {
    const reasons = [...new Set(gapsOf(a).map((g) => withoutName(g.because, a.pack)))].slice(0, 3).join("; ");
    if (isSilent(a)) byReasons.set(reasons, [...(byReasons.get(reasons) ?? []), a.pack.short]);
  }
  return [...byReasons].map(([reasons, shorts]) => ({ names: list(shorts), reasons }));
};

/** One sentence for each reason, however many questions it leaves open. */
const gaps = (asked: Asked): string[] => {
  const byReason = new Map<string, string[]>();
  for (const { what, because } of gapsOf(asked)) byReason.set(because, [...(byReason.get(because) ?? []), what]);
  return [...byReason].map(
    ([because, whats]) => `${asked.pack.short}: no ${list(whats, "or")}, because ${withoutName(because, asked.pack)}.`,
  );
};
