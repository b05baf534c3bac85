import type { AnalyteId } from "../../interpretation/vocabulary.ts";
import { analyteIds } from "../../interpretation/vocabulary.ts";
import type { Field, Zone } from "../../records/model.ts";
import { mostOfFieldFigures, mostOfPage, trendPanelWeight } from "../pageWeight.ts";
import { parted } from "../parted.ts";
import { everyZone } from "../zonesThen.ts";

/** A figure to come: one analyte, on these zones. */
export interface TrendPart {
  readonly analyte: AnalyteId;
  readonly zones: readonly Zone[];
  /** Whether other zones of the same analyte stand in another part. */
  readonly some: boolean;
}

export interface TrendPages {
  /** The figures of the field page itself: pH, potassium and phosphorus, as far as it can bear them. */
  readonly onFieldPage: readonly AnalyteId[];
  /** Every other figure, page by page. */
  readonly pages: readonly (readonly TrendPart[])[];
}

const first: readonly AnalyteId[] = ["pH", "K", "P"];

const known = new WeakMap<Field, TrendPages>();

/** Where each analyte's trend is shown. Worked out from how many results there are, so that no page grows too heavy to load. */
export const trendPages = (field: Field): TrendPages => {
  let found = known.get(field);
  if (!found) known.set(field, (found = workOut(field)));
  return found;
};

const workOut = (field: Field): TrendPages => {
  const counts = resultCounts(field);
  const tested = [...first, ...analyteIds.filter((a) => !first.includes(a))].filter((analyte) => counts.has(analyte));
  const weightOf = (analyte: AnalyteId, zone: Zone): number => trendPanelWeight(counts.get(analyte)?.get(zone.id) ?? 0);
  const zonesOf = (analyte: AnalyteId): Zone[] => everyZone(field).filter((zone) => counts.get(analyte)!.has(zone.id));
  let left = mostOfFieldFigures;
  const onFieldPage = tested
    .filter((a) => first.includes(a))
    .filter((analyte) => {
      left -= zonesOf(analyte).reduce((sum, zone) => sum + weightOf(analyte, zone), 0);
      return left >= 0;
    });
  const parts = tested
    .filter((a) => !onFieldPage.includes(a))
    .flatMap((analyte): TrendPart[] => {
      const groups = parted(zonesOf(analyte), (zone) => weightOf(analyte, zone), mostOfPage);
      return groups.map((zones) => ({ analyte, zones, some: groups.length > 1 }));
    });
  return {
    onFieldPage,
    pages: parted(parts, ({ analyte, zones }) => zones.reduce((sum, zone) => sum + weightOf(analyte, zone), 0), mostOfPage),
  };
};

/** How many results each analyte has in each zone. */
const resultCounts = (field: Field): Map<AnalyteId, Map<string, number>> => {
  const counts = new Map<AnalyteId, Map<string, number>>();
  for (const { zone, measurements } of field.samplings.flatMap((s) => s.composites))
    for (const { analyte } of measurements) {
      const zones = counts.get(analyte) ?? new Map<string, number>();
      counts.set(analyte, zones.set(zone, (zones.get(zone) ?? 0) + 1));
    }
  return counts;
};
