import { depthLabel, measurementLabel, methodLabel } from "../../interpretation/measurement.ts";
import type { Step } from "../../interpretation/outcome.ts";
import { notYetChecked } from "../../interpretation/outcome.ts";
import { analytes } from "../../interpretation/vocabulary.ts";
import type { Farm, Field, Recommendation } from "../../records/model.ts";
import { leavesOut, leavesOutProducts, leftOutForReader } from "../leftOut.ts";
import type { PackSince } from "../../records/sealing/packPrint.ts";
import type { FrozenAnswer, FrozenZone, RecommendationRecord } from "../../records/schemas/recommendation.ts";
import type { Fact } from "../fact.ts";
import type { Followed } from "./followed.ts";
import { followed } from "./followed.ts";
import { inputsIn } from "./frozenInputs.ts";
import { shownGuidelines } from "../guidelines/comparison.ts";
import { referencesView } from "../guidelines/referencesView.ts";
import type { ZoneReplay } from "./replay.ts";
import { replay } from "./replay.ts";
import { forCrop } from "../advice/adviceView.ts";
import type { EvidenceMark, Link, StepRow } from "../steps.ts";
import { evidenceMark, stepRows } from "../steps.ts";
import { listedPrice } from "../units.ts";
import { capital, count, list, longDate, numberWord } from "../words.ts";

/** An answer as issued, as a line that opens to its steps. */
export interface IssuedRow {
  readonly id: string;
  readonly subject: string;
  readonly shown: string;
  readonly detail: string;
  readonly steps: readonly StepRow[];
  /** Whose answer it is; with an address where that guideline still has a page. */
  readonly guideline: { readonly short: string; readonly id: string | undefined } | undefined;
  readonly evidence: EvidenceMark | undefined;
}

export interface IssuedZone {
  readonly zone: FrozenZone;
  readonly crop: string;
  readonly rows: readonly IssuedRow[];
  /** Which answers an excerpt leaves out; absent where it leaves out none. */
  readonly leftOut: string | undefined;
  /** "Potassium 212 ppm, Mehlich-3, 0 to 8 in, fields/...:22" */
  readonly results: readonly { readonly test: string; readonly value: string; readonly at: string }[];
}

export interface GuidelineNote {
  readonly short: string;
  readonly id: string | undefined;
  readonly fingerprint: string;
  /** "not edited since", "has been edited since: sections potash and phosphate (new)" */
  readonly since: string;
}

export interface RecommendationView {
  readonly title: string;
  readonly lede: string;
  readonly why: string;
  readonly facts: readonly Fact[];
  readonly zones: readonly IssuedZone[];
  readonly cautions: readonly string[];
  readonly prices: readonly { readonly name: string; readonly price: string }[];
  readonly guidelines: readonly GuidelineNote[];
  readonly replay: readonly ZoneReplay[];
  /** What an excerpt says in its place. */
  readonly replayLeftOut: string | undefined;
  readonly followed: readonly Followed[];
  readonly unchecked: string | undefined;
  readonly sampling: string | undefined;
  /** The file that holds the advice and its seal. */
  readonly kept: string;
}

/** Links of a kept step lead only to what still has a place on this site; a publication that has none is told by its kept citation. */
const linksOf = (farm: Farm, { record }: Recommendation): ((link: Link | undefined) => Link | undefined) => {
  const known = new Set(referencesView(farm).map((r) => r.reference.id));
  return (link) => {
    if (link?.anchor === undefined || known.has(link.anchor)) return link;
    const kept = record.publications[link.anchor];
    return { text: kept !== undefined && link.text.startsWith(link.anchor) ? link.text.replace(link.anchor, kept) : link.text };
  };
};

const answersLeftOut = (farm: Farm): string | undefined => {
  const kinds = [
    leavesOut(farm, "yields") && "rates of nutrients",
    (leavesOut(farm, "nitrogen") || leavesOut(farm, "yields") || farm.withheld?.years) && "nitrogen",
    leavesOutProducts(farm) && "what to buy",
  ].filter((kind) => typeof kind === "string");
  return kinds.length === 0 ? undefined : `${capital(list(kinds))}: ${leftOutForReader}.`;
};

const issuedZone = (farm: Farm, frozen: Recommendation, zone: FrozenZone, link: ReturnType<typeof linksOf>): IssuedZone => {
  const shown = shownGuidelines(farm);
  const shorts = new Map(frozen.record.guidelines.map((g) => [g.id, g.short]));
  const row = (a: FrozenAnswer): IssuedRow => ({
    id: `${zone.zone}-${a.question}`,
    subject: a.subject,
    shown: a.noAnswer && a.kind !== "rating" ? "" : (a.shown ?? ""),
    detail: a.detail ?? "",
    steps: stepRows(a.steps as readonly Step[], farm.references).map((s) => ({ ...s, source: link(s.source) })),
    guideline:
      a.guideline === undefined
        ? undefined
        : { short: shorts.get(a.guideline) ?? a.guideline, id: shown.has(a.guideline) ? a.guideline : undefined },
    evidence: evidenceMark(a.evidence),
  });
  return {
    zone,
    crop: forCrop(zone.crop),
    rows: zone.answers.map(row),
    leftOut: frozen.excerpt ? answersLeftOut(farm) : undefined,
    results: inputsIn(zone).results.map((m) => ({
      test: `${analytes[m.analyte].label}, ${methodLabel(m)}, ${depthLabel(m.depth)}`,
      value: measurementLabel(m),
      at: `${m.origin.file}:${m.origin.line}`,
    })),
  };
};

/** "has been edited since: section potash" */
const sinceWords = ({ state, edited, added, removed, restEdited }: PackSince): string => {
  if (state === "same") return "not edited since";
  if (state === "gone") return "no longer in the records";
  const sections = [...edited, ...added.map((s) => `${s} (new)`), ...removed.map((s) => `${s} (no longer there)`)];
  if (sections.length === 0) return `has been edited since: no rule of it${restEdited ? ", but its description" : ""}`;
  return `has been edited since: ${sections.length > 1 ? "sections" : "section"} ${list(sections)}${restEdited ? ", and its description" : ""}`;
};

const opening = (frozen: Recommendation, replays: readonly ZoneReplay[]): string => {
  const differences = replays.flatMap((z) => z.differences);
  const asked = replays.reduce((sum, z) => sum + z.asked, 0);
  const [edited, gone] = (["edited", "gone"] as const).map((state) => frozen.packs.filter((p) => p.state === state).length) as [
    number,
    number,
  ];
  const which =
    edited === 0
      ? "None of its guidelines has"
      : `${capital(numberWord(edited))} of its ${count(frozen.packs.length, "guideline")} ${edited === 1 ? "has" : "have"}`;
  const lost = gone === 0 ? "" : `; ${numberWord(gone)} ${gone === 1 ? "is" : "are"} no longer in the records`;
  const rules = `${which} been edited since${lost}.`;
  const replayed =
    differences.length === 0
      ? `Worked out again today, all ${asked} questions are answered as they were.`
      : `Worked out again today, for the day it was issued, ${differences.length} of ${asked} questions are answered otherwise.`;
  return `${replayed} ${rules}`;
};

/** "the advice for Causeway was lime on Outwash; phosphate on Knoll and Outwash": what was to be spread, by what was shown then. */
const advised = ({ record: { field, zones }, excerpt }: Recommendation): string => {
  const where = new Map<string, Set<string>>();
  for (const each of ["lime", "rate", "nitrogen"])
    for (const zone of zones)
      for (const { kind, subject, shown = "" } of zone.answers)
        if (kind === each && parseFloat(shown) > 0) where.set(subject, (where.get(subject) ?? new Set()).add(zone.name));
  // What is left out may have been advised as well.
  const shown = excerpt ? " that this reader is shown" : "";
  if (where.size === 0) return `nothing${shown} was advised to be spread on ${field.name}`;
  return `the advice for ${field.name}${shown} was ${[...where].map(([subject, names]) => `${subject.replace(/ \(.*\)$/, "").toLowerCase()} on ${list([...names])}`).join("; ")}`;
};

/** What the farm could spread, with the prices of the day. */
const prices = (farm: Farm, { products, currency }: RecommendationRecord): RecommendationView["prices"] => [
  ...Object.values(products).map(({ name, price }) => {
    const listed = price ? `${listedPrice(price.value, currency)} a ${price.per}` : "no price recorded";
    return { name, price: leavesOut(farm, "costs") ? leftOutForReader : listed };
  }),
  ...(leavesOutProducts(farm) ? [{ name: "Fertilizers", price: leftOutForReader }] : []),
];

/** What an excerpt says of itself: the seal is of the whole, which its reader does not have. */
const excerptNote = `This page is an excerpt of the advice as it was issued: parts are ${leftOutForReader}. The seal is that of the whole, so it can be proved only on the farm's own file.`;

/** All that the page of a piece of advice as issued shows. */
export const recommendationView = (farm: Farm, field: Field, frozen: Recommendation): RecommendationView => {
  const { record } = frozen;
  // Asked again, an excerpt would differ from the whole in every answer that was left out.
  const replays = frozen.excerpt ? [] : replay(frozen, farm);
  const shown = shownGuidelines(farm);
  const link = linksOf(farm, frozen);
  const weak = record.zones.some((z) => z.answers.some((a) => notYetChecked(a.evidence)));
  return {
    title: `Advice of ${longDate(record.issued)}`,
    lede: `On ${longDate(record.issued)} ${advised(frozen)}.`,
    why: frozen.excerpt ? excerptNote : opening(frozen, replays),
    replayLeftOut: frozen.excerpt ? `What today's rules and records would say instead is ${leftOutForReader}.` : undefined,
    facts: [
      { term: "For", value: record.for },
      { term: "Issued", value: longDate(record.issued) },
      { term: "From the sampling of", value: `${longDate(record.sampling.date)}, ${record.sampling.laboratory}` },
      { term: "Zones", value: list(record.zones.map((z) => z.name)) },
      { term: "Kept in", value: frozen.file },
      { term: "Seal", value: record.sha256 },
    ],
    zones: record.zones.map((zone) => issuedZone(farm, frozen, zone, link)),
    cautions: record.cautions,
    prices: prices(farm, record),
    guidelines: record.guidelines.map((g, i) => ({
      short: g.short,
      id: shown.has(g.id) ? g.id : undefined,
      fingerprint: g.fingerprint,
      since: sinceWords(frozen.packs[i]!),
    })),
    replay: replays,
    followed: followed(frozen, farm, field),
    unchecked: weak ? "Some of this advice rested on values not yet checked against the publication; each line says which." : undefined,
    sampling: field.samplings.find((s) => s.id === record.sampling.id)?.id,
    kept: frozen.file,
  };
};
