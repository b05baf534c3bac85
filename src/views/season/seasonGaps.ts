import { sectionsOf } from "../../interpretation/guideline.ts";
import { nitrogenKinds } from "../../interpretation/nitrogen/nitrogen.ts";
import { crops, nitrogenFixers } from "../../interpretation/vocabulary.ts";
import type { Farm, Field } from "../../records/model.ts";
import type { AdviceRow } from "../advice/adviceRow.ts";
import { noRate } from "../advice/adviceView.ts";
import { advicePath } from "../advice/advicePages.ts";
import { nitrogenElsewhere } from "../advice/nitrogenView.ts";
import { paths } from "../paths.ts";
import { awaitedOf, unadvisedBecause } from "../results/awaited.ts";
import { limitedNitrogen } from "../advice/zonePurchase.ts";
import { leavesOut } from "../leftOut.ts";
import { dueOf } from "../calendar/due.ts";
import type { SeasonZone } from "./seasonZones.ts";
import { seasonZonesOf } from "./seasonZones.ts";
import { count, list, longDate } from "../words.ts";

/** One thing that could not be said, and where: each place leads to the page that says so of the zone. */
export interface SeasonGap {
  readonly text: string;
  /** What would settle it, in the vocabulary's words. */
  readonly missing: readonly string[];
  readonly places: readonly { readonly field: Field; readonly words: string; readonly path: string; readonly anchor: string }[];
}

const placeOf = ({ field, zone }: SeasonZone): string => (field.zones.length === 1 ? field.name : `${field.name}, ${zone.name}`);

/** Of a crop whose nitrogen no guideline holds, the field's page has no line of it: here it is told, or it would be taken for none needed. */
const nitrogenUntold = ({ farm, field, advised }: SeasonZone): Pick<SeasonGap, "text" | "missing"> | undefined => {
  const crop = advised?.advice.crop;
  if (!crop || advised.advice.nitrogenAlone || advised.advice.advice.nitrogen || leavesOut(farm, "nitrogen")) return undefined;
  // A test that nobody reads has a line of its own.
  if (nitrogenFixers.has(crop.crop) || advised.advice.nitrogen?.sampling) return undefined;
  // Once for all crops, where no guideline of nitrogen was chosen at all.
  if (!field.guidelines.some((g) => nitrogenKinds.some((kind) => sectionsOf(g, kind).length > 0)))
    return {
      text: "No nitrogen rate, because none of the chosen guidelines tells nitrogen.",
      missing: ["a guideline for nitrogen, or your own plan for it"],
    };
  const { label } = crops[crop.crop];
  return {
    text: `No nitrogen rate for ${label} ${crop.season}, because none of the chosen guidelines, as held here, tells nitrogen for ${label}.`,
    missing: [nitrogenElsewhere(label)],
  };
};

/** What a zone's rows could not say: rates of nutrients that lack one thing for one reason are told as one. */
const unanswered = (rows: readonly AdviceRow[]): (Pick<SeasonGap, "text" | "missing"> & { readonly anchor: string })[] => {
  const open = rows.filter((row) => row.none !== undefined && row.past !== true);
  const alike = Map.groupBy(open, ({ id, noRate: no, missing }) => (no ? [no.because, ...missing].join("\n") : id));
  return [...alike.values()].map((same) => {
    const { id, none, noRate: no, missing } = same[0]!;
    const of = same.flatMap((row) => row.noRate?.of ?? []);
    return { text: no ? noRate(`${list(of, "or")} rate`, no.because) : none!, missing, anchor: id };
  });
};

/** What the guidelines could not say for the season and why, each reason once with every zone it holds for. */
export const seasonGaps = (farm: Farm, fields: readonly Field[] = farm.fields): SeasonGap[] => {
  const gaps = new Map<string, { text: string; missing: readonly string[]; places: SeasonGap["places"][number][] }>();
  const add = (zone: SeasonZone, text: string, missing: readonly string[], anchor: string, path = paths.field(zone.field.id)): void => {
    const key = [text, ...missing].join("\n");
    const gap = gaps.get(key) ?? { text, missing, places: [] };
    gaps.set(key, gap);
    gap.places.push({ field: zone.field, words: placeOf(zone), path, anchor });
  };
  for (const zone of seasonZonesOf(farm, fields)) {
    if (!zone.advised) {
      const awaited = awaitedOf(zone.field, zone.zone).length > 0;
      const because = unadvisedBecause(zone.field, zone.zone);
      add(zone, `No advice, because ${because}.`, [awaited ? "the results of its bags" : "a routine sampling"], "facts");
    }
    for (const { text, missing, anchor } of unanswered(zone.advised?.view.rows ?? []))
      add(zone, text, missing, anchor, advicePath(zone.field, zone.zone));
    const limit = zone.advised && !leavesOut(zone.farm, "nitrogen") ? limitedNitrogen(zone.advised.advice) : undefined;
    if (limit)
      add(
        zone,
        `No nitrogen to spread, because ${limit.pack?.short ?? "the guideline"} says the most that is allowed, and not how much to give.`,
        ["your own plan for nitrogen, within it"],
        `${zone.zone.id}-n`,
        advicePath(zone.field, zone.zone),
      );
    const untold = nitrogenUntold(zone);
    if (untold) add(zone, untold.text, untold.missing, "facts");
    if (zone.lines.some((line) => line.acres === undefined))
      add(
        zone,
        "No total and no cost, because the zone has no boundary and its area is not known.",
        ["the zone's polygon in zones.geojson"],
        "zones",
      );
  }
  return [...gaps.values()];
};

/** Lines of zones, those of a field as one by its name alone where they hold for all of it and `same` is so of each. */
const byWholeField = <Line extends { readonly field: Field; readonly words: string }>(
  lines: readonly Line[],
  same: (line: Line, first: Line) => boolean,
): Line[] =>
  [...Map.groupBy(lines, (line) => line.field)].flatMap(([field, here]) =>
    here.length === field.zones.length && here.every((line) => same(line, here[0]!)) ? [{ ...here[0]!, words: field.name }] : here,
  );

/** The places of a gap, a field that it holds for as a whole by its name alone, which leads to its first zone. */
export const gapPlaces = ({ places }: SeasonGap): SeasonGap["places"] => byWholeField(places, () => true);

/** "23 zones of seven fields": where a gap is, on a page that cannot hold every place. */
export const gapWhere = ({ places }: SeasonGap): string =>
  `${count(places.length, "zone")} of ${count(new Set(places.map((p) => p.field)).size, "field")}`;

/** Zones whose newest routine sampling is older than their guideline's interval: their advice is shown, and marked. */
export const oldAdvice = (
  farm: Farm,
  fields: readonly Field[] = farm.fields,
): { readonly field: Field; readonly words: string; readonly since: string }[] =>
  seasonZonesOf(farm, fields).flatMap((zone) => {
    if (!zone.old || !zone.advised) return [];
    const { words } = dueOf(farm, zone.field, zone.zone);
    return [
      {
        field: zone.field,
        words: placeOf(zone),
        since: `sampled ${longDate(zone.advised.advice.sampling.date)}, the next sampling was due ${words.replace(", overdue", "")}`,
      },
    ];
  });

/** The same lines, a field by its name alone where one day holds for all its zones. */
export const oldPlaces = (old: ReturnType<typeof oldAdvice>): ReturnType<typeof oldAdvice> =>
  byWholeField(old, (line, first) => line.since === first.since);
