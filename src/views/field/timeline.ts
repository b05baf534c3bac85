import type { Field } from "../../records/model.ts";
import type { Draft, TimelineEntry, TimelineKind } from "./timelineEntries.ts";
import { applicationEntry, corrections, cropEntries, samplingEntry, timelineKinds } from "./timelineEntries.ts";
import { longDate } from "../words.ts";
import { zoneChanges } from "../zonesThen.ts";
import { paths } from "../paths.ts";

export interface TimelineYear {
  readonly year: string;
  readonly entries: readonly TimelineEntry[];
}

/** Advice as it was issued: what the timeline needs to know of it. */
export interface IssuedAdvice {
  readonly date: string;
  readonly text: string;
  readonly note?: string | undefined;
  readonly file: string;
  /** Its own page. */
  readonly to?: string | undefined;
}

export interface TimelineView {
  readonly lede: string;
  readonly period: string;
  /** Newest first. */
  readonly years: readonly TimelineYear[];
  /** The kinds that occur, with how often. */
  readonly kinds: readonly { readonly kind: TimelineKind; readonly label: string; readonly count: number }[];
}

const issuedEntry = (a: IssuedAdvice): Draft => ({ date: a.date, kind: "advice", text: a.text, note: a.note, to: a.to, where: a.file });

/** The advice that was kept as it was issued, each piece with its own page. */
const issuedOf = (field: Field): IssuedAdvice[] =>
  field.recommendations.map(({ id, file, record }) => ({
    date: record.issued,
    text: `Advice for ${record.for}, from the sampling of ${longDate(record.sampling.date)}`,
    file,
    to: paths.recommendation(field.id, id),
  }));

/** Newest first; within a day in the order of the kinds; what has no day comes last in its year. */
const later = (a: Draft, b: Draft): number => {
  const years = Number(b.date.slice(0, 4)) - Number(a.date.slice(0, 4));
  if (years !== 0) return years;
  if (a.date !== b.date) return a.date.length !== b.date.length ? b.date.length - a.date.length : a.date < b.date ? 1 : -1;
  const order = Object.keys(timelineKinds);
  return order.indexOf(a.kind) - order.indexOf(b.kind);
};

/** Everything the records tell of a field, as one thread by date. */
export const timelineYears = (field: Field, issued: readonly IssuedAdvice[] = issuedOf(field)): TimelineYear[] => {
  const drafts: Draft[] = [
    ...field.samplings.flatMap((s) => [samplingEntry(field, s), ...corrections(field, s)]),
    ...issued.map(issuedEntry),
    ...zoneChanges(field).map(({ date, text }): Draft => ({ date, kind: "zones", text, where: field.file })),
    ...field.seasons.flatMap((s) => [
      ...s.applications.map((a) => applicationEntry(field, a)),
      ...cropEntries(field, s.season, s.crops, "planted"),
      ...cropEntries(field, s.season, s.crops, "harvested"),
    ]),
  ];
  const used = new Map<string, number>();
  const years = new Map<string, TimelineEntry[]>();
  for (const d of drafts.sort(later)) {
    const base = `${d.date}-${d.kind}`;
    const n = (used.get(base) ?? 0) + 1;
    used.set(base, n);
    const year = d.date.slice(0, 4);
    years.set(year, [
      ...(years.get(year) ?? []),
      { note: undefined, corrected: undefined, to: undefined, ...d, id: n === 1 ? base : `${base}-${n}` },
    ]);
  }
  return [...years].map(([year, entries]) => ({ year, entries }));
};

/** All that a field's timeline page shows. */
export const timelineView = (field: Field, issued: readonly IssuedAdvice[] = issuedOf(field)): TimelineView => {
  const years = timelineYears(field, issued);
  const entries = years.flatMap((y) => y.entries);
  const kinds = (Object.keys(timelineKinds) as TimelineKind[]).flatMap((kind) => {
    const n = entries.filter((e) => e.kind === kind).length;
    return n > 0 ? [{ kind, label: timelineKinds[kind], count: n }] : [];
  });
  const [newest, oldest] = [years[0]?.year, years.at(-1)?.year];
  return {
    lede:
      entries.length === 0
        ? "Nothing is recorded of this field yet."
        : `What was sampled, advised, spread, planted and harvested on ${field.name}, and what was corrected since.`,
    period: newest === undefined ? "no records yet" : newest === oldest ? newest : `${oldest!} to ${newest}`,
    years,
    kinds,
  };
};
