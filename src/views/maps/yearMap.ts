import { rate } from "../../interpretation/rating.ts";
import type { AnalyteId } from "../../interpretation/vocabulary.ts";
import { crops } from "../../interpretation/vocabulary.ts";
import type { Farm, Field, Sampling } from "../../records/model.ts";
import { apartMark } from "../advice/apart.ts";
import { isAwaited } from "../results/awaited.ts";
import type { EvenSteps } from "./evenSteps.ts";
import { evenSteps } from "./evenSteps.ts";
import type { MapClass } from "./map.ts";
import { apartFromNewest, othersApart, resultOf } from "./mapApart.ts";
import { mapFill } from "./mapFill.ts";
import { zoneSample } from "../advice/sample.ts";
import type { ZoneSample } from "../advice/sample.ts";
import { list } from "../words.ts";
import { zoneCells } from "../advice/zoneCells.ts";
import type { RatedCell, RatedZone } from "../advice/zoneRows.ts";

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
  const grown = [
    ...new Set([...rated.values()].flatMap(({ crop }) => (crop ? `${crops[crop.crop].label.toLowerCase()} in ${crop.season}` : []))),
  ];
  return grown.length === 0 ? "Read without a crop: none is recorded after it." : `Read for ${list(grown)}.`;
};

const bandWords = (cell: RatedCell, steps: EvenSteps | undefined): string =>
  cell.value === "" ? "" : (cell.band ?? (steps ? "" : "no class"));

/**
 * The shades of an analyte of which no guideline says on this page what is low or high: steps over every result in the unit of most of these cells, however it was
 * measured, so that one shade means one amount on every map.
 */
const stepsOf = (field: Field, analyte: AnalyteId, samplings: readonly Sampling[], cells: readonly RatedCell[]): EvenSteps | undefined => {
  const like = cells.find((cell) => cell.measurement && cell.apart === undefined)?.measurement;
  if (!like) return undefined;
  const inUnit = samplings.flatMap((s) => field.zones.flatMap((z) => resultOf(s, z.id, analyte) ?? [])).filter((m) => m.unit === like.unit);
  return evenSteps(
    inUnit.map((m) => m.value),
    like.unit === "pH",
  );
};

/** The cells of one sampling's map; a bag whose results are awaited says so. */
const cellsOf = (farm: Farm, field: Field, sampling: Sampling, analyte: AnalyteId, rated: ReadonlyMap<string, Rated>): RatedCell[] =>
  zoneCells(farm, field, analyte, rated).map((cell, i) =>
    cell.value === "" && sampling.composites.some((c) => c.zone === field.zones[i]!.id && isAwaited(c))
      ? { ...cell, why: "results awaited" }
      : cell,
  );

/** What the maps of one page share. */
export interface MapsPage {
  readonly farm: Farm;
  readonly field: Field;
  /** Every sampling of the field for the page's purpose, oldest first, on whatever page. */
  readonly samplings: readonly Sampling[];
  readonly labels: ReadonlyMap<Sampling, string>;
  readonly rated: ReadonlyMap<Sampling, ReadonlyMap<string, Rated>>;
  /** The analytes of which a guideline says on this page what is low or high. */
  readonly classed: ReadonlySet<AnalyteId>;
}

/** `own`: the samplings that the page shows. */
export const mapsPage = (
  farm: Farm,
  field: Field,
  own: readonly Sampling[],
  samplings: readonly Sampling[],
  labels: ReadonlyMap<Sampling, string>,
): MapsPage => {
  const rated = new Map(own.map((sampling) => [sampling, ratedZones(farm, field, sampling)]));
  const ratings = [...rated.values()].flatMap((zones) => [...zones.values()].flatMap((z) => z.advice.ratings));
  return {
    farm,
    field,
    samplings,
    labels,
    rated,
    classed: new Set(ratings.filter((r) => r.outcome.kind === "answer" && r.outcome.value.position).map((r) => r.measurement.analyte)),
  };
};

/** One analyte of one sampling. */
export const yearMap = ({ farm, field, samplings, labels, rated, classed }: MapsPage, sampling: Sampling, analyte: AnalyteId): YearMap => {
  const zones = rated.get(sampling)!;
  const cells = cellsOf(farm, field, sampling, analyte, zones);
  const steps = classed.has(analyte) ? undefined : stepsOf(field, analyte, samplings, cells);
  const fill = mapFill(farm, field, analyte, zones, cells, steps);
  const apart = apartFromNewest(field, sampling, analyte, samplings);
  const tested = cells.some((cell) => cell.value !== "");
  const words = tested
    ? [...fill.notes, !steps && cropNote(zones), apart, sampling === samplings.at(-1) && othersApart(field, analyte, labels)]
    : ["Not tested in this sampling."];
  return {
    analyte,
    tested,
    title: fill.title,
    note: words.filter(Boolean).join(" "),
    zones: cells.map((cell, i) => ({
      css: fill.css[i]!,
      value: cell.value === "" ? (cell.why ?? "") : `${cell.value}${cell.apart === undefined ? "" : ` ${apartMark}`}`,
      band: bandWords(cell, steps),
    })),
    legend: fill.legend,
    apart: apart !== undefined,
  };
};
