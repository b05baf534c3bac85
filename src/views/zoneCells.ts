import type { AnalyteId } from "../interpretation/vocabulary.ts";
import type { Farm, Field } from "../records/model.ts";
import { sayApart } from "./apart.ts";
import type { ZoneAdvice } from "./sample.ts";
import { depth } from "./units.ts";
import type { RatedCell } from "./zoneRows.ts";
import { ratedCell } from "./zoneRows.ts";

/** One analyte's cell of every zone, those not to be compared with the others marked. */
export const zoneCells = (farm: Farm, field: Field, analyte: AnalyteId, advised: ReadonlyMap<string, ZoneAdvice>): RatedCell[] =>
  sayApart(field.zones.map((z) => ratedCell(advised.get(z.id), analyte)), (d) => depth(d, farm.units));
