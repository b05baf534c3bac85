import { methodLabel } from "../../interpretation/measurement.ts";
import type { RatingAdvice } from "../../interpretation/rating.ts";
import type { AnalyteId } from "../../interpretation/vocabulary.ts";
import { analyteInSentence } from "../../interpretation/vocabulary.ts";
import type { Farm, Field, Sampling, Zone } from "../../records/model.ts";
import { awaitedOf } from "../results/awaited.ts";
import { dueOf } from "../calendar/due.ts";
import type { FertilityZone } from "./fertilityNow.ts";
import { fertilityNow, fertilityOutcomes } from "./fertilityNow.ts";
import type { Fact } from "../fact.ts";
import type { OwedRow, OwedSum } from "./owedRows.ts";
import { moneyWords, owedRows, sumOwed } from "./owedRows.ts";
import { recordsKept } from "./recordsKept.ts";
import { where } from "../advice/jobs.ts";
import { latestAdvice } from "../advice/sample.ts";
import { citedReferences, referenceLabel } from "../steps.ts";
import type { Basis, Proof } from "./summarySources.ts";
import { basisOf, fieldProofs, owedBases, packsOf, summaryOutcomes } from "./summarySources.ts";
import { belowSentence, owedNotes, owedSentence, positionOf, sampledWords, toldOf, zonesBelow } from "./summaryWords.ts";
import { heldWords } from "../tenure.ts";
import { area, areaUnit, depth, inUnitsOf } from "../units.ts";
import { capital, count, list, longDate, monthYear, numberWord } from "../words.ts";

export interface FieldSummary {
  readonly lede: string;
  readonly why: string;
  readonly period: string;
  readonly land: readonly Fact[];
  readonly zones: readonly FertilityZone[];
  readonly classes: Basis | undefined;
  readonly owed: readonly OwedRow[];
  readonly total: OwedSum & { readonly words: string };
  readonly bases: readonly Basis[];
  readonly notes: readonly string[];
  readonly kept: readonly Fact[];
  readonly sources: readonly string[];
  readonly proofs: readonly Proof[];
}

/** All that a field's summary sheet shows. */
export const fieldSummary = (site: Farm, field: Field): FieldSummary => {
  const farm = inUnitsOf(site, field);
  const total = sumOwed(site, [field]);
  const rated = toldOf.filter((analyte) => field.zones.some((zone) => positionOf(site, field, zone, analyte) !== undefined));
  const outcomes = summaryOutcomes(site, field);
  return {
    lede: `${belowSentence(below(site, field), rated)} ${owedSentence(site, [field])}`,
    why: whySummed(site, field),
    period: period([field]),
    land: land(farm, field),
    zones: fertilityNow(farm, field),
    classes: basisOf("Ranges by", fertilityOutcomes(site, field), packsOf(rangesTold(site, field))),
    owed: owedRows(site, field),
    total: { ...total, words: moneyWords(site, total.money) },
    bases: owedBases(site, [field]),
    notes: owedNotes(site, [field]),
    kept: recordsKept(farm, [field]),
    sources: citedReferences(outcomes, site.references).map(referenceLabel),
    proofs: fieldProofs(site, field),
  };
};

/** The classes that say on which side of its range a result lies. */
const rangesTold = (site: Farm, field: Field): RatingAdvice[] =>
  field.zones
    .flatMap((zone) => latestAdvice(site, field, zone)?.advice.ratings ?? [])
    .filter(
      ({ measurement, outcome }) =>
        toldOf.includes(measurement.analyte) && outcome.kind === "answer" && outcome.value.position !== undefined,
    );

/** The zones below each range, in words; tests that are low on the same zones together. */
const below = (farm: Farm, field: Field): Parameters<typeof belowSentence>[0] => {
  const low = toldOf.map((analyte) => ({ analyte, zones: zonesBelow(farm, field, analyte) })).filter(({ zones }) => zones.length > 0);
  return [...Map.groupBy(low, ({ zones }) => zones.map((z) => z.id).join(" ")).values()].map((same) => ({
    analytes: same.map(({ analyte }) => analyte),
    on: whichZones(same[0]!.zones, field.zones.length),
  }));
};

/** "the whole field", "all three zones", "Knoll and Outwash", "five of eight zones" */
const whichZones = (zones: readonly Zone[], of: number): string => {
  return zones.length < of && zones.length > 3 ? `${numberWord(zones.length)} of ${count(of, "zone")}` : where(zones, of);
};

/** Who measured, and when; what is awaited where nobody did, else that it is due again. */
const whySummed = (farm: Farm, field: Field): string => {
  const samplings = newestSamplings(farm, field).map(({ sampling }) => sampling);
  const said = sampledWords(
    samplings.map((s) => s.date),
    [...new Set(samplings.map((s) => s.lab.name))],
  );
  if (samplings.length === 0) return [said, ...awaitedOf(field)].join(" ");
  const due = dueOf(farm, field);
  return due.overdue ? `${said} It is due for sampling ${due.last === undefined ? "" : "again: "}${due.words}.` : said;
};

/** The samplings that the zones' newest results come from, oldest first, with their zones. */
const newestSamplings = (farm: Farm, field: Field): { sampling: Sampling; zones: string[] }[] => {
  const events = new Map<string, string[]>();
  for (const zone of field.zones) {
    const id = latestAdvice(farm, field, zone)?.sampling.id;
    if (id !== undefined) events.set(id, [...(events.get(id) ?? []), zone.name]);
  }
  return field.samplings.flatMap((sampling) => (events.has(sampling.id) ? [{ sampling, zones: events.get(sampling.id)! }] : []));
};

export const period = (fields: readonly Field[]): string => {
  const years = fields.flatMap((f) => f.samplings.map((s) => s.date.slice(0, 4))).sort();
  return years.length === 0 ? "no samplings yet" : years[0] === years.at(-1) ? years[0]! : `${years[0]!} to ${years.at(-1)!}`;
};

export const tenureWords = ({ tenure }: Field): string =>
  tenure ? [heldWords(tenure), tenure.since && `since ${monthYear(tenure.since)}`].filter(Boolean).join(" ") : "not recorded";

const land = (farm: Farm, field: Field): Fact[] => {
  const squareMeters = field.zones.reduce((sum, z) => sum + (z.squareMeters ?? 0), 0);
  const events = newestSamplings(farm, field);
  const whole = events.length === 1 && events[0]!.zones.length === field.zones.length;
  const methods = new Map<string, AnalyteId[]>();
  for (const zone of field.zones)
    for (const { measurement: m } of latestAdvice(farm, field, zone)?.advice.ratings ?? [])
      if (toldOf.includes(m.analyte)) {
        const label = methodLabel(m);
        const held = methods.get(label) ?? [];
        if (!held.includes(m.analyte)) methods.set(label, [...held, m.analyte]);
      }
  const size = `${area(squareMeters, farm.units)} ${areaUnit(farm.units)} in ${count(field.zones.length, "zone")}`;
  const partly = field.zones.some((z) => z.squareMeters === undefined) ? ", without those that have no boundary" : "";
  const sampled = events.map(
    ({ sampling: s, zones }) =>
      `${longDate(s.date)}, ${depth(s.depth, farm.units)} deep, by ${s.lab.name}${whole ? "" : ` (${list(zones)})`}`,
  );
  const tests = [...methods].map(([label, tested]) => `${list(tested.map(analyteInSentence))} by ${label}`);
  return [
    { term: "Area", value: squareMeters > 0 ? `${size}${partly}` : `not known; ${count(field.zones.length, "zone")}` },
    { term: "Tenure", value: tenureWords(field) },
    { term: "Sampled last", value: events.length === 0 ? "never, with results" : list(sampled) },
    { term: "Methods", value: tests.length === 0 ? "none" : capital(tests.join("; ")) },
  ];
};
