import type { Farm } from "../../records/model.ts";
import type { FieldPart } from "../fieldParts.ts";
import { fieldParts } from "../fieldParts.ts";
import { summaryFieldWeight } from "../pageWeight.ts";

/** The lines of the farm's summary, by field. */
export const summaryParts = (farm: Farm): readonly FieldPart[] => fieldParts(farm, () => summaryFieldWeight);
