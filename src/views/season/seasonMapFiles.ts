import { round } from "../../interpretation/show.ts";
import { unitChoices } from "../../interpretation/unitChoices.ts";
import type { Unit } from "../../interpretation/units.ts";
import { convert } from "../../interpretation/units.ts";
import { areasGeoJson } from "../../exchange/areasGeoJson.ts";
import type { Cell } from "../../exchange/csv.ts";
import { toCsv } from "../../exchange/csv.ts";
import type { DbfColumn } from "../../exchange/shapefile/dbfWriter.ts";
import { shapefile } from "../../exchange/shapefile/shapefileWriter.ts";
import { zipped } from "../../exchange/bundle/zipWriter.ts";
import type { Farm } from "../../records/model.ts";
import { laterCropsLeftOut, leavesOut, leavesOutProducts, leftOutForReader } from "../leftOut.ts";
import type { RateMap, RateMapRow } from "./seasonMaps.ts";
import { rateMaps } from "./seasonMaps.ts";

/** A rate map as files of the same rows. */
export interface RateMapFiles {
  readonly map: RateMap;
  readonly csv: string;
  /** Absent, as the shapefile is, where the owner does not publish where the farm lies. */
  readonly geojson: string | undefined;
  /** A zipped shapefile; absent too where no zone with a rate has a boundary. */
  readonly zip: Uint8Array | undefined;
}

/** Every rate map as files; `located`: with the boundaries, which tell where the farm lies. */
export const rateFiles = (farm: Farm, located: boolean): RateMapFiles[] =>
  rateMaps(farm).map((map) => ({
    map,
    csv: rateCsv(farm, map),
    geojson: located ? rateGeoJson(farm, map) : undefined,
    zip: located ? rateShapefile(farm, map) : undefined,
  }));

/** Why there is no rate map. */
export const noRateMap = (farm: Farm): string =>
  leavesOutProducts(farm) || laterCropsLeftOut(farm)
    ? "No rate map that this reader is shown."
    : "No rate map, because no zone has a rate to spread.";

/** Of maps in degrees, where the reader is not shown where the farm lies. */
export const unplacedMaps = (farm: Farm): string | undefined =>
  leavesOut(farm, "positions") ? `Maps in degrees are ${leftOutForReader}.` : undefined;

const known = new WeakMap<Farm, readonly RateMapFiles[]>();

/** The downloads of the season's page, made once: the page tells their weight. */
export const rateMapFiles = (farm: Farm): readonly RateMapFiles[] => {
  let files = known.get(farm);
  if (!files) known.set(farm, (files = rateFiles(farm, farm.publish.location)));
  return files;
};

/** The same by the ending of their names, those that there are. */
export const filesOf = ({
  map,
  csv,
  geojson,
  zip,
}: RateMapFiles): { readonly file: string; readonly kind: string; readonly content: string | Uint8Array }[] => [
  { file: `${map.key}.csv`, kind: "CSV", content: csv },
  ...(geojson === undefined ? [] : [{ file: `${map.key}.geojson`, kind: "GeoJSON", content: geojson }]),
  ...(zip === undefined ? [] : [{ file: `${map.key}.zip`, kind: "shapefile, zipped", content: zip }]),
];

/** What one column says of a row, under its name in a table and its name of ten letters or fewer in a shapefile. */
interface Column {
  readonly name: string;
  readonly short: string;
  readonly decimals?: number;
  readonly of: (row: RateMapRow) => Cell;
}

const rateDecimals: Partial<Record<Unit, number>> = { "ton/ac": 2, "t/ha": 2, "lb/1000 sq ft": 2 };
const massDecimals: Partial<Record<Unit, number>> = { ton: 2, t: 2 };
const tail = (unit: string): string => unit.replace(/[/ ]/g, "_");
const shortUnits: Partial<Record<Unit, string>> = {
  "lb/ac": "LBAC",
  "kg/ha": "KGHA",
  "ton/ac": "TONAC",
  "t/ha": "THA",
  "lb/1000 sq ft": "LBKSF",
  "sq ft": "SQFT",
};
const shortTail = (unit: Unit): string => shortUnits[unit] ?? unit.toUpperCase();

const number = (name: string, short: string, decimals: number, of: (row: RateMapRow) => number | undefined): Column => ({
  name,
  short,
  decimals,
  of: (row) => {
    const value = of(row);
    return value === undefined ? undefined : round(value, decimals);
  },
});

const columnsOf = ({ currency }: Farm, { of, name, units, rateUnit, massUnit }: RateMap): Column[] => {
  const { area } = unitChoices[units];
  const squareMeters = (row: RateMapRow): number | undefined => row.zone.zone.squareMeters;
  const total = (row: RateMapRow): number | undefined => {
    const sq = squareMeters(row);
    return sq === undefined || row.rate === undefined
      ? undefined
      : convert(convert(row.rate, rateUnit, "lb/ac") * convert(sq, "sq m", "acre"), "lb", massUnit);
  };
  const rate = rateDecimals[rateUnit] ?? 1;
  return [
    { name: "field", short: "FIELD", of: ({ zone }) => zone.field.id },
    { name: "zone", short: "ZONE", of: ({ zone }) => zone.zone.id },
    { name: of, short: of.toUpperCase(), of: () => name },
    { name: "crop", short: "CROP", of: ({ zone }) => zone.advised?.advice.crop?.crop },
    number("season", "SEASON", 0, ({ zone }) => zone.advised?.advice.crop?.season),
    number(`rate_${tail(rateUnit)}`, `RATE_${shortTail(rateUnit)}`, rate, (row) => row.rate),
    ...(of === "nutrient" ? [number(`rate_up_to_${tail(rateUnit)}`, `UPTO_${shortTail(rateUnit)}`, rate, (row) => row.to)] : []),
    ...(of === "product"
      ? [
          number("applications", "PARTS", 0, (row) => row.applications),
          number(`rate_each_${tail(rateUnit)}`, `EACH_${shortTail(rateUnit)}`, rate, (row) =>
            row.rate === undefined || row.unequal ? undefined : row.rate / Math.max(1, row.applications),
          ),
        ]
      : []),
    number(`area_${tail(area)}`, `AREA_${shortTail(area)}`, area === "sq ft" ? 0 : 2, (row) => {
      const sq = squareMeters(row);
      return sq === undefined ? undefined : convert(sq, "sq m", area);
    }),
    number(`total_${tail(massUnit)}`, `TOTAL_${shortTail(massUnit)}`, massDecimals[massUnit] ?? 1, total),
    ...(of === "product" ? [number(`cost_${currency.toLowerCase()}`, `COST_${currency}`, 2, (row) => row.cost)] : []),
    { name: "not_known_because", short: "", of: (row) => row.because },
    { name: "sampled", short: "SAMPLED", of: ({ zone }) => zone.advised?.advice.sampling.date },
    { name: "sampling_overdue", short: "OVERDUE", of: ({ zone }) => (zone.old ? "yes" : "no") },
    { name: "guidelines", short: "GUIDELINES", of: (row) => (row.packs.length > 0 ? row.packs.join(" ") : undefined) },
    { name: "evidence", short: "EVIDENCE", of: (row) => row.evidence },
    { name: "spread_already", short: "SPREAD", of: ({ already = [] }) => (already.length > 0 ? already.join("; ") : undefined) },
  ];
};

/** One line a zone; an empty rate is one that is not known, and `not_known_because` says why. */
const rateCsv = (farm: Farm, map: RateMap): string => {
  const columns = columnsOf(farm, map);
  return toCsv(
    columns.map((c) => c.name),
    map.rows.map((row) => columns.map((c) => c.of(row))),
  );
};

/** One feature a zone; a zone without a boundary has no geometry, and what is not known is null. */
const rateGeoJson = (farm: Farm, map: RateMap): string => {
  const columns = columnsOf(farm, map);
  return areasGeoJson(
    map.rows.map((row) => ({ area: row.zone.zone.area, properties: Object.fromEntries(columns.map((c) => [c.name, c.of(row) ?? null])) })),
  );
};

/** For a spreader's controller: the zones whose rate is known, because a blank could be taken for a 0. */
const rateShapefile = (farm: Farm, map: RateMap): Uint8Array | undefined => {
  const columns = columnsOf(farm, map).filter((c) => c.short !== "");
  const rows = map.rows.flatMap((row) => {
    const { area } = row.zone.zone;
    return area && row.rate !== undefined ? [{ area, values: columns.map((c) => c.of(row)) }] : [];
  });
  if (rows.length === 0) return undefined;
  const files = shapefile(
    columns.map(({ short, decimals }): DbfColumn => ({ name: short, decimals })),
    rows,
    farm.today,
  );
  return zipped(Object.fromEntries(Object.entries(files).map(([ending, bytes]) => [`${map.key}.${ending}`, bytes])));
};
