import { cautions } from "../../interpretation/cautions.ts";
import type { Caution } from "../../interpretation/caution.ts";
import type { CautionId } from "../../interpretation/cautions.ts";
import type { Measurement } from "../../interpretation/measurement.ts";
import { isDeepTest, isNitrogenTest } from "../../interpretation/nitrogen/nitrateNitrogen.ts";
import { pH } from "../../interpretation/show.ts";
import type { CropId } from "../../interpretation/vocabulary.ts";
import { crops } from "../../interpretation/vocabulary.ts";
import type { Recommendation, Withheld } from "../model.ts";
import { reasonLeftOut } from "./withoutNotes.ts";
import type { FrozenAnswer, FrozenZone, RecommendationRecord } from "../schemas/recommendation.ts";

/** Where the owner's reason begins in a step of lime; the words before it are the program's. */
const ownTarget = "Lime up to, as set for this field";

/** A caution that this edition of the program still has. */
const known = (id: string): Caution | undefined => (id in cautions ? cautions[id as CautionId] : undefined);

type Answers = readonly FrozenAnswer[];

/** What stands in place of an answer's steps. */
const workingLeftOut = (a: FrozenAnswer, because: string): FrozenAnswer["steps"] => [
  { what: `Its working is left out for this reader, because it ${because}`, result: a.shown ?? "" },
];

/** An answer without what tells of a crop after the last year shown: its name, and the yield goal that a rate was worked out from. */
const withoutCrop = (a: FrozenAnswer, crop: CropId | undefined): FrozenAnswer => {
  const named = (text: unknown): boolean =>
    crop !== undefined &&
    JSON.stringify(text ?? "")
      .toLowerCase()
      .includes(crops[crop].label.toLowerCase());
  const { noAnswer } = a;
  return {
    ...a,
    detail: a.kind === "rate" ? undefined : a.detail,
    noAnswer: named(noAnswer) ? { because: "the reason tells of a crop after the years shown", missing: [] } : noAnswer,
    steps:
      a.steps.length > 0 && (a.kind === "rate" || named(a.steps)) ? workingLeftOut(a, "tells of a crop after the years shown") : a.steps,
  };
};

/** Whether what to buy is left out: it goes by price and by every rate. */
const boughtLeftOut = (parts: Withheld["parts"]): boolean => parts.has("costs") || parts.has("yields") || parts.has("nitrogen");

/** An answer's own words hold rounded figures of what it rests on, so an answer that could rest on what is withheld goes as a whole. */
const shownAnswers = (answers: Answers, { parts, years }: Withheld, products: RecommendationRecord["products"]): FrozenAnswer[] => {
  return answers.flatMap((a): FrozenAnswer[] => {
    if (a.kind === "rating") return parts.has("nitrogen") && /^rating-nitrate/.test(a.question) ? [] : [a];
    if (a.kind === "lime") return [limeAnswer(a, parts.has("costs"), years?.from !== undefined, products)];
    if (a.kind === "product" || a.kind === "starter") return boughtLeftOut(parts) ? [] : [a];
    if (a.kind === "rate") return parts.has("yields") || (parts.has("nitrogen") && a.question === "n") ? [] : [a];
    // A nitrogen rate tells of tests, crops and manure of the years before.
    return parts.has("nitrogen") || parts.has("yields") || years !== undefined ? [] : [a];
  });
};

/** Lime without its cost, and without steps where they could tell of lime before the first year shown. */
const limeAnswer = (a: FrozenAnswer, costs: boolean, earlier: boolean, products: RecommendationRecord["products"]): FrozenAnswer => {
  const { costPerAcre, ...figures } = a.figures ?? {};
  const material = products[String(figures["material"])]?.name;
  const target = typeof figures["target"] === "number" ? `, to reach pH ${pH(figures["target"])}` : "";
  const detail = costs && material !== undefined && !a.noAnswer ? `of ${material}${target}` : a.detail;
  const steps = earlier ? workingLeftOut(a, "could tell of years before those shown") : a.steps;
  return {
    ...a,
    detail,
    steps,
    figures: a.figures && (costs ? figures : { ...figures, ...(costPerAcre !== undefined && { costPerAcre }) }),
  };
};

/** Steps without the owner's own words: why a target was set, why a result was corrected. */
const withoutReasons = (answer: FrozenAnswer, results: readonly Measurement[]): FrozenAnswer => {
  const reasons = results.flatMap((m) => [m, ...(m.bags ?? [])]).flatMap((m) => m.correction?.reason ?? []);
  const plain = (note: string | undefined): string | undefined =>
    reasons.reduce((text, reason) => text?.replaceAll(reason, reasonLeftOut), note);
  return {
    ...answer,
    steps: answer.steps.map((s) => ({ ...s, what: s.what.startsWith(ownTarget) ? ownTarget : s.what, note: plain(s.note) })),
  };
};

/** A result without a word on its correction, in every bag that a mean was taken of. */
const uncorrected = (m: Measurement): Measurement => ({ ...m, correction: undefined, ...(m.bags && { bags: m.bags.map(uncorrected) }) });

/** Chloride and sulfur of another sampling than the advised one: of one for nitrate, of which they would tell. */
const isOfNitrateSampling = ({ analyte, origin }: Measurement, sampling: string): boolean =>
  isDeepTest(analyte) && !origin.file.endsWith(`/${sampling}.yaml`);

const zoneExcerpt = (zone: FrozenZone, withheld: Withheld, { products, sampling }: RecommendationRecord): FrozenZone => {
  const { parts, years } = withheld;
  const crop = zone.inputs.crop as { crop?: CropId; season?: number } | undefined;
  const all = zone.inputs.results as unknown as readonly Measurement[];
  const deep = parts.has("nitrogen") ? all.filter((m) => isOfNitrateSampling(m, sampling.id)) : [];
  const results = all.filter((m) => !deep.includes(m) && !(parts.has("nitrogen") && isNitrogenTest(m)));
  const cropAfter = years?.to !== undefined && (crop?.season ?? 0) > years.to;
  const named = parts.has("yields") && crop?.crop !== undefined ? `${crops[crop.crop].label} ${crop.season}` : zone.crop;
  const shown = shownAnswers(zone.answers, withheld, products).filter(
    ({ question }) => !deep.some(({ analyte }) => new RegExp(`^(rating-)?${analyte}(-\\d+)?$`, "i").test(question)),
  );
  const answers = cropAfter ? shown.map((a) => withoutCrop(a, crop?.crop)) : shown;
  const corrections = !parts.has("notes") && years === undefined;
  return {
    ...zone,
    squareMeters: undefined,
    crop: cropAfter ? "a crop after the years shown" : named,
    inShort: [],
    cautions: zone.cautions.filter((id) => !(parts.has("nitrogen") && (known(id)?.beside === "nitrogen" || known(id)?.ofManure))),
    answers: parts.has("notes") ? answers.map((a) => withoutReasons(a, results)) : answers,
    inputs: {
      results: (corrections ? results : results.map(uncorrected)) as unknown as FrozenZone["inputs"]["results"],
      soil: {},
      ...(crop && !cropAfter && { crop: { crop: crop.crop, season: crop.season } }),
      settings: {},
    },
  };
};

/**
 * Advice as issued, less what a reader is not shown. Its seal is kept, as a fingerprint of the whole; the fingerprints of its parts are not,
 * because a price behind one of them could be found by trying prices.
 */
export const issuedExcerpt = (issued: Recommendation, withheld: Withheld): Recommendation => {
  const { record } = issued;
  const { parts } = withheld;
  const zones = record.zones.map((zone) => zoneExcerpt(zone, withheld, record));
  const standing: string[] = zones.flatMap((z) => z.cautions).flatMap((id) => known(id)?.text ?? []);
  return {
    ...issued,
    excerpt: true,
    record: {
      ...record,
      for: parts.has("notes") ? "a reader who is not named here" : record.for,
      zones,
      cautions: parts.has("nitrogen") ? record.cautions.filter((text) => standing.includes(text)) : record.cautions,
      products: Object.fromEntries(
        Object.entries(record.products)
          .filter(([, p]) => p.kind === "lime" || !boughtLeftOut(parts))
          .map(([id, p]) => [id, { kind: p.kind, name: p.name, ...(!parts.has("costs") && p.price && { price: p.price }), content: {} }]),
      ),
      parts: {},
    },
  };
};
