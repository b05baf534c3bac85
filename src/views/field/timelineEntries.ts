import { measurementLabel } from "../../interpretation/measurement.ts";
import { plain } from "../../interpretation/show.ts";
import { analytes, crops } from "../../interpretation/vocabulary.ts";
import { harvestedBy } from "../../interpretation/zoneLife.ts";
import type { Application, Field, GrownCrop, Sampling } from "../../records/model.ts";
import { appliedRate } from "../advice/appliedRate.ts";
import { awaitedWords } from "../results/awaited.ts";
import { leftOutForReader } from "../leftOut.ts";
import { capital, count, list, longDate } from "../words.ts";
import { onZones, zoneName, zoneNames } from "../zonesThen.ts";
import { paths } from "../paths.ts";
import { samplingName } from "../samplingName.ts";

export const timelineKinds = {
  sampling: "sampling",
  advice: "advice",
  correction: "correction",
  lime: "lime",
  fertilizer: "fertilizer",
  manure: "manure",
  zones: "zones",
  planted: "planting",
  harvested: "harvest",
} as const;
export type TimelineKind = keyof typeof timelineKinds;

export interface TimelineEntry {
  /** Its anchor on the page. */
  readonly id: string;
  /** `YYYY-MM-DD`, or only the season where the record gives no day. */
  readonly date: string;
  readonly kind: TimelineKind;
  readonly text: string;
  readonly note: string | undefined;
  /** A result before and after its correction. */
  readonly corrected: { readonly was: string; readonly now: string } | undefined;
  /** The page that tells more, if there is one. */
  readonly to: string | undefined;
  /** Where it stands in the records. */
  readonly where: string;
}

/** An entry before the page gives it its anchor. */
export type Draft = Omit<TimelineEntry, "id" | "note" | "corrected" | "to"> & Partial<Pick<TimelineEntry, "note" | "corrected" | "to">>;

const place = ({ file, line }: { file: string; line: number }): string => `${file}:${line}`;

export const samplingEntry = (field: Field, s: Sampling): Draft => ({
  date: s.date,
  kind: "sampling",
  text: `${capital(samplingName(s).label)}, ${[count(s.composites.length, "bag"), s.lab.name, awaitedWords(s)].filter(Boolean).join(", ")}`,
  note: s.note,
  to: paths.sampling(field.id, s.id),
  where: s.file,
});

/** A correction stands on its own day, which can be years after the sampling. */
export const corrections = (field: Field, s: Sampling): Draft[] =>
  s.composites.flatMap((c) =>
    c.measurements.flatMap((m): Draft[] => {
      if (!m.correction) return [];
      const { was, reason, date, origin } = m.correction;
      const zone = zoneName(field, c.zone);
      return [
        {
          date,
          kind: "correction",
          text: `${analytes[m.analyte].label} of ${zone}, bag ${c.label}, sampled ${longDate(s.date)}`,
          corrected: { was: plain(was), now: measurementLabel(m) },
          note: reason,
          to: paths.sampling(field.id, s.id),
          where: place(origin),
        },
      ];
    }),
  );

export const applicationEntry = (field: Field, a: Application): Draft => ({
  date: a.date,
  kind: a.product.product.kind,
  text: `${capital(a.product.product.name)}, ${appliedRate(a)}${onZones(field, a.zones, a.date)}`,
  note: a.note,
  where: place(a.origin),
});

/** Crops of one day are one entry: "Harvest of corn: Knoll 179 bu/ac, Apron 195 bu/ac". */
export const cropEntries = (field: Field, season: number, grown: readonly GrownCrop[], kind: "planted" | "harvested"): Draft[] => {
  const groups = new Map<string, GrownCrop[]>();
  for (const c of grown) {
    // A crop without any day still belongs to its season; it is told once, with its harvest.
    const date = kind === "planted" ? c.planted : (c.harvested ?? (c.planted === undefined ? String(season) : undefined));
    if (date === undefined) continue;
    const key = `${date} ${c.crop}`;
    groups.set(key, [...(groups.get(key) ?? []), c]);
  }
  return [...groups].map(([key, some]): Draft => {
    const [date] = key.split(" ") as [string];
    const { label } = crops[some[0]!.crop];
    const zones = some.flatMap((c) => c.zones);
    const notes = [...new Set(some.flatMap((c) => c.note ?? []))];
    return {
      date,
      kind,
      text:
        kind === "planted"
          ? `${capital(label)} planted${onZones(field, zones, dayOf(some[0]!, season))}`
          : harvestWords(field, label, some, season),
      note: kind === "harvested" || some.every((c) => c.harvested === undefined) ? notes.join("; ") || undefined : undefined,
      where: place(some[0]!.origin),
    };
  });
};

/** The day whose zones a crop is told of. */
const dayOf = ({ harvested }: GrownCrop, season: number): string => harvested ?? `${season}-${harvestedBy}`;

const harvestWords = (field: Field, label: string, some: readonly GrownCrop[], season: number): string => {
  const taken = (c: GrownCrop): string =>
    c.yield ? `${plain(c.yield.value)} ${c.yield.unit}` : c.yieldWithheld ? `yield ${leftOutForReader}` : "yield not recorded";
  const what = some.every((c) => c.harvested === undefined) ? capital(label) : `Harvest of ${label}`;
  const straw = some.some((c) => c.straw === "removed") ? "; straw taken off" : "";
  const [only] = some;
  if (some.every((c) => c.yieldWithheld))
    return `${what}${onZones(field, [...new Set(some.flatMap((c) => c.zones))], dayOf(some[0]!, season))}, yield ${leftOutForReader}${straw}`;
  return `${what}${some.length === 1 ? `${onZones(field, only!.zones, dayOf(only!, season))}, ${taken(only!)}` : `: ${list(some.map((c) => `${zoneNames(field, c.zones)} ${taken(c)}`))}`}${straw}`;
};
