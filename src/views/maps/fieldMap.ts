import type { AnalyteId } from "../../interpretation/vocabulary.ts";
import type { Farm, Field } from "../../records/model.ts";
import { apartMark } from "../advice/apart.ts";
import { evenSteps } from "./evenSteps.ts";
import type { MapModel } from "./map.ts";
import { drawable, mapModel } from "./map.ts";
import { mapFill } from "./mapFill.ts";
import type { ZoneAdvice } from "../advice/sample.ts";
import { area, areaUnit } from "../units.ts";
import { zoneCells } from "../advice/zoneCells.ts";

export interface FieldMap {
  readonly analyte: AnalyteId;
  readonly title: string;
  readonly note: string;
  readonly model: MapModel;
}

/** A field's zones in the classes of one analyte. `undefined` where none was tested for it, or none has a boundary. */
export const fieldMap = (farm: Farm, field: Field, analyte: AnalyteId, advised: ReadonlyMap<string, ZoneAdvice>): FieldMap | undefined => {
  const cells = zoneCells(farm, field, analyte, advised);
  if (cells.every((cell) => cell.value === "")) return undefined;
  const measured = cells.flatMap((cell) => (cell.apart === undefined ? (cell.measurement ?? []) : []));
  const steps = cells.every((cell) => cell.position === undefined)
    ? evenSteps(
        measured.map((m) => m.value),
        measured[0]!.unit === "pH",
      )
    : undefined;
  const { title, notes, css, legend } = mapFill(farm, field, analyte, advised, cells, steps);
  const zones = drawable(field.zones).map((zone) => {
    const i = field.zones.findIndex((z) => z.id === zone.id);
    const cell = cells[i]!;
    const value = cell.value === "" ? (cell.why ?? "") : `${cell.value}${cell.apart === undefined ? "" : ` ${apartMark}`}`;
    const size = zone.squareMeters === undefined ? "" : `${area(zone.squareMeters, farm.units)} ${areaUnit(farm.units)}`;
    return {
      id: zone.id,
      area: zone.area,
      css: css[i]!,
      lines: [`${zone.letter} ${zone.name}`, value, size],
      shorter: [[zone.letter, value], [zone.letter]],
      title: `${zone.name}: ${value}${cell.band ? `, ${cell.band}` : ""}`,
    };
  });
  const model = mapModel(zones, 560, 440, farm.units, legend);
  return (
    model && {
      analyte,
      title,
      note: [...notes, ...(model.way === 2 ? ["The values have no room on the map and stand in the table below."] : [])].join(" "),
      model,
    }
  );
};
