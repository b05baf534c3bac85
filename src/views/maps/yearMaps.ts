import type { AnalyteId } from "../../interpretation/vocabulary.ts";
import { analyteInSentence, analytes } from "../../interpretation/vocabulary.ts";
import type { Farm, Field, Sampling, Zone } from "../../records/model.ts";
import type { MapModel } from "./map.ts";
import { drawable, mapModel } from "./map.ts";
import { mapParts, testedIn } from "./mapPages.ts";
import { fieldCsv, weight } from "../results/rows.ts";
import { inUnitsOf } from "../units.ts";
import { capital, count, list, longDate, monthYear, yearSpan } from "../words.ts";
import type { YearMap } from "./yearMap.ts";
import { mapsPage, yearMap } from "./yearMap.ts";
import { fieldAsOf } from "../zonesThen.ts";
import { samplingName } from "../samplingName.ts";

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
  /** Those of the time. */
  readonly zones: readonly Zone[];
  /** `head`: with the unit, "Potassium, ppm", for the table of its figures; the units of maps that differ stand in `YearMap.title`. */
  readonly analytes: readonly { readonly analyte: AnalyteId; readonly name: string; readonly head: string }[];
  /** Oldest first. */
  readonly years: readonly MapYear[];
  readonly parts: readonly { readonly part: number; readonly holds: string }[];
  /** "routine sampling" */
  readonly purpose: string;
  readonly csvWeight: string;
}

/** As little of each sampling's date, and then its laboratory, as tells all of them apart. */
const labelsOf = (samplings: readonly Sampling[]): Map<Sampling, string> => {
  const ways: readonly ((s: Sampling) => string)[] = [
    (s) => s.date.slice(0, 4),
    (s) => monthYear(s.date),
    (s) => longDate(s.date),
    (s) => `${longDate(s.date)}, ${s.lab.name}`,
  ];
  return new Map(
    samplings.map((s) => [
      s,
      (ways.find((way) => samplings.filter((other) => way(other) === way(s)).length === 1) ?? ((each: Sampling) => each.id))(s),
    ]),
  );
};

const longest = (texts: readonly string[]): string => texts.reduce((most, text) => (text.length > most.length ? text : most), "");

/** The zones with the longest labels that any of the maps puts on them, so that one way of labeling fits all. */
const outlineOf = (farm: Farm, field: Field, years: readonly MapYear[]): MapModel => {
  const maps = years.flatMap((y) => y.maps.filter((m) => m.tested));
  const zones = drawable(field.zones).map((zone) => {
    const i = field.zones.findIndex((z) => z.id === zone.id);
    const [value, band] = [longest(maps.map((m) => m.zones[i]!.value)), longest(maps.map((m) => m.zones[i]!.band))];
    return {
      id: zone.id,
      area: zone.area,
      css: "",
      lines: [`${zone.letter} ${zone.name}`, value, band],
      shorter: [[zone.letter, value], [zone.letter]],
      title: zone.name,
    };
  });
  return mapModel(zones, 560, 440, farm.units, [])!;
};

const headOf = (analyte: AnalyteId, years: readonly MapYear[], i: number): string => {
  const heads = new Set(years.flatMap(({ maps }) => (maps[i]!.tested ? [maps[i]!.title] : [])));
  return heads.size === 1 ? [...heads][0]! : analytes[analyte].label;
};

/** One page of a field's maps: every analyte of every sampling it holds. `part` counts from 1. */
export const yearMaps = (site: Farm, today: Field, part: number): YearMapsView => {
  const farm = inUnitsOf(site, today);
  const all = mapParts(today);
  const own = all[part - 1]!;
  const field = fieldAsOf(today, own[0]!.date);
  const { purpose } = own[0]!;
  const samplings = all
    .filter((group) => group[0]!.purpose === purpose)
    .toReversed()
    .flat();
  const page = mapsPage(farm, field, own, samplings, labelsOf(samplings));
  const tested = testedIn(own);
  const years = own.map((sampling): MapYear => ({
    sampling: sampling.id,
    label: page.labels.get(sampling)!,
    maps: tested.map((analyte) => yearMap(page, sampling, analyte)),
  }));
  const holds = (group: readonly Sampling[]): string => `${samplingName(group[0]!).label}s, ${yearSpan(group.map((s) => s.date))}`;
  const tests = capital(tested.length > 4 ? count(tested.length, "test") : list(tested.map(analyteInSentence)));
  const found = `${count(own.length, samplingName(own[0]!).label)} of ${yearSpan(own.map((s) => s.date))} found ${own.length === 1 && tested.length === 1 ? "it" : "them"}`;
  return {
    title: all.length === 1 ? `Maps of ${field.name}` : `Maps of ${field.name}: ${holds(own)}`,
    lede: `${tests} of each zone, as ${found}.`,
    outline: outlineOf(farm, field, years),
    zones: field.zones,
    analytes: tested.map((analyte, i) => ({ analyte, name: analytes[analyte].label, head: headOf(analyte, years, i) })),
    years,
    parts: all.map((group, i) => ({ part: i + 1, holds: holds(group) })),
    purpose: samplingName(own[0]!).label,
    csvWeight: weight(fieldCsv(field, site.units)),
  };
};
