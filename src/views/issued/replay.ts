import type { Guideline } from "../../interpretation/guideline.ts";
import type { Farm, Recommendation } from "../../records/model.ts";
import type { FrozenAnswer, FrozenZone } from "../../records/schemas/recommendation.ts";
import { frozenAnswers } from "./frozenAnswers.ts";
import { adviceFrom, farmOf, frozenProducts, inputsIn, inputsOf } from "./frozenInputs.ts";
import type { Basis } from "./inputChanges.ts";
import { inputChanges } from "./inputChanges.ts";
import { adviceOn } from "../advice/sample.ts";
import { evidenceMark } from "../steps.ts";
import { list } from "../words.ts";
import { zoneOf } from "../zonesThen.ts";

/** One question that is answered otherwise today, and why. */
export interface Difference {
  readonly zone: string;
  readonly question: string;
  readonly subject: string;
  /** "93 lb/ac, for wheat 2021"; `undefined` where it was not asked. */
  readonly then: string | undefined;
  readonly now: string | undefined;
  /** Clauses, each a cause found by changing nothing else. Never empty. */
  readonly because: readonly string[];
}

export interface ZoneReplay {
  readonly zone: FrozenZone;
  readonly differences: readonly Difference[];
  /** What is otherwise in the records, whether or not an answer depends on it. */
  readonly changes: readonly string[];
  /** How many questions were asked again. */
  readonly asked: number;
  /** Why the records of today could not be asked: the kept inputs were, by today's rules. */
  readonly note: string | undefined;
}

/** The guidelines an archive names, as they stand now; those that are gone are left out. */
const packsOf = ({ record }: Recommendation, farm: Farm): Guideline[] =>
  record.guidelines.flatMap((g) => farm.allGuidelines.get(g.id) ?? []);

const answersFor = (farm: Farm, { record }: Recommendation, zone: FrozenZone, { inputs, products, packs }: Basis): FrozenAnswer[] => {
  const then = farmOf(farm, { ...record, products });
  return frozenAnswers(then, adviceFrom(zone, inputs, record.sampling, then.products, packs));
};

const keptBasis = (farm: Farm, frozen: Recommendation, zone: FrozenZone): Basis => ({
  inputs: inputsIn(zone),
  products: frozen.record.products,
  packs: packsOf(frozen, farm),
});

/**
 * The answers of an archive worked out again from its own kept inputs by the guidelines of today, zone by zone.
 * Where neither a guideline nor the program changed, they are the answers that it holds, to the last digit.
 */
export const answersFromKept = (frozen: Recommendation, farm: Farm): FrozenAnswer[][] =>
  frozen.record.zones.map((zone) => answersFor(farm, frozen, zone, keptBasis(farm, frozen, zone)));

/** What a reader compares: the answer as shown, whose it is, and how well it is known. */
const shownOf = (a: FrozenAnswer | undefined): string =>
  a ? JSON.stringify([a.shown, a.detail, a.noAnswer?.because, a.guideline, a.evidence]) : "";

/** Is all that was kept the same, to nine digits? A figure that the program keeps only by now is no change. */
const sameFigures = (kept: unknown, now: unknown): boolean => {
  if (typeof kept === "number" && typeof now === "number") return kept.toPrecision(9) === now.toPrecision(9);
  if (typeof kept !== "object" || kept === null || typeof now !== "object" || now === null) return kept === now;
  if (Array.isArray(kept) && kept.length !== (now as readonly unknown[]).length) return false;
  return Object.entries(kept).every(([key, value]) => sameFigures(value, (now as Record<string, unknown>)[key]));
};

/** The same answer in other words: a newer program says it so, and no rule is the cause. */
const onlyWorded = (was: FrozenAnswer | undefined, now: FrozenAnswer | undefined): boolean =>
  was?.figures !== undefined &&
  now?.figures !== undefined &&
  shownOf({ ...was, detail: undefined }) === shownOf({ ...now, detail: undefined }) &&
  sameFigures(was.figures, now.figures);

/** "93 lb/ac for wheat 2021" */
const said = (a: FrozenAnswer | undefined): string | undefined =>
  a && [a.noAnswer && a.kind !== "rating" ? undefined : a.shown, a.detail].filter(Boolean).join(" ");

/** The same with whose answer it is and how well it is known, where only that is otherwise. */
const saidWithMark = (a: FrozenAnswer | undefined): string | undefined =>
  a && `${said(a) ?? ""} (${[a.guideline, evidenceMark(a.evidence)?.words ?? "without a graded value"].filter(Boolean).join("; ")})`;

/** Why today's rules answer the kept inputs otherwise: the sections that were edited, or else the program, which no archive holds to be tried. */
const ruleCause = ({ packs }: Recommendation, then: FrozenAnswer | undefined, now: FrozenAnswer | undefined): string => {
  const changed = packs.filter((p) => p.state !== "same");
  const own = changed.filter((p) => p.id === then?.guideline || p.id === now?.guideline);
  const told = own.length > 0 ? own : changed;
  const named = told.map((p) => {
    if (p.state === "gone") return `the guideline ${p.short} is no longer in the records`;
    const sections = [...p.edited, ...p.added.map((s) => `${s} (new)`), ...p.removed.map((s) => `${s} (gone)`)];
    return `${p.short} has been edited since: ${sections.length > 0 ? list(sections) : "its description"}`;
  });
  const otherwise = "the program works it out otherwise now";
  if (named.length === 0) return `${otherwise}, from the same inputs and rules`;
  return told.every((p) => p.state === "gone") ? list(named) : `${list(named)}; or ${otherwise}`;
};

const replayZone = (frozen: Recommendation, farm: Farm, zone: FrozenZone): ZoneReplay => {
  const { record } = frozen;
  const field = farm.fields.find((f) => f.id === record.field.id);
  const place = field && zoneOf(field, zone.zone);
  const sampling = field?.samplings.find((s) => s.id === record.sampling.id);
  const today = field && place && sampling && adviceOn(farm, field, place, sampling, record.issued);
  const then = keptBasis(farm, frozen, zone);
  const now: Basis = today ? { inputs: inputsOf(today), products: frozenProducts(farm.products), packs: field.guidelines } : then;
  const changes = inputChanges(then, now, record.currency);
  const byQuestion = (answers: readonly FrozenAnswer[]): Map<string, FrozenAnswer> => new Map(answers.map((a) => [a.question, a]));
  const issued = byQuestion(zone.answers);
  const kept = byQuestion(answersFor(farm, frozen, zone, then));
  const todays = changes.length === 0 ? kept : byQuestion(answersFor(farm, frozen, zone, now));
  const alone = changes.map(({ words, apply }) => ({ words, answers: byQuestion(answersFor(farm, frozen, zone, apply(then))) }));
  const questions = [...new Set([...issued.keys(), ...todays.keys()])];
  const differences = questions.flatMap((question): Difference[] => {
    const [was, again, is] = [issued.get(question), kept.get(question), todays.get(question)];
    const before = onlyWorded(was, again) ? again : was;
    if (shownOf(before) === shownOf(is)) return [];
    const byRules = shownOf(before) !== shownOf(again) ? [ruleCause(frozen, was, again)] : [];
    const single = alone.filter(({ answers }) => shownOf(answers.get(question)) !== shownOf(again)).map(({ words }) => words);
    // Where no change by itself moves the answer, they do so together.
    const together = single.length === 0 && byRules.length === 0 ? changes.map((c) => c.words) : [];
    const alike = said(was) === said(is);
    return [
      {
        zone: zone.zone,
        question,
        subject: (was ?? is)!.subject,
        then: alike ? saidWithMark(was) : said(was),
        now: alike ? saidWithMark(is) : said(is),
        because: [...byRules, ...single, ...together],
      },
    ];
  });
  const note = today
    ? undefined
    : `${!field ? "the field" : !place ? "the zone" : !sampling ? "the sampling" : "a result of this zone"} is no longer in the records`;
  return { zone, differences, changes: changes.map((c) => c.words), asked: questions.length, note };
};

/**
 * Advice as issued, worked out again under today's rules and records, for the day on which it was issued. Every answer
 * that is otherwise is told with its causes: each change in the records is tried by itself on the kept inputs.
 * Pure: the same archive and the same farm give the same replay.
 */
export const replay = (frozen: Recommendation, farm: Farm): ZoneReplay[] =>
  frozen.record.zones.map((zone) => replayZone(frozen, farm, zone));
