import type { Farm } from "../../records/model.ts";
import type { FieldPart } from "../fieldParts.ts";
import { fieldParts } from "../fieldParts.ts";
import { seasonZoneWeight } from "../pageWeight.ts";

/** The season and its spreader sheets, by field. */
export const seasonParts = (farm: Farm): readonly FieldPart[] => fieldParts(farm, (field) => field.zones.length * seasonZoneWeight);
