import { boundsOf } from "../exchange/geometry.ts";
import { analytes, methods } from "../interpretation/vocabulary.ts";
import type { Farm } from "../records/model.ts";
import { hasBalance } from "./placeRecords.ts";
import { paths, relativeHref } from "./routes.ts";
import { fieldRows } from "./rows.ts";

/** What a search engine is told on every page: to stay away, unless the owner wants the site to be found. */
export const robots = (farm: Farm): string => (farm.publish.index ? "index" : "noindex");

/**
 * The farm's results as a schema.org Dataset (JSON-LD), for the home page: what was measured and how, over which years, and where the
 * tables are, relative to that page. Where the farm lies, and its address, only when the owner has said `publish: { location: true }`;
 * then a box around the zones, [south, west, north, east] in degrees. `dateModified` is the day the site speaks from.
 */
export const dataset = (farm: Farm): Record<string, unknown> => {
  const rows = farm.fields.flatMap(fieldRows).map((r) => r.measurement);
  const dates = rows.map((m) => m.date).sort();
  const measured = new Map(rows.map((m) => [`${m.analyte} ${m.unit}`, m]));
  return {
    "@context": "https://schema.org",
    "@type": "Dataset",
    name: `${farm.name}: field history`,
    description: farm.about ?? `Soil samplings, seasons and advice of ${farm.name}, field by field.`,
    dateModified: farm.today,
    ...(dates.length > 0 && { temporalCoverage: `${dates[0]}/${dates.at(-1)}` }),
    variableMeasured: [...measured.values()].map((m) => ({ "@type": "PropertyValue", name: analytes[m.analyte].label, ...(m.unit !== "pH" && { unitText: m.unit }) })),
    measurementTechnique: [...new Set(rows.map((m) => methods[m.method].label))],
    distribution: tables(farm),
    ...(farm.publish.location && place(farm)),
  };
};

/** The same as text that can stand in a page: no `<` in it could end the script. */
export const datasetJson = (farm: Farm): string => JSON.stringify(dataset(farm)).replaceAll("<", "\\u003c");

const tables = (farm: Farm): Record<string, string>[] => {
  const download = (name: string, path: string): Record<string, string> => ({ "@type": "DataDownload", name, encodingFormat: "text/csv", contentUrl: relativeHref(paths.home, path) });
  return [
    download("The newest results", paths.latestCsv),
    ...farm.fields.flatMap((f) => [download(`Every result of ${f.name}`, paths.resultsCsv(f.id)), ...(hasBalance(f) ? [download(`Nutrient balance of ${f.name}`, paths.balanceCsv(f.id))] : [])]),
  ];
};

const place = (farm: Farm): Record<string, unknown> => {
  const areas = farm.fields.flatMap((f) => f.zones.flatMap((z) => z.area ?? []));
  if (areas.length === 0 && farm.address === undefined) return {};
  const { south, west, north, east } = boundsOf(areas);
  return {
    spatialCoverage: {
      "@type": "Place",
      ...(farm.address !== undefined && { address: farm.address }),
      ...(areas.length > 0 && { geo: { "@type": "GeoShape", box: `${south} ${west} ${north} ${east}` } }),
    },
  };
};
