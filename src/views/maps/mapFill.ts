import { methodLabel } from "../../interpretation/measurement.ts";
import type { AnalyteId } from "../../interpretation/vocabulary.ts";
import type { Farm, Field, Zone } from "../../records/model.ts";
import { apartNote } from "../advice/apart.ts";
import { bandLimits } from "../advice/bandLimits.ts";
import type { EvenSteps } from "./evenSteps.ts";
import { stepLabel, stepOf } from "./evenSteps.ts";
import type { MapClass } from "./map.ts";
import { ownTarget } from "../results/ownTarget.ts";
import { depth } from "../units.ts";
import { list, longDate, zonesOrCount } from "../words.ts";
import type { RatedCell, RatedZone } from "../advice/zoneRows.ts";
import { columnHead, mapCss, ratingOf } from "../advice/zoneRows.ts";

/** What a map of one analyte says, apart from where the zones lie. */
export interface MapFill {
  readonly title: string;
  /** When, how and how deep it was sampled, what classes it, and what must not be compared: whole sentences. */
  readonly notes: readonly string[];
  /** By zone, as `cells`. */
  readonly css: readonly string[];
  readonly legend: readonly MapClass[];
}

const order = ["c-s1", "c-v2", "c-s2", "c-v3", "c-s4", "c-v4", "c-q0", "c-q1", "c-q2", "c-q3", "c-none", "c-nd"];

/** The class of a value no guideline rates, among the steps of values taken like it. */
const stepCss = ({ measurement: m, apart }: RatedCell, steps: EvenSteps | undefined): string | undefined =>
  m && steps && apart === undefined ? `c-q${stepOf(steps, m.value, m.qualifier)}` : undefined;

/**
 * `cells` holds one cell a zone of the field, in the field's order. `steps` are the shades of an analyte that no guideline calls low or high here;
 * values taken otherwise than the others of the map stay without a shade.
 */
export const mapFill = (
  farm: Farm,
  field: Field,
  analyte: AnalyteId,
  rated: ReadonlyMap<string, RatedZone>,
  cells: readonly RatedCell[],
  steps?: EvenSteps,
): MapFill => {
  const css = cells.map((cell) => stepCss(cell, steps) ?? mapCss(cell, analyte));
  const labels = new Map<string, Map<string, Zone[]>>();
  field.zones.forEach((zone, i) => {
    if (!zone.area) return;
    const cell = cells[i]!;
    const label =
      steps && cell.measurement ? stepWords(cell, steps) : legendLabel(cell, analyte, ratingOf(rated.get(zone.id), analyte)?.bands ?? []);
    const shared = labels.get(css[i]!) ?? new Map<string, Zone[]>();
    labels.set(css[i]!, shared.set(label, [...(shared.get(label) ?? []), zone]));
  });
  return {
    title: columnHead(analyte, cells),
    notes: notesOf(farm, field, analyte, rated, cells, steps),
    css,
    legend: [...labels]
      .sort(([a], [b]) => order.indexOf(a) - order.indexOf(b))
      .map(([each, words]) => ({ css: each, label: sharedLabel(words, field.zones.length) })),
  };
};

/** Of one shade; where soils have limits of their own, each is named: "in range, 6.5 to 6.8 (West lea); in range, 6.2 to 6.8 (East lea)". */
const sharedLabel = (zones: ReadonlyMap<string, readonly Zone[]>, of: number): string =>
  zones.size === 1 ? [...zones.keys()][0]! : [...zones].map(([label, some]) => `${label} (${zonesOrCount(some, of)})`).join("; ");

const notesOf = (
  farm: Farm,
  field: Field,
  analyte: AnalyteId,
  zones: ReadonlyMap<string, RatedZone>,
  cells: readonly RatedCell[],
  steps: EvenSteps | undefined,
): string[] => {
  const rated = [...zones.values()].flatMap((z) => ratingOf(z, analyte) ?? []);
  const dates = [...new Set([...zones.values()].map((z) => z.sampling.date))].map(longDate);
  const methodsUsed = [...new Set(rated.map((r) => methodLabel(r.measurement)))];
  const depths = [...new Set(rated.map((r) => depth(r.measurement.depth, farm.units)))];
  const packs = [...new Set(rated.flatMap((r) => (r.outcome.kind === "answer" ? (r.pack?.short ?? ownTarget) : [])))];
  return [
    dates.length > 0 && `Sampled ${list(dates)}.`,
    methodsUsed.length > 0 && `Measured by ${list(methodsUsed)}, ${list(depths)}.`,
    packs.length > 0 ? `Classes: ${list(packs)}.` : steps ? unratedWords(cells) : "No guideline chosen classes it.",
    steps && stepNote,
    apartNote(field.zones.map((z, i) => ({ name: z.name, cell: cells[i]! }))),
    ...field.zones.flatMap((z, i) =>
      cells[i]!.corrections.map((c) => `${z.name} was ${c.bag === undefined ? "" : "in one bag "}${c.was} before a correction: ${c.why}.`),
    ),
  ].filter((note): note is string => typeof note === "string");
};

const stepWords = (cell: RatedCell, steps: EvenSteps): string =>
  cell.apart === undefined
    ? `${stepLabel(steps, stepOf(steps, cell.measurement!.value, cell.measurement!.qualifier))} ${cell.unit}`.trim()
    : "no shade, because it was taken otherwise";

const stepNote = "The shades are even steps over all results shown here, and do not say what is low or high.";

/** Why there is no class. */
const unratedWords = (cells: readonly RatedCell[]): string =>
  `No class, because ${list([...new Set(cells.filter((cell) => cell.measurement).flatMap((cell) => cell.why ?? []))])}.`;

/** "deficient, below 120": the class with its limits, as this zone's soil and crop set them. */
const legendLabel = (cell: RatedCell, analyte: AnalyteId, bands: NonNullable<ReturnType<typeof ratingOf>>["bands"]): string => {
  if (cell.value === "") return cell.why ?? "not sampled";
  if (cell.band === undefined) return cell.why === undefined ? "no class" : `no class, because ${cell.why}`;
  const rank = bands.findIndex((b) => b.name === cell.band);
  if (rank < 0) return cell.band;
  const limits = bandLimits(bands[rank], bands[rank + 1], analyte === "pH" ? "pH" : undefined);
  return limits === "" ? cell.band : `${cell.band}, ${limits}`;
};
