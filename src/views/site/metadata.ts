import { boundsOf } from "../../exchange/geometry.ts";
import { analytes, methods } from "../../interpretation/vocabulary.ts";
import type { Farm, Field } from "../../records/model.ts";
import { dayOf } from "./aboutSheet.ts";
import { hasBalance } from "../balance/placeRecords.ts";
import { fieldRows } from "../results/rows.ts";
import { paths, relativeHref } from "../paths.ts";

/** What a search engine is told on every page: to stay away, unless the owner wants the site to be found. */
export const robots = (farm: Farm): string => (farm.publish.index ? "index" : "noindex");

/**
 * The farm's results as a schema.org Dataset (JSON-LD), for the home page: what was measured and how, over which years, and where the
 * farm's tables are, relative to that page; those of a field stand on its own.
 * Where the farm lies, and its address, only when the owner has said `publish: { location: true }`; then a box around the zones,
 * [south, west, north, east] in degrees. `dateModified` is the day the site speaks from, where it has one.
 */
export const dataset = (farm: Farm): Record<string, unknown> => {
  const rows = farm.fields.flatMap(fieldRows).map((r) => r.measurement);
  const dates = rows.map((m) => m.date).sort();
  const day = dayOf(farm);
  const measured = new Map(rows.map((m) => [`${m.analyte} ${m.unit}`, m]));
  return {
    "@context": "https://schema.org",
    "@type": "Dataset",
    name: `${farm.name}: field history`,
    description: farm.about ?? `Soil samplings, seasons and advice of ${farm.name}, field by field.`,
    ...(day !== undefined && { dateModified: day }),
    ...(dates.length > 0 && { temporalCoverage: `${dates[0]}/${dates.at(-1)}` }),
    variableMeasured: [...measured.values()].map((m) => ({
      "@type": "PropertyValue",
      name: analytes[m.analyte].label,
      ...(m.unit !== "pH" && { unitText: m.unit }),
    })),
    measurementTechnique: [...new Set(rows.map((m) => methods[m.method].label))],
    distribution: [
      download(paths.home, "The newest results", paths.latestCsv),
      download(paths.home, "The list of fields and what each needs", paths.fieldsCsv),
    ],
    ...(farm.publish.location && place(farm)),
  };
};

/** One field's tables, for its page: a part of the farm's Dataset. */
const fieldDataset = (farm: Farm, field: Field): Record<string, unknown> => {
  const path = paths.field(field.id);
  return {
    "@context": "https://schema.org",
    "@type": "Dataset",
    name: `${field.name}: field history`,
    description: `Soil samplings, seasons and advice of ${field.name}, ${farm.name}.`,
    isPartOf: { "@type": "Dataset", name: `${farm.name}: field history`, url: relativeHref(path, paths.home) },
    distribution: [
      download(path, `Every result of ${field.name}`, paths.resultsCsv(field.id)),
      ...(hasBalance(field) ? [download(path, `Nutrient balance of ${field.name}`, paths.balanceCsv(field.id))] : []),
    ],
  };
};

/** What a page carries for machines, as text that can stand in it: no `<` could end the script. Nothing on pages that no table belongs to. */
export const datasetJson = (farm: Farm, path: string, field?: Field): string | undefined => {
  const told = path === paths.home ? dataset(farm) : field && path === paths.field(field.id) ? fieldDataset(farm, field) : undefined;
  return told && JSON.stringify(told).replaceAll("<", "\\u003c");
};

const download = (from: string, name: string, path: string): Record<string, string> => ({
  "@type": "DataDownload",
  name,
  encodingFormat: "text/csv",
  contentUrl: relativeHref(from, path),
});

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
