import type { Farm, Field } from "../../records/model.ts";
import type { FieldRow } from "./fieldList.ts";
import { laterCropsLeftOut, leavesOutProducts } from "../leftOut.ts";
import { byNeed, fieldList } from "./fieldList.ts";
import type { NeedKind } from "../season/fieldNeeds.ts";
import { fedBy, isFed, needKinds, needs } from "../season/fieldNeeds.ts";
import type { SeasonZone } from "../season/seasonZones.ts";
import { seasonZones } from "../season/seasonZones.ts";
import { spreadSinceAdvice } from "../season/seasonSpread.ts";
import { pH } from "../../interpretation/show.ts";
import type { NutrientId } from "../../interpretation/vocabulary.ts";
import { capital, count, list, listOfPhrases, monthYear, numberWord } from "../words.ts";
import { ratedCell } from "../advice/zoneRows.ts";

/** Above so many fields they are counted, not named. */
const mostNamed = 3;

const namesOf = (rows: readonly FieldRow[]): string => list(rows.map((r) => r.field.name));

const fieldsOrCount = (rows: readonly FieldRow[]): string => (rows.length > mostNamed ? count(rows.length, "field") : namesOf(rows));

/** "Sample Netloft again, last sampled in October 2021." */
const samplingWords = (rows: readonly FieldRow[]): string => {
  const [first] = rows;
  if (rows.length === 1)
    return first!.redrawn
      ? `Sample ${first!.field.name}: none of its zones was sampled since they were drawn anew.`
      : first!.never
        ? `Sample ${first!.field.name}: it has no routine sampling yet.`
        : first!.oldest === undefined
          ? `Sample every zone of ${first!.field.name}: not every one has been sampled.`
          : `Sample ${first!.field.name} again: it was last sampled in ${monthYear(first!.oldest)}.`;
  const again = rows.every((r) => r.oldest !== undefined);
  if (rows.length <= mostNamed)
    return again ? `Sample ${namesOf(rows)} again, which are overdue.` : `Sample every zone of ${namesOf(rows)}, which are due.`;
  return `Sample ${count(rows.length, "field")} that are overdue, ${first!.field.name} first.`;
};

/** "Outwash on Causeway": the zones, unless it is the whole field. */
const place = (field: Field, zones: readonly SeasonZone[]): string =>
  zones.length === field.zones.length
    ? field.name
    : zones.length > 2
      ? `${numberWord(zones.length)} of ${numberWord(field.zones.length)} zones of ${field.name}`
      : `${list(zones.map((z) => z.zone.name))} on ${field.name}`;

/** "; lime was spread there since the sampling", "; on two of them lime was spread since the sampling"; nothing where none was. */
const sinceWords = (
  rows: readonly FieldRow[],
  zones: readonly SeasonZone[],
  job: "lime" | "fertilizer",
  only?: readonly NutrientId[],
): string => {
  const spread = rows.filter(({ field }) => zones.some((z) => z.field === field && spreadSinceAdvice(z, job, only).length > 0));
  const what = job === "lime" ? "lime was spread" : "some was spread";
  if (spread.length === 0) return "";
  if (rows.length > mostNamed) return `; on ${numberWord(spread.length)} of them ${what} since the sampling`;
  return spread.length === rows.length ? `; ${what} there since the sampling` : `; on ${namesOf(spread)} ${what} since the sampling`;
};

/** "Lime Outwash on Causeway, where soil pH is 5.7." */
const limeWords = (rows: readonly FieldRow[], zones: readonly SeasonZone[]): string => {
  const since = sinceWords(rows, zones, "lime");
  if (rows.length > mostNamed) return `Lime ${count(rows.length, "field")}, where the guidelines call for it${since}.`;
  const fields = rows.map((row) => ({
    field: row.field,
    limed: zones.filter((z) => z.field === row.field && row.needs.some((n) => n.kind === "lime" && n.zones.includes(z.zone))),
  }));
  const values = fields.flatMap(({ limed }) => limed.flatMap((z) => ratedCell(z.advised?.advice, "pH").measurement?.value ?? []));
  const [least, most] = [pH(Math.min(...values)), pH(Math.max(...values))];
  const why =
    values.length === 0 ? "where the guidelines call for it" : `where soil pH is ${least === most ? least : `${least} to ${most}`}`;
  return `Lime ${listOfPhrases(fields.map(({ field, limed }) => place(field, limed)))}, ${why}${since}.`;
};

const nutrientWords = (rows: readonly FieldRow[], zones: readonly SeasonZone[], kind: "potassium" | "phosphorus"): string => {
  const analyte = kind === "potassium" ? "K" : "P";
  // A rate for another zone of the field feeds nothing that is low.
  const fed = ({ field, needs: all }: FieldRow): boolean =>
    zones.some((z) => z.field === field && all.some((n) => n.kind === kind && n.zones.includes(z.zone)) && isFed(z, analyte));
  const where = fieldsOrCount(rows);
  // Where no rate is shown, being low is all that can be said.
  if (!rows.every(fed)) return `${capital(kind)} is low on ${where}.`;
  const since = sinceWords(rows, zones, "fertilizer", fedBy[analyte]);
  return `Spread ${kind === "potassium" ? "potash" : "phosphate"} on ${where}, where ${kind} is low${since}.`;
};

/** What fields have of one kind of need, each with its fields: "zinc low" on these, "boron low" on those. */
const whatOf = (kind: NeedKind, rows: readonly FieldRow[]): (readonly [string, readonly FieldRow[]])[] =>
  [
    ...Map.groupBy(
      rows.flatMap((row) => row.needs.flatMap((n) => (n.kind === kind ? [{ what: n.what, row }] : []))),
      ({ what }) => what,
    ),
  ].map(([what, of]) => [what, of.map(({ row }) => row)] as const);

/** "Zinc is low on five fields and boron on Home Eighty.", "Zinc and boron are low on Home Eighty." */
const otherWords = (rows: readonly FieldRow[]): string => {
  const lows = [...Map.groupBy(whatOf("other", rows), ([, low]) => low.map((row) => row.field.id).join())].map(([, alike]) => ({
    names: alike.map(([what]) => what.replace(/ low$/, "")),
    where: fieldsOrCount(alike[0]![1]),
  }));
  return `${capital(listOfPhrases(lows.map(({ names, where }, i) => `${list(names)}${i > 0 ? "" : names.length === 1 ? " is low" : " are low"} on ${where}`)))}.`;
};

/** "no rate of lime on 16 fields"; of questions of several kinds how many fields they are on. */
const restWords = (kind: NeedKind, rows: readonly FieldRow[]): string => {
  const whats = whatOf(kind, rows);
  const what =
    whats.length === 1 && (kind === "question" || kind === "other") ? whats[0]![0] : needs[kind].toLowerCase().replace(", nothing low", "");
  return `${what} on ${count(rows.length, "field")}`;
};

const sentence = (kind: NeedKind, rows: readonly FieldRow[], zones: readonly SeasonZone[]): string => {
  if (kind === "sampling") return samplingWords(rows);
  if (kind === "lime") return limeWords(rows, zones);
  if (kind === "potassium" || kind === "phosphorus") return nutrientWords(rows, zones, kind);
  if (kind === "excess") return `Hold phosphate and manure back on ${fieldsOrCount(rows)}, where phosphorus is in excess.`;
  if (kind === "other") return otherWords(rows);
  return `Fertilizer for the next crop is advised on ${fieldsOrCount(rows)}${sinceWords(rows, zones, "fertilizer")}.`;
};

const jobKinds: readonly NeedKind[] = ["sampling", "lime", "potassium", "phosphorus", "excess", "other", "crop"];

/** No work is called for: because there is none, or because something must be known first. */
const idle = (farm: Farm, open: readonly FieldRow[]): string => {
  if (farm.fields.length === 0) return "No field is recorded yet.";
  if (open.length > 0) return `No work is advised now; on ${fieldsOrCount(open)} a question must be settled first.`;
  return leavesOutProducts(farm) || laterCropsLeftOut(farm)
    ? "Nothing that this reader is shown needs doing now."
    : "Nothing needs doing now.";
};

/** The farm's first sentences: what to do and why, the three most urgent kinds of work; and the rest in one line below. */
export const homeLede = (farm: Farm): { readonly lede: string; readonly rest: string } => {
  const rows = byNeed(fieldList(farm));
  const zones = seasonZones(farm);
  const fieldsWith = (kind: NeedKind): FieldRow[] => rows.filter((r) => r.needs.some((n) => n.kind === kind));
  const work = jobKinds.filter((kind) => fieldsWith(kind).length > 0);
  const said = work.slice(0, 3);
  const left = needKinds.filter((kind) => !said.includes(kind) && fieldsWith(kind).length > 0);
  return {
    lede: said.length === 0 ? idle(farm, fieldsWith("question")) : said.map((kind) => sentence(kind, fieldsWith(kind), zones)).join(" "),
    rest: said.length === 0 || left.length === 0 ? "" : `Besides: ${list(left.map((kind) => restWords(kind, fieldsWith(kind))))}.`,
  };
};
