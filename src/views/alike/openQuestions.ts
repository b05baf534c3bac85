import type { AnalyteId } from "../../interpretation/vocabulary.ts";
import { analyteInSentence } from "../../interpretation/vocabulary.ts";
import type { Farm, Field, Zone } from "../../records/model.ts";
import { zoneHistory } from "../trends/history.ts";
import { seasonSeries } from "../trends/trendSeries.ts";
import { newestOf } from "../trends/trendBreaks.ts";
import { list, pairsOrCount, zonesOrCount } from "../words.ts";
import { zonePairs } from "./zonesCompared.ts";

const watched: readonly AnalyteId[] = ["pH", "P", "K"];

/** Does one sampling more, taken like the newest, usually show the slope seen, if it is real? That it is not, none would show. */
const oneMoreShows = (farm: Farm, field: Field, zone: Zone, analyte: AnalyteId): boolean => {
  const histories = zoneHistory(farm, field, zone, analyte);
  const { line, beside } = seasonSeries(histories, analyte);
  const judged = line.length > 0 ? line : beside;
  if (judged.length === 0) return false;
  const newest = newestOf(judged.map((h) => h.measurements));
  const trend = judged.find((h) => h.measurements === newest)?.trend;
  if (trend?.kind !== "answer" || !("more" in trend.value)) return false;
  const { more } = trend.value;
  return more?.kind === "answer" && more.value.more === 1;
};

/** What a field's next full sampling would settle or add to, a sentence each. */
export const openQuestions = (farm: Farm, field: Field): string[] => {
  const pairs = zonePairs(farm, field)
    .filter((p) => p.verdict === "not enough data" && !p.wantsLimit)
    .map((p) => list(p.zones.map((z) => z.name)));
  const trends = watched.flatMap((analyte) => {
    const zones = field.zones.filter((z) => oneMoreShows(farm, field, z, analyte));
    return zones.length > 0 ? [`${analyteInSentence(analyte)} on ${zonesOrCount(zones, field.zones.length)}`] : [];
  });
  return [
    ...(pairs.length > 0
      ? [`Open: whether ${pairsOrCount(pairs, list(pairs, "or"))} may share a bag. Bags of both from one day add to what is known.`]
      : []),
    ...(trends.length > 0
      ? [`If the change seen is real, one more sampling, taken as before, would show it four times out of five: ${list(trends)}.`]
      : []),
  ];
};
