import type { Farm, Zone } from "../model.ts";
import { everyField } from "./everyField.ts";

const unplaced = (z: Zone): Zone => ({ ...z, area: undefined, squareMeters: z.squareMeters && Math.round(z.squareMeters / 100) * 100 });

/**
 * Nothing that says where the fields lie: no outline, since a shape alone finds a field on a photograph from the air, and no address.
 * Areas stay, to the nearest 100 square meters, which a boundary cannot be told by.
 */
export const withoutPositions = (farm: Farm): Farm =>
  everyField(
    { ...farm, address: undefined, publish: { ...farm.publish, location: false } },
    { field: (f) => ({ ...f, zones: f.zones.map(unplaced), formerZones: f.formerZones.map(unplaced) }) },
  );
