import { analytes, crops } from "../../interpretation/vocabulary.ts";
import type { Farm, Field } from "../../records/model.ts";
import { shownGuidelines } from "../guidelines/comparison.ts";
import { glossary } from "./glossary.ts";
import { mapParts } from "../maps/mapPages.ts";
import { compareNames } from "../nameOrder.ts";
import { hasBalance } from "../balance/placeRecords.ts";
import { duePlans } from "../plan/duePlans.ts";
import { adviceParts } from "../advice/advicePages.ts";
import { trendPages } from "../trends/trendPages.ts";
import { timelineYears } from "../field/timeline.ts";
import { longDate } from "../words.ts";
import { everyZone } from "../zonesThen.ts";
import { paths, relativeHref } from "../paths.ts";
import { samplingName } from "../samplingName.ts";
import { pairParts } from "../alike/pairPages.ts";
import { planName } from "../plan/plan.ts";

/** What can be found, as the script of the search page reads it. Addresses are those of a page that stands where the search page stands. */
export interface SearchIndex {
  /** Title of the group, and the address of a field's thing with {field} and {key} in it. */
  readonly kinds: readonly (readonly [title: string, address: string])[];
  /** Id, name, other words to find it by, and its things by their place in `things`. */
  readonly fields: readonly (readonly [id: string, name: string, also: string, things: readonly number[]])[];
  /** A thing that one or more fields have: its kind, its text, and its key in the address. Each is written once. */
  readonly things: readonly (readonly [kind: number, text: string, key: string])[];
  /** Whatever belongs to no field: its kind, its text, its address, and other words to find it by. */
  readonly pages: readonly (readonly [kind: number, text: string, href: string, also: string])[];
}

const kinds = [
  { id: "field", title: "Fields", address: paths.field("{field}") },
  { id: "zone", title: "Zones", address: `${paths.field("{field}")}#zones` },
  { id: "part", title: "Pages of a field", address: paths.timeline("{field}").replace("timeline", "{key}") },
  { id: "year", title: "Years of a field", address: `${paths.timeline("{field}")}#y{key}` },
  { id: "sampling", title: "Samplings", address: paths.sampling("{field}", "{key}") },
  { id: "advice", title: "Advice as issued", address: paths.recommendation("{field}", "{key}") },
  { id: "analyte", title: "Results of a field", address: `${paths.field("{field}")}#history` },
  { id: "guideline", title: "Guidelines", address: "" },
  { id: "laboratory", title: "Laboratories", address: "" },
  { id: "word", title: "Words explained", address: "" },
  { id: "page", title: "Pages", address: "" },
] as const;
type Kind = (typeof kinds)[number]["id"];
type Thing = readonly [kind: Kind, text: string, key: string];

const place = (id: Kind): number => kinds.findIndex((k) => k.id === id);

/** Above so many fields the single samplings, analytes and plans are left out: years and zones lead to them, and the index stays light. */
export const mostFieldsInFull = 600;

/** "maps" of "fields/causeway/maps.html" */
const basename = (path: string): string => /([^/]+)\.html$/.exec(path)![1]!;

/** The pages that a field has beside its own; of a page in parts the first. */
const partsOf = (farm: Farm, field: Field, full: boolean): Thing[] => {
  const part = (text: string, path: string, there = true): Thing[] => (there ? [["part", text, basename(path)]] : []);
  return [
    ...part("timeline", paths.timeline(field.id)),
    ...part("advice zone by zone", paths.advice(field.id), adviceParts(field).length > 0),
    ...part("trends", paths.trends(field.id), trendPages(field).pages.length > 0),
    ...part("maps year by year", paths.maps(field.id), mapParts(field).length > 0),
    ...part("nutrient balance", paths.balance(field.id), hasBalance(field)),
    ...part("zones compared", paths.compared(field.id), pairParts(field).length > 0),
    ...part("summary for a landlord or lender", paths.fieldSummary(field.id)),
    ...(full ? duePlans(farm, field) : []).flatMap(({ purpose }) => part(planName(field, purpose), paths.plan(field.id, purpose))),
  ];
};

const thingsOf = (farm: Farm, field: Field, full: boolean): Thing[] => [
  ...partsOf(farm, field, full),
  ...everyZone(field).map((z): Thing => ["zone", z.name, ""]),
  ...timelineYears(field).map(({ year }): Thing => ["year", year, year]),
  ...field.recommendations.map(({ id, record }): Thing => ["advice", `advice issued ${longDate(id)} for ${record.for}`, id]),
  ...(full
    ? field.samplings.map((s): Thing => [
        "sampling",
        `${samplingName(s).label}, ${longDate(s.date)}${s.report?.number === undefined ? "" : `, report ${s.report.number}`}`,
        s.id,
      ])
    : []),
  ...(full
    ? measured(field).map((id): Thing => [
        "analyte",
        `${analytes[id].label}${analytes[id].short === analytes[id].label ? "" : ` (${analytes[id].short})`}`,
        id,
      ])
    : []),
];

const measured = (field: Field) => [
  ...new Set(field.samplings.flatMap((s) => s.composites.flatMap((c) => c.measurements.map((m) => m.analyte)))),
];

/** Tenure, and every crop that was grown or is planned. */
const also = (field: Field): string =>
  [
    field.tenure?.kind,
    ...new Set([...field.seasons.flatMap((s) => s.crops.map((c) => crops[c.crop].label)), ...field.plan.map((p) => crops[p.crop].label)]),
  ]
    .filter(Boolean)
    .join(" ");

const pagesOf = (farm: Farm): SearchIndex["pages"] => {
  const to = (target: string, anchor?: string): string => relativeHref(paths.search, target, anchor);
  const used = new Set(farm.fields.flatMap((f) => f.samplings.map((s) => s.lab.id)));
  const page = (text: string, path: string, words = ""): SearchIndex["pages"][number] => [place("page"), text, to(path), words];
  return [
    ...[...shownGuidelines(farm).values()].map(
      (g) => [place("guideline"), g.title, to(paths.guideline(g.id)), `${g.short} ${g.region}`] as const,
    ),
    ...[...farm.labs.values()]
      .filter((lab) => used.has(lab.id))
      .map((lab) => [place("laboratory"), lab.name, to(paths.methods, "results"), ""] as const),
    ...glossary.map((t) => [place("word"), t.term, to(paths.glossary, t.id), t.also ?? ""] as const),
    page(farm.name, paths.home, "home start what needs doing"),
    page("All fields", paths.fieldList("name"), "list name"),
    page("Fields by need", paths.fieldList("need"), "lime due low overdue urgent"),
    page("Fields by oldest test", paths.fieldList("oldest-test"), "sampled"),
    page("Fields by next crop", paths.fieldList("crop"), "plan"),
    page("Fields by tenure", paths.fieldList("tenure"), "owned rented managed"),
    page("What to buy and spread for the season", paths.season, "lime fertilizer cost"),
    page("Spreader sheets", paths.spreaderSheets, "print"),
    page("Summary for a landlord or a lender", paths.summary, "farm on one sheet owed"),
    page("Sampling calendar", paths.calendar, "due cost"),
    page("Compare the guidelines", paths.compare, ""),
    page("Guidelines and references", paths.references, "publications sources"),
    page("How these numbers were made", paths.methods, "methods corrections"),
    page("How we know", paths.checks, "checks published values"),
    page("Words explained", paths.glossary, "glossary"),
  ];
};

/** The part of the index that grows with the farm: its fields by name, and what each of them has. */
export const fieldThings = (farm: Farm): Pick<SearchIndex, "fields" | "things"> => {
  const full = farm.fields.length <= mostFieldsInFull;
  const known = new Map<string, number>();
  const things: (readonly [number, string, string])[] = [];
  const numberOf = ([kind, text, key]: Thing): number => {
    const name = `${kind}\n${text}\n${key}`;
    let at = known.get(name);
    if (at === undefined) {
      known.set(name, (at = things.length));
      things.push([place(kind), text, key]);
    }
    return at;
  };
  const byName = [...farm.fields].sort((a, b) => compareNames(a.name, b.name));
  return {
    fields: byName.map((field) => [field.id, field.name, also(field), [...new Set(thingsOf(farm, field, full).map(numberOf))]] as const),
    things,
  };
};

/** Built from the same farm as the pages, so that it holds nothing they do not. */
export const searchIndex = (farm: Farm): SearchIndex => ({
  kinds: kinds.map(({ title, address }) => [title, address] as const),
  ...fieldThings(farm),
  pages: pagesOf(farm),
});
