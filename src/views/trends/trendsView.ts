import { analyteInSentence } from "../../interpretation/vocabulary.ts";
import type { Farm, Field } from "../../records/model.ts";
import type { ZoneAdvice } from "../advice/sample.ts";
import { latestAdvice } from "../advice/sample.ts";
import { fieldCsv, fieldRows, weight } from "../results/rows.ts";
import type { Trend } from "./trendFigure.ts";
import { trendFigure } from "./trendFigure.ts";
import { trendNotes } from "./trendCaption.ts";
import type { TrendPart } from "./trendPages.ts";
import { trendPages } from "./trendPages.ts";
import { inUnitsOf } from "../units.ts";
import { capital, count, list } from "../words.ts";

export interface TrendsView {
  readonly title: string;
  readonly lede: string;
  readonly notes: readonly string[];
  readonly trends: readonly { readonly id: string; readonly trend: Trend }[];
  /** Every page of trends of this field, in order, and what each holds. */
  readonly parts: readonly { readonly part: number; readonly holds: string }[];
  readonly csvWeight: string;
}

/** "pH, A to J": what one figure holds, where the zones of an analyte are parted. */
const partName = ({ analyte, zones, some }: TrendPart): string =>
  `${analyteInSentence(analyte)}${some ? `, zones ${list(zones.map((z) => z.letter))}` : ""}`;

/** What each page of a field's trends holds; `part` counts from 1. */
export const trendParts = (field: Field): { part: number; holds: string; analytes: TrendPart["analyte"][] }[] =>
  trendPages(field).pages.map((parts, i) => ({
    part: i + 1,
    holds: capital(parts.map(partName).join(parts.some((p) => p.some) ? "; " : ", ")),
    analytes: parts.map((p) => p.analyte),
  }));

export const trendId = (analyte: string): string => `trend-${analyte.toLowerCase()}`;

/** One page of a field's trends: the analytes that its own page does not draw. */
export const trendsView = (site: Farm, field: Field, part: number): TrendsView => {
  const farm = inUnitsOf(site, field);
  const advised = new Map(
    field.zones.flatMap((zone): [string, ZoneAdvice][] => {
      const advice = latestAdvice(farm, field, zone);
      return advice ? [[zone.id, advice]] : [];
    }),
  );
  const rows = fieldRows(field);
  const { pages } = trendPages(field);
  const parts = trendParts(field);
  const trends = pages[part - 1]!.flatMap(({ analyte, zones }) => {
    const trend = trendFigure(farm, field, analyte, advised, rows, zones);
    return trend ? [{ id: trendId(analyte), trend }] : [];
  });
  return {
    title: pages.length === 1 ? `Trends of ${field.name}` : `Trends of ${field.name}, page ${part} of ${pages.length}`,
    lede: `${parts[part - 1]!.holds}: ${count(new Set(parts[part - 1]!.analytes).size, "test")} over the years, zone by zone.`,
    notes: trendNotes(trends.flatMap(({ trend }) => trend.model.panels)),
    trends,
    parts,
    csvWeight: weight(fieldCsv(field, site.units)),
  };
};
