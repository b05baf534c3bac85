import { rate } from "../interpretation/rating.ts";
import type { AnalyteId } from "../interpretation/vocabulary.ts";
import { analyteInSentence, analytes, crops, purposes } from "../interpretation/vocabulary.ts";
import type { Farm, Field, Sampling } from "../records/model.ts";
import { apartMark } from "./apart.ts";
import { isAwaited } from "./awaited.ts";
import type { EvenSteps } from "./evenSteps.ts";
import { evenSteps } from "./evenSteps.ts";
import type { MapClass, MapModel } from "./map.ts";
import { drawable, mapModel } from "./map.ts";
import { apartFromNewest, othersApart, resultOf } from "./mapApart.ts";
import { mapFill } from "./mapFill.ts";
import { mapParts, testedIn } from "./mapPages.ts";
import { fieldCsv, weight } from "./rows.ts";
import { zoneSample } from "./sample.ts";
import type { ZoneSample } from "./sample.ts";
import { inUnitsOf } from "./units.ts";
import { capital, count, list, longDate, monthYear, yearSpan } from "./words.ts";
import { zoneCells } from "./zoneCells.ts";
import type { RatedCell, RatedZone } from "./zoneRows.ts";

/** A zone of one year's map: the value, and its class or why there is none, in words. */
export interface YearZone {
  readonly css: string;
  readonly value: string;
  readonly band: string;
}

export interface YearMap {
  readonly analyte: AnalyteId;
  /** Whether any zone has a result: without one there is nothing to draw. */
  readonly tested: boolean;
  readonly title: string;
  readonly note: string;
  /** By zone of the field. */
  readonly zones: readonly YearZone[];
  readonly legend: readonly MapClass[];
  /** True where a result of it must not be compared with its zone's newest. */
  readonly apart: boolean;
}

export interface MapYear {
  readonly sampling: string;
  /** "2016", or as much of the date as tells it from another sampling. */
  readonly label: string;
  readonly maps: readonly YearMap[];
}

export interface YearMapsView {
  readonly title: string;
  readonly lede: string;
  /** Where the zones lie, drawn once for all years; `undefined` never occurs where `mapParts` has a part. */
  readonly outline: MapModel;
  readonly analytes: readonly { readonly analyte: AnalyteId; readonly name: string }[];
  /** Oldest first. */
  readonly years: readonly MapYear[];
  readonly parts: readonly { readonly part: number; readonly holds: string }[];
  /** "routine sampling" */
  readonly purpose: string;
  readonly csvWeight: string;
}

/** As little of each sampling's date, and then its laboratory, as tells all of them apart. */
const labelsOf = (samplings: readonly Sampling[]): Map<Sampling, string> => {
  const ways: readonly ((s: Sampling) => string)[] = [(s) => s.date.slice(0, 4), (s) => monthYear(s.date), (s) => longDate(s.date), (s) => `${longDate(s.date)}, ${s.lab.name}`];
  return new Map(samplings.map((s) => [s, (ways.find((way) => samplings.filter((other) => way(other) === way(s)).length === 1) ?? ((each: Sampling) => each.id))(s)]));
};

type Rated = RatedZone & ZoneSample;

/** Each zone that was sampled then, rated by the guidelines chosen now for the crop that followed. */
const ratedZones = (farm: Farm, field: Field, sampling: Sampling): Map<string, Rated> =>
  new Map(
    field.zones.flatMap((zone): [string, Rated][] => {
      const found = zoneSample(farm, field, zone, sampling);
      return found ? [[zone.id, { ...found, advice: { ratings: found.sample.measurements.map((m) => rate(found.sample, m)) } }]] : [];
    }),
  );

const cropNote = (rated: ReadonlyMap<string, Rated>): string => {
  const grown = [...new Set([...rated.values()].flatMap(({ crop }) => (crop ? `${crops[crop.crop].label.toLowerCase()} in ${crop.season}` : [])))];
  return grown.length === 0 ? "Read without a crop: none is recorded after it." : `Read for ${list(grown)}.`;
};

const bandWords = (cell: RatedCell, steps: EvenSteps | undefined): string => (cell.value === "" ? "" : (cell.band ?? (steps ? "" : "no class")));

/**
 * The shades of an analyte of which no guideline says on this page what is low or high: steps over every result in the unit of most of these cells, however it was
 * measured, so that one shade means one amount on every map.
 */
const stepsOf = (field: Field, analyte: AnalyteId, samplings: readonly Sampling[], cells: readonly RatedCell[]): EvenSteps | undefined => {
  const like = cells.find((cell) => cell.measurement && cell.apart === undefined)?.measurement;
  if (!like) return undefined;
  const inUnit = samplings.flatMap((s) => field.zones.flatMap((z) => resultOf(s, z.id, analyte) ?? [])).filter((m) => m.unit === like.unit);
  return evenSteps(inUnit.map((m) => m.value), like.unit === "pH");
};

/** The cells of one sampling's map; a bag whose results are awaited says so. */
const cellsOf = (farm: Farm, field: Field, sampling: Sampling, analyte: AnalyteId, rated: ReadonlyMap<string, Rated>): RatedCell[] =>
  zoneCells(farm, field, analyte, rated).map((cell, i) =>
    cell.value === "" && sampling.composites.some((c) => c.zone === field.zones[i]!.id && isAwaited(c)) ? { ...cell, why: "results awaited" } : cell,
  );

const longest = (texts: readonly string[]): string => texts.reduce((most, text) => (text.length > most.length ? text : most), "");

/** The zones with the longest labels that any of the maps puts on them, so that one way of labeling fits all. */
const outlineOf = (farm: Farm, field: Field, years: readonly MapYear[]): MapModel => {
  const maps = years.flatMap((y) => y.maps.filter((m) => m.tested));
  const zones = drawable(field.zones).map((zone) => {
    const i = field.zones.findIndex((z) => z.id === zone.id);
    const [value, band] = [longest(maps.map((m) => m.zones[i]!.value)), longest(maps.map((m) => m.zones[i]!.band))];
    return { id: zone.id, area: zone.area, css: "", lines: [`${zone.letter} ${zone.name}`, value, band], shorter: [[zone.letter, value], [zone.letter]], title: zone.name };
  });
  return mapModel(zones, 560, 440, farm.units, [])!;
};

/** One page of a field's maps: every analyte of every sampling it holds. `part` counts from 1. */
export const yearMaps = (site: Farm, field: Field, part: number): YearMapsView => {
  const farm = inUnitsOf(site, field);
  const all = mapParts(field);
  const own = all[part - 1]!;
  const { purpose } = own[0]!;
  const samplings = all.filter((group) => group[0]!.purpose === purpose).toReversed().flat();
  const labels = labelsOf(samplings);
  const tested = testedIn(own);
  const rated = new Map(own.map((sampling) => [sampling, ratedZones(farm, field, sampling)]));
  const classed = new Set([...rated.values()].flatMap((zones) => [...zones.values()].flatMap((z) => z.advice.ratings.filter((r) => r.outcome.kind === "answer" && r.outcome.value.position).map((r) => r.measurement.analyte))));
  const map = (sampling: Sampling, analyte: AnalyteId): YearMap => {
    const zones = rated.get(sampling)!;
    const cells = cellsOf(farm, field, sampling, analyte, zones);
    const steps = classed.has(analyte) ? undefined : stepsOf(field, analyte, samplings, cells);
    const fill = mapFill(farm, field, analyte, zones, cells, steps);
    const apart = apartFromNewest(field, sampling, analyte, samplings);
    const any = cells.some((cell) => cell.value !== "");
    const words = any ? [...fill.notes, !steps && cropNote(zones), apart, sampling === samplings.at(-1) && othersApart(field, analyte, labels)] : ["Not tested in this sampling."];
    return {
      analyte,
      tested: any,
      title: fill.title,
      note: words.filter(Boolean).join(" "),
      zones: cells.map((cell, i) => ({ css: fill.css[i]!, value: cell.value === "" ? (cell.why ?? "") : `${cell.value}${cell.apart === undefined ? "" : ` ${apartMark}`}`, band: bandWords(cell, steps) })),
      legend: fill.legend,
      apart: apart !== undefined,
    };
  };
  const years = own.map((sampling): MapYear => ({ sampling: sampling.id, label: labels.get(sampling)!, maps: tested.map((analyte) => map(sampling, analyte)) }));
  const holds = (group: readonly Sampling[]): string => `${purposes[group[0]!.purpose].label}s, ${yearSpan(group.map((s) => s.date))}`;
  return {
    title: all.length === 1 ? `Maps of ${field.name}` : `Maps of ${field.name}: ${holds(own)}`,
    lede: `${tested.length > 4 ? capital(count(tested.length, "test")) : capital(list(tested.map(analyteInSentence)))} of each zone, as ${count(own.length, purposes[purpose].label)} of ${yearSpan(own.map((s) => s.date))} found ${own.length === 1 && tested.length === 1 ? "it" : "them"}.`,
    outline: outlineOf(farm, field, years),
    analytes: tested.map((analyte) => ({ analyte, name: analytes[analyte].label })),
    years,
    parts: all.map((group, i) => ({ part: i + 1, holds: holds(group) })),
    purpose: purposes[purpose].label,
    csvWeight: weight(fieldCsv(field, site.units)),
  };
};
