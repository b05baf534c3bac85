import type { Step } from "../../interpretation/outcome.ts";
import { plain, show } from "../../interpretation/show.ts";
import { convert } from "../../interpretation/units.ts";
import { unitChoices } from "../../interpretation/unitChoices.ts";
import type { Farm } from "../../records/model.ts";
import type { PlannedZone, SamplingPlan } from "./planComposites.ts";
import type { StepRow } from "../steps.ts";
import { stepRows } from "../steps.ts";
import { area, areaUnit } from "../units.ts";
import { count, list, zonesOrCount } from "../words.ts";

export interface PlanZoneRow {
  readonly zone: PlannedZone["zone"];
  readonly area: string;
  readonly bags: string;
  readonly each: string;
  readonly spec: string;
  readonly cores: string;
  readonly setback: string;
  /** How far cores stay from the edges; absent where they have no positions. */
  readonly kept: string | undefined;
  readonly steps: readonly StepRow[];
  /** Without the name of the zone: the same often goes for several. */
  readonly notes: readonly string[];
}

/** What is to be said of zones, each thing once: "Upper and Lower: cores stay 50 ft from every edge." */
export const zoneNotes = (rows: readonly PlanZoneRow[]): string[] =>
  [...new Set(rows.flatMap((r) => r.notes))].map(
    (note) =>
      `${zoneNames(
        rows.filter((r) => r.notes.includes(note)).map((r) => r.zone),
        rows.length,
      )}: ${note}`,
  );

/** "Upper and Lower", or "every zone" where more than two are meant and none is left out. */
export const zoneNames = (zones: readonly PlannedZone["zone"][], of: number): string =>
  zones.length === of && of > 2 ? "every zone" : zonesOrCount(zones, of);

/** Meters in feet or meters, whole ones: "50 ft". */
export const distance = (farm: Farm, meters: number): string => {
  const unit = unitChoices[farm.units].map;
  return `${show(convert(meters, "m", unit), 0)} ${unit}`;
};

/** What is asked to keep from an edge, and what is kept. */
const setbackSteps = (farm: Farm, setback: SamplingPlan["setback"], kept: number | undefined): Step[] =>
  setback === undefined || kept === undefined
    ? []
    : [
        {
          what: "Distance of a core from an edge",
          result: [...new Set([setback.asked, distance(farm, setback.meters)])].join(", which is "),
          source: setback.source,
          evidence: setback.evidence,
          note: setback.pack.short,
        },
        {
          what: "Kept in this zone",
          result: distance(farm, kept),
          ...(kept < setback.meters - 1e-9 && { note: "the largest part of it that leaves half of the zone to sample" }),
        },
      ];

/** One row of the table of bags and cores. */
export const zoneRow = (
  farm: Farm,
  { setback, avoid }: SamplingPlan,
  { zone, asked, cores, places: found, bags }: PlannedZone,
): PlanZoneRow => {
  const unit = areaUnit(farm.units);
  const spec = asked.outcome;
  const kept = found.kind === "answer" ? found.value.setback : undefined;
  const shrunk = kept !== undefined && setback !== undefined && kept < setback.meters - 1e-9;
  return {
    zone,
    area: zone.squareMeters === undefined ? "not mapped" : `${area(zone.squareMeters, farm.units)} ${unit}`,
    bags: plain(bags.length),
    each: bags[0]?.squareMeters === undefined ? "not known" : `${area(Math.max(...bags.map((b) => b.squareMeters!)), farm.units)} ${unit}`,
    spec:
      spec.kind === "answer"
        ? `${asked.pack!.short}: ${spec.steps[0]!.what.charAt(0).toLowerCase()}${spec.steps[0]!.what.slice(1)}, ${spec.steps[0]!.result}`
        : `One, because ${spec.because}`,
    cores: cores.kind === "answer" ? plain(cores.value) : `No number, because ${cores.because}`,
    setback: kept === undefined ? "no positions" : distance(farm, kept),
    kept: kept === undefined ? undefined : distance(farm, kept),
    steps: stepRows(
      [
        ...(spec.kind === "answer" ? spec.steps : []),
        ...(cores.kind === "answer" ? cores.steps : []),
        ...setbackSteps(farm, setback, kept),
      ],
      farm.references,
    ),
    notes: [
      ...(cores.kind === "answer" ? cores.cautions : []),
      ...(shrunk
        ? [
            `cores stay ${distance(farm, kept)} from every edge. ${setback.pack.short} asks for ${distance(farm, setback.meters)}, which would leave less than half of the zone.`,
          ]
        : []),
      ...(found.kind === "answer" && found.value.keptAway < 1
        ? [
            `cores keep ${plain(found.value.keptAway * 100, 0)} percent of the distances from ${list(avoid.map((a) => a.what))}; the whole of them would leave less than half of the zone.`,
          ]
        : []),
      ...(spec.kind === "answer" && spec.value.most > spec.value.least
        ? [`up to ${plain(spec.value.most)} bags by the smaller area that the guideline prints.`]
        : []),
      ...(bags.length > 1
        ? [
            `${count(bags.length, "bag")} of one zone stand for different parts of it. Make zones of the parts in field.yaml: two bags of one zone on one day are taken for duplicates.`,
          ]
        : []),
    ],
  };
};
