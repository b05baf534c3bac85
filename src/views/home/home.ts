import type { Farm } from "../../records/model.ts";
import { inYearsShown } from "../leftOut.ts";
import type { Fact } from "../fact.ts";
import type { FieldRow } from "./fieldList.ts";
import { byNeed, fieldList } from "./fieldList.ts";
import { homeFacts } from "./homeFacts.ts";
import { homeLede } from "./homeLede.ts";
import type { HomeMap } from "./homeMap.ts";
import { homeMap } from "./homeMap.ts";
import type { Task } from "./homeTasks.ts";
import { farmTasks } from "./homeTasks.ts";
import type { ZoneTable } from "./homeZones.ts";
import { zoneTable } from "./homeZones.ts";
import { latestCsv } from "../advice/latestResults.ts";
import { weight } from "../results/rows.ts";
import { area, areaUnit } from "../units.ts";
import { count, yearSpan } from "../words.ts";

export interface HomeView {
  readonly farm: Farm;
  readonly lede: string;
  readonly rest: string;
  readonly period: string;
  readonly size: string;
  readonly facts: readonly Fact[];
  /** The most urgent first, and no more than can be read at a glance. */
  readonly tasks: readonly Task[];
  /** Things to do that are not among `tasks`. */
  readonly more: number;
  readonly map: HomeMap;
  /** Every zone, on a farm small enough for one table. */
  readonly zones: ZoneTable | undefined;
  /** On any other, the fields that need something most. */
  readonly urgent: readonly FieldRow[];
  readonly csvWeight: string;
}

const mostTasks = 8;
const mostZones = 40;
const mostFields = 12;

/** All that the home page shows: of a small farm everything, of a large one what matters most. */
export const homeView = (farm: Farm): HomeView => {
  const all = farmTasks(farm).filter((t) => t.kind !== "nothing");
  const tasks = all.slice(0, mostTasks);
  const dates = farm.fields.flatMap((f) => f.samplings.map((s) => s.date)).sort();
  const zones = farm.fields.flatMap((f) => f.zones);
  const squareMeters = zones.reduce((sum, z) => sum + (z.squareMeters ?? 0), 0);
  const small = zones.length <= mostZones;
  return {
    farm,
    ...homeLede(farm),
    period: dates.length === 0 ? `no samplings${inYearsShown(farm) || " yet"}` : yearSpan(dates),
    size: `${count(farm.fields.length, "field")}${squareMeters > 0 ? `, ${area(squareMeters, farm.units)} ${areaUnit(farm.units)}` : ""}`,
    facts: homeFacts(farm),
    tasks,
    more: all.length - tasks.length,
    map: homeMap(farm),
    zones: small ? zoneTable(farm) : undefined,
    urgent: small ? [] : byNeed(fieldList(farm)).slice(0, mostFields),
    csvWeight: weight(latestCsv(farm)),
  };
};
