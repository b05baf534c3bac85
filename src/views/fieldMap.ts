import { methodLabel } from "../interpretation/measurement.ts";
import { show } from "../interpretation/show.ts";
import type { AnalyteId } from "../interpretation/vocabulary.ts";
import type { Farm, Field } from "../records/model.ts";
import { apartMark, apartNote } from "./apart.ts";
import type { MapModel } from "./map.ts";
import { drawable, mapModel } from "./map.ts";
import type { ZoneAdvice } from "./sample.ts";
import { area, areaUnit, depth } from "./units.ts";
import { list, longDate } from "./words.ts";
import { zoneCells } from "./zoneCells.ts";
import type { RatedCell } from "./zoneRows.ts";
import { columnHead, mapCss, ratingOf } from "./zoneRows.ts";

export interface FieldMap {
  readonly analyte: AnalyteId;
  readonly title: string;
  readonly note: string;
  readonly model: MapModel;
}

/** A field's zones in the classes of one analyte. `undefined` where none was tested for it, or none has a boundary. */
export const fieldMap = (farm: Farm, field: Field, analyte: AnalyteId, advised: ReadonlyMap<string, ZoneAdvice>): FieldMap | undefined => {
  const all = zoneCells(farm, field, analyte, advised);
  const cells = new Map(field.zones.map((z, i) => [z.id, all[i]!]));
  if (![...cells.values()].some((cell) => cell.value !== "")) return undefined;
  const legend = new Map<string, string>();
  const zones = drawable(field.zones).map((zone) => {
    const cell = cells.get(zone.id)!;
    const css = mapCss(cell, analyte);
    legend.set(css, legendLabel(cell, analyte, ratingOf(advised.get(zone.id), analyte)?.bands ?? []));
    const value = cell.value === "" ? (cell.why ?? "") : `${cell.value}${cell.apart === undefined ? "" : ` ${apartMark}`}`;
    const size = zone.squareMeters === undefined ? "" : `${area(zone.squareMeters, farm.units)} ${areaUnit(farm.units)}`;
    return { id: zone.id, area: zone.area, css, lines: [`${zone.letter} ${zone.name}`, value, size], title: `${zone.name}: ${value}${cell.band ? `, ${cell.band}` : ""}` };
  });
  const order = ["c-s1", "c-v2", "c-s2", "c-v3", "c-s4", "c-v4", "c-none", "c-nd"];
  const classes = [...legend].sort(([a], [b]) => order.indexOf(a) - order.indexOf(b)).map(([css, label]) => ({ css, label }));
  const model = mapModel(zones, 560, 440, farm.units, classes);
  if (!model) return undefined;
  const rated = [...advised.values()].flatMap((z) => ratingOf(z, analyte) ?? []);
  const dates = [...new Set([...advised.values()].map((z) => z.sampling.date))].map(longDate);
  const methodsUsed = [...new Set(rated.map((r) => methodLabel(r.measurement)))];
  const depths = [...new Set(rated.map((r) => depth(r.measurement.depth, farm.units)))];
  const packs = [...new Set(rated.flatMap((r) => (r.outcome.kind === "answer" && r.pack ? r.pack.short : [])))];
  return {
    analyte,
    title: columnHead(analyte, [...cells.values()]),
    note: [
      dates.length > 0 && `Sampled ${list(dates)}.`,
      methodsUsed.length > 0 && `Measured by ${list(methodsUsed)}, ${list(depths)}.`,
      packs.length > 0 ? `Classes: ${list(packs)}.` : "No guideline chosen classes it.",
      apartNote(field.zones.map((z) => ({ name: z.name, cell: cells.get(z.id)! }))),
      ...field.zones.flatMap((z) => cells.get(z.id)!.corrections.map((c) => `${z.name} was ${c.bag === undefined ? "" : "in one bag "}${c.was} before a correction: ${c.why}.`)),
    ]
      .filter(Boolean)
      .join(" "),
    model,
  };
};

/** "deficient, below 120": the class with its limits, as this zone's soil and crop set them. */
const legendLabel = (cell: RatedCell, analyte: AnalyteId, bands: NonNullable<ReturnType<typeof ratingOf>>["bands"]): string => {
  if (cell.value === "") return cell.why ?? "not sampled";
  const rank = bands.findIndex((b) => b.name === cell.band);
  if (rank < 0) return "no class";
  const decimals = analyte === "pH" ? 1 : 0;
  const from = bands[rank]!.from ?? bands[rank]!.above;
  const next = bands[rank + 1];
  const to = next?.from ?? next?.above;
  const show1 = (n: number): string => show(n, decimals);
  const above = bands[rank]!.above !== undefined;
  if (from === undefined) return to === undefined ? cell.band! : `${cell.band!}, below ${show1(to)}`;
  if (to === undefined) return `${cell.band!}, ${above ? "above " : ""}${show1(from)}${above ? "" : " and over"}`;
  return `${cell.band!}, ${show1(from)} to ${next?.from === undefined ? "" : "under "}${show1(to)}`;
};
