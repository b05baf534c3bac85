import type { Farm, Field, Zone } from "../../records/model.ts";
import { sayApart } from "../advice/apart.ts";
import { cropsBySeason } from "../advice/cropWords.ts";
import { nextCrop } from "../advice/nextCrop.ts";
import { awaitedOf } from "../results/awaited.ts";
import { dueOf } from "../calendar/due.ts";
import { neverWords, noCropWords } from "../leftOut.ts";
import type { ZoneAdvice } from "../advice/sample.ts";
import { latestAdvice } from "../advice/sample.ts";
import { area, areaUnit, depth } from "../units.ts";
import { list, monthYear } from "../words.ts";
import type { RatedCell } from "../advice/zoneRows.ts";
import { columnHead, ratedCell, sayUnits } from "../advice/zoneRows.ts";

export interface HomeZone {
  readonly zone: Zone;
  readonly area: string;
  readonly pH: RatedCell;
  readonly P: RatedCell;
  readonly K: RatedCell;
  readonly sampled: string;
}

export interface HomeField {
  readonly field: Field;
  readonly about: string;
  readonly zones: readonly HomeZone[];
}

export interface ZoneTable {
  readonly fields: readonly HomeField[];
  /** Over phosphorus and potassium. */
  readonly heads: readonly [string, string];
}

const advised = (farm: Farm): Map<Zone, ZoneAdvice> =>
  new Map(
    farm.fields.flatMap((field) =>
      field.zones.flatMap((zone): [Zone, ZoneAdvice][] => {
        const found = latestAdvice(farm, field, zone);
        return found ? [[zone, found]] : [];
      }),
    ),
  );

/** Every zone's cell of one analyte, over the whole farm; those not to be compared with the most of them marked. */
export const farmColumn = (farm: Farm, analyte: "pH" | "P" | "K"): Map<Zone, RatedCell> => {
  const found = advised(farm);
  const zones = farm.fields.flatMap((f) => f.zones);
  const cells = sayApart(
    zones.map((z) => ratedCell(found.get(z), analyte)),
    (d) => depth(d, farm.units),
  );
  return new Map(zones.map((z, i) => [z, cells[i]!]));
};

/** The table of zones, its columns headed by the unit of their results; where laboratories differ each result says its own. */
export const zoneTable = (farm: Farm): ZoneTable => {
  const cells = { pH: farmColumn(farm, "pH"), P: farmColumn(farm, "P"), K: farmColumn(farm, "K") };
  const fields = farm.fields.map((field) => homeField(farm, field, cells));
  const column = (analyte: "P" | "K"): RatedCell[] => fields.flatMap((f) => f.zones.map((z) => z[analyte]));
  const [p, k] = [sayUnits(column("P")), sayUnits(column("K"))];
  let row = 0;
  return {
    fields: fields.map((f) => ({ ...f, zones: f.zones.map((z) => ({ ...z, P: p[row]!, K: k[row++]! })) })),
    heads: [columnHead("P", column("P")), columnHead("K", column("K"))],
  };
};

const homeField = (farm: Farm, field: Field, cells: Record<"pH" | "P" | "K", ReadonlyMap<Zone, RatedCell>>): HomeField => {
  const due = dueOf(farm, field);
  const units = field.units ?? farm.units;
  const next = cropsBySeason(field.zones.flatMap((z) => nextCrop(field, z.id, farm.today, true) ?? [])).map(
    (n) => `${n.words} ${n.season}`,
  );
  const squareMeters = field.zones.reduce((sum, z) => sum + (z.squareMeters ?? 0), 0);
  const about = [
    next.length > 0 ? `next crop ${list(next)}` : noCropWords(farm),
    field.tenure?.kind,
    squareMeters > 0 && `${area(squareMeters, units)} ${areaUnit(units)}`,
    `next sampling ${due.words}`,
  ];
  // A garden in a column of acres would be nothing.
  const ownUnit = units === farm.units ? "" : ` ${areaUnit(units)}`;
  return {
    field,
    about: about.filter(Boolean).join("; "),
    zones: field.zones.map((zone) => {
      const advice = latestAdvice(farm, field, zone);
      return {
        zone,
        area: zone.squareMeters === undefined ? "not mapped" : `${area(zone.squareMeters, units)}${ownUnit}`,
        pH: cells.pH.get(zone)!,
        P: cells.P.get(zone)!,
        K: cells.K.get(zone)!,
        sampled: advice ? monthYear(advice.sampling.date) : awaitedOf(field, zone).length > 0 ? "results awaited" : neverWords(farm),
      };
    }),
  };
};
