import type { Boundaries, BoundaryNote } from "../../exchange/boundaries/boundaryShape.ts";
import type { Area } from "../../exchange/geometry.ts";
import { squareMeters } from "../../exchange/geometry.ts";
import { plain } from "../../interpretation/show.ts";
import type { UnitChoice } from "../../interpretation/unitChoices.ts";
import { unitChoices } from "../../interpretation/unitChoices.ts";
import { convert } from "../../interpretation/units.ts";
import type { BoundaryField } from "../../records/zones/boundaryField.ts";
import type { ZoneDrawn } from "../../records/zones/zonesFromBoundaries.ts";
import { area, areaUnit } from "../units.ts";
import { capital, count } from "../words.ts";

/** What a person reads before boundaries are written: a line a zone with its area, the sum, and what was done to the file's shapes. */
export const boundaryPreview = (field: BoundaryField, drawn: readonly ZoneDrawn[], notes: Boundaries["notes"]): string => {
  const { units } = field;
  const size = (a: Area): string => `${area(squareMeters(a), units)} ${areaUnit(units)}`;
  const width = Math.max(...drawn.map((d) => d.zone.name.length));
  const told = ({ zone, area: polygon, from }: ZoneDrawn): string => {
    if (!polygon) return "no polygon, neither in the file nor before";
    if (from === "kept") return `${size(polygon)}, as before: the file leaves it out`;
    if (from === "former") return `${size(polygon)}, kept for the maps of its time: no zone any more`;
    const old = field.areas.get(zone.id);
    return `${size(polygon)}${old ? ` (before: ${size(old)})` : ""}`;
  };
  const lines = drawn.map((each) => `  ${each.zone.letter}  ${each.zone.name.padEnd(width)}  ${told(each)}`);
  const whole = drawn.reduce((sum, d) => sum + (d.area && d.from !== "former" ? squareMeters(d.area) : 0), 0);
  return [`${field.name}, ${area(whole, units)} ${areaUnit(units)} in all`, ...lines, ...notes.map((note) => noteWords(note, units))].join(
    "\n",
  );
};

const noteWords = (note: BoundaryNote, units: UnitChoice): string => {
  switch (note.kind) {
    case "closed":
      return `The boundary of ${note.shape} was open by ${length(note.meters, units)} and is closed.`;
    case "joined":
      return `The walk of ${note.shape} was interrupted; its parts are joined over ${length(note.meters, units)}.`;
    case "heights":
      return "Heights are left out.";
    case "turned":
      return `${capital(count(note.count, "ring"))} ran the wrong way round for GeoJSON and ${note.count === 1 ? "is" : "are"} turned.`;
    case "passedOver":
      return `${capital(count(note.count, note.what))} passed over: only polygons become zones.`;
  }
};

const length = (meters: number, units: UnitChoice): string => {
  const unit = unitChoices[units].map;
  return `${plain(convert(meters, "m", unit), 1)} ${unit}`;
};
