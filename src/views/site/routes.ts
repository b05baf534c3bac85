import type { Farm } from "../../records/model.ts";
import { fieldOrders, paths } from "../paths.ts";
import { shownGuidelines } from "../guidelines/comparison.ts";
import { fieldListPageCount } from "../home/fieldListPaging.ts";
import { hasBalance } from "../balance/placeRecords.ts";
import { balanceParts } from "../balance/balancePages.ts";
import { duePlans } from "../plan/duePlans.ts";
import { adviceParts } from "../advice/advicePages.ts";
import { mapParts } from "../maps/mapPages.ts";
import { pairParts } from "../alike/pairPages.ts";
import { calendarPageCount } from "../calendar/calendarPaging.ts";
import { seasonParts } from "../season/seasonParts.ts";
import { summaryParts } from "../summary/summaryParts.ts";
import { trendPages } from "../trends/trendPages.ts";
import { shownReports } from "../sampling/reports.ts";
import { hasZonesFile } from "../maps/zonesGeoJson.ts";

/** Every output path, each with the record it comes from; two records claiming one path is our bug, caught here. */
export const allPaths = (farm: Farm): Map<string, string> => {
  const claimed = new Map<string, string>();
  const claim = (path: string, by: string): void => {
    const other = claimed.get(path.toLowerCase());
    if (other !== undefined) throw new Error(`${by} and ${other} both claim ${path}`);
    claimed.set(path.toLowerCase(), by);
  };
  const always = [
    paths.home,
    paths.search,
    paths.glossary,
    paths.references,
    paths.methods,
    paths.compare,
    paths.checks,
    paths.summary,
    paths.season,
    paths.spreaderSheets,
  ];
  for (const path of [
    ...always,
    paths.styles,
    paths.script,
    paths.listsScript,
    paths.mapsScript,
    paths.searchIndex,
    paths.latestCsv,
    paths.fieldsCsv,
  ])
    claim(path, "the site");
  for (const order of fieldOrders)
    for (let page = 1; page <= fieldListPageCount(farm); page += 1) claim(paths.fieldList(order, page), "the list of fields");
  for (let part = 1; part <= calendarPageCount(farm); part += 1) claim(paths.calendarPart(part), "the calendar");
  for (const { part } of seasonParts(farm))
    for (const path of [paths.seasonPart, paths.spreaderSheetsPart]) claim(path(part), "the season");
  for (const { part } of summaryParts(farm)) claim(paths.summaryPart(part), "the summary");
  for (const field of farm.fields) {
    claim(paths.field(field.id), field.file);
    claim(paths.resultsCsv(field.id), field.file);
    claim(paths.timeline(field.id), field.file);
    adviceParts(field).forEach((_, i) => claim(paths.advice(field.id, i + 1), field.file));
    trendPages(field).pages.forEach((_, i) => claim(paths.trends(field.id, i + 1), field.file));
    balanceParts(farm, field).forEach((_, i) => claim(paths.balance(field.id, i + 1), field.file));
    pairParts(field).forEach((_, i) => claim(paths.compared(field.id, i + 1), field.file));
    mapParts(field).forEach((_, i) => claim(paths.maps(field.id, i + 1), field.file));
    if (hasZonesFile(farm, field)) claim(paths.zonesGeoJson(field.id), field.file);
    claim(paths.fieldSummary(field.id), field.file);
    if (hasBalance(field)) claim(paths.balanceCsv(field.id), field.file);
    for (const { purpose } of duePlans(farm, field)) {
      for (const path of [paths.plan, paths.planCsv]) claim(path(field.id, purpose), field.file);
      if (farm.publish.location) for (const path of [paths.planGpx, paths.planGeoJson]) claim(path(field.id, purpose), field.file);
    }
    for (const sampling of field.samplings) claim(paths.sampling(field.id, sampling.id), sampling.file);
    for (const advice of field.recommendations) claim(paths.recommendation(field.id, advice.id), advice.file);
  }
  for (const file of shownReports(farm)) claim(paths.report(file), `report ${file}`);
  for (const pack of shownGuidelines(farm).values()) claim(paths.guideline(pack.id), `guideline ${pack.id}`);
  return claimed;
};
