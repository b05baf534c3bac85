import { isSeasonal } from "../../interpretation/comparable.ts";
import type { Outcome } from "../../interpretation/outcome.ts";
import type { RatingAdvice } from "../../interpretation/rating.ts";
import { seasonName, seasonOf } from "../../interpretation/season.ts";
import type { AnalyteId } from "../../interpretation/vocabulary.ts";
import { analytes, textures } from "../../interpretation/vocabulary.ts";
import type { Farm, Field, Zone } from "../../records/model.ts";
import { measurementLabel, numberLabel } from "../../interpretation/measurement.ts";
import { bandLimits } from "../advice/bandLimits.ts";
import { zoneHistory } from "../trends/history.ts";
import type { ZoneAdvice } from "../advice/sample.ts";
import { latestAdvice } from "../advice/sample.ts";
import { careOfAdvice } from "../advice/samplingQuality.ts";
import { judgedSeries } from "../trends/trendSeries.ts";
import { limedBetween, limings } from "../trends/sinceLime.ts";
import { trendPhrase } from "../trends/trendWords.ts";
import { area, areaUnit } from "../units.ts";
import { longDate } from "../words.ts";
import type { RatedCell } from "../advice/zoneRows.ts";
import { ratedCell, ratingOf } from "../advice/zoneRows.ts";

/** One test of one zone: where it stands, where it should stand, and where it is going. */
export interface FertilityRow {
  readonly analyte: AnalyteId;
  readonly label: string;
  /** The earliest result measured the same way, "178 in 2018", "178 in autumn 2018" beside a newest one of spring; empty where there is none earlier. */
  readonly first: string;
  readonly cell: RatedCell;
  /** Its value with the unit, or why there is none. */
  readonly now: string;
  /** "120 to 170 ppm", "6.1 to under 10.1 mg/l", "not fully known", or empty where no guideline says. */
  readonly range: string;
  readonly direction: string;
}

export interface FertilityZone {
  readonly zone: Zone;
  /** "9.7 acres, loam over glacial till, sampled 18 October 2025" */
  readonly about: string;
  readonly rows: readonly FertilityRow[];
  /** What in the taking of the newest sampling casts doubt on it. */
  readonly care: string | undefined;
}

/** Always told; the rest where it was tested. */
const asked: readonly AnalyteId[] = ["pH", "P", "K"];
const besides: readonly AnalyteId[] = ["organicMatter"];

/** The range to stay in, from the classes of the guideline, or of a soil pH that none judges, from the field's own target. A pH that is in one whatever a fact is has a range that hangs on that fact. */
const rangeWords = ({ bands, measurement: { analyte, unit }, outcome, pack }: RatingAdvice): string => {
  if (analyte === "pH" && outcome.kind === "answer" && bands.length === 0) return "not fully known";
  const within = bands.find((b) => b.position === "within");
  if (!within) return "";
  const above = bands.find((b) => b.position === "above");
  return `${bandLimits(within, above, unit)}${outcome.kind === "answer" && pack === undefined ? ", set for the field" : ""}`;
};

export const soilWords = ({ soil }: Zone): string => soil.name ?? (soil.texture ? textures[soil.texture] : "soil not recorded");

const row = (farm: Farm, field: Field, zone: Zone, advice: ZoneAdvice | undefined, analyte: AnalyteId): FertilityRow => {
  const series = judgedSeries(zoneHistory(farm, field, zone, analyte), analyte);
  const [first, last] = [series?.measurements[0], series?.measurements.at(-1)];
  const rating = ratingOf(advice, analyte);
  // What is compared over the years may be of the other season than the newest full sampling, and is not to be read against it.
  const other =
    last && rating && isSeasonal(analyte) && seasonOf(last.date) !== seasonOf(rating.measurement.date) ? seasonName(last.date) : undefined;
  const limed = series && analyte === "pH" ? limedBetween(series, limings(field, zone)) : undefined;
  const direction =
    !series || !last
      ? ""
      : first === last
        ? "one sampling so far"
        : `${trendPhrase(series.trend, last)}${limed ? `, limed ${limed.slice(0, 4)}` : ""}`;
  return {
    analyte,
    label: analytes[analyte].label,
    first:
      first === undefined || first === last
        ? ""
        : `${numberLabel(first)} in ${other === undefined ? "" : `${other} `}${first.date.slice(0, 4)}`,
    cell: ratedCell(advice, analyte),
    now: rating ? measurementLabel(rating.measurement) : (ratedCell(advice, analyte).why ?? ""),
    range: rating ? rangeWords(rating) : "",
    direction: other === undefined ? direction : `in ${other}: ${direction}`,
  };
};

/** Every zone of a field as its newest full sampling found it. */
export const fertilityNow = (farm: Farm, field: Field): FertilityZone[] => {
  const advised = new Map(field.zones.map((zone) => [zone, latestAdvice(farm, field, zone)]));
  const tested = besides.filter((analyte) => [...advised.values()].some((advice) => ratingOf(advice, analyte)));
  return field.zones.map((zone): FertilityZone => {
    const advice = advised.get(zone);
    const size = zone.squareMeters === undefined ? "area not known" : `${area(zone.squareMeters, farm.units)} ${areaUnit(farm.units)}`;
    return {
      zone,
      about: [size, soilWords(zone), advice ? `sampled ${longDate(advice.sampling.date)}` : "not fully sampled yet"].join(", "),
      rows: advice ? [...asked, ...tested].map((analyte) => row(farm, field, zone, advice, analyte)) : [],
      care: advice && careOfAdvice(field, advice.sampling, asked),
    };
  });
};

/** The outcomes that the classes rest on, for their sources. */
export const fertilityOutcomes = (farm: Farm, field: Field): Outcome<unknown>[] =>
  field.zones.flatMap(
    (zone) =>
      latestAdvice(farm, field, zone)
        ?.advice.ratings.filter((r) => asked.includes(r.measurement.analyte) || besides.includes(r.measurement.analyte))
        .map((r) => r.outcome) ?? [],
  );
