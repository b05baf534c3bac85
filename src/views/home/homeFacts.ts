import type { Farm } from "../../records/model.ts";
import { dueOf } from "../calendar/due.ts";
import type { Fact } from "../fact.ts";
import { fieldList } from "./fieldList.ts";
import { isUnlimed } from "../season/fieldNeeds.ts";
import { costWords, sumOf } from "../season/seasonAmounts.ts";
import { seasonZones } from "../season/seasonZones.ts";
import { area, areaUnit, eachRounded } from "../units.ts";
import { list, numberWord, yearSpan } from "../words.ts";

/** What a stranger asks first: how much land, whose, how well it is tested, what it will take. */
export const homeFacts = (farm: Farm): Fact[] => {
  const rows = fieldList(farm);
  const size = (squareMeters: number): string => `${area(squareMeters, farm.units)} ${areaUnit(farm.units)}`;
  const total = rows.reduce((sum, r) => sum + (r.squareMeters ?? 0), 0);
  const onMap = rows.filter((r) => r.squareMeters !== undefined);
  const mapped = onMap.length;
  const held = [...new Set(onMap.map((r) => r.tenure))].map((tenure) => ({
    tenure,
    squareMeters: onMap.filter((r) => r.tenure === tenure).reduce((sum, r) => sum + (r.squareMeters ?? 0), 0),
  }));
  const tenures = `${list(held.map((h) => `${size(h.squareMeters)} ${h.tenure}`))}${eachRounded(
    held.map((h) => h.squareMeters),
    farm.units,
  )}`;
  const dates = farm.fields.flatMap((f) => f.samplings.map((s) => s.date)).sort();
  const kept = farm.fields.flatMap((f) => f.zones.map((z) => ({ squareMeters: z.squareMeters ?? 0, due: dueOf(farm, f, z) })));
  // Land that no guideline sets an interval for can be neither in time nor late.
  const [dueZones, others] = [true, false].map((is) => kept.filter(({ due }) => (due.next !== undefined || due.overdue) === is));
  const asked = dueZones!.reduce((sum, z) => sum + z.squareMeters, 0);
  const inTime = kept
    .filter(({ due }) => due.last !== undefined && due.next !== undefined && !due.overdue)
    .reduce((sum, z) => sum + z.squareMeters, 0);
  // Whether a zone that was last sampled before the years shown is in time, nobody who reads this can say.
  const unknown = kept.some(({ due }) => due.last === undefined && !due.overdue);
  const dated = !unknown && asked > 0;
  const zones = seasonZones(farm);
  const lines = zones.flatMap((z) => z.lines);
  const cost = sumOf(lines, "cost");
  const without = [
    ...(cost.unknown > 0 ? ["what has no price or area"] : []),
    ...(zones.some(isUnlimed) ? ["lime that is due and has no rate"] : []),
  ];
  return [
    { term: "Fields and zones", value: `${rows.length} and ${kept.length}` },
    ...(mapped > 0
      ? [{ term: "Land", value: `${size(total)}${mapped < rows.length ? `, without ${numberWord(rows.length - mapped)} not mapped` : ""}` }]
      : []),
    ...(mapped > 0 && rows.some((r) => r.field.tenure) ? [{ term: "Tenure", value: tenures }] : []),
    { term: "Samplings", value: dates.length === 0 ? "none yet" : `${dates.length}, ${yearSpan(dates)}` },
    ...(mapped > 0 && dated
      ? [
          {
            term: "Sampled within the guideline's interval",
            value: `${size(inTime)} of ${area(asked, farm.units)}${others!.some((z) => z.squareMeters > 0) ? ", the rest having no interval" : ""}`,
          },
        ]
      : []),
    ...(lines.length > 0 && cost.unknown < lines.length
      ? [
          {
            term: "Lime and fertilizer to buy",
            value: `about ${costWords(cost.known, farm.units, farm.currency)}${without.length > 0 ? `, without ${list(without)}` : ""}`,
          },
        ]
      : []),
  ];
};
