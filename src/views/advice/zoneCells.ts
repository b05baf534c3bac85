import type { AnalyteId } from "../../interpretation/vocabulary.ts";
import type { Farm, Field } from "../../records/model.ts";
import { sayApart } from "./apart.ts";
import { depth } from "../units.ts";
import type { RatedCell, RatedZone } from "./zoneRows.ts";
import { ratedCell } from "./zoneRows.ts";

/** One analyte's cell of every zone, those not to be compared with the others marked. */
export const zoneCells = (farm: Farm, field: Field, analyte: AnalyteId, advised: ReadonlyMap<string, RatedZone>): RatedCell[] =>
  sayApart(
    field.zones.map((z) => ratedCell(advised.get(z.id), analyte)),
    (d) => depth(d, farm.units),
  );
