import type { Farm, Zone } from "../records/model.ts";
import { apartMark, apartNote } from "./apart.ts";
import { farmColumn } from "./homeZones.ts";
import { leavesOut, leftOutForReader } from "./leftOut.ts";
import type { MapModel } from "./map.ts";
import { drawable, mapModel } from "./map.ts";
import type { RatedCell } from "./zoneRows.ts";
import { mapCss } from "./zoneRows.ts";

export interface HomeMap {
  /** `undefined` where no zone has a boundary, or there are too many of them to be told apart. */
  readonly model: MapModel | undefined;
  readonly note: string;
}

/** Above so many zones a label is wider than its zone: only those where lime is due are marked. */
const mostLabels = 60;
/** Above so many zones the map is a blur, and heavier than all else on the page. */
const mostZones = 400;
const limeMark = "L";

/** The farm's zones in the classes of soil pH, or why they are not drawn. */
export const homeMap = (farm: Farm): HomeMap => {
  const zones = farm.fields.reduce((sum, f) => sum + drawable(f.zones).length, 0);
  if (leavesOut(farm, "positions")) return { model: undefined, note: `The map is ${leftOutForReader}.` };
  if (zones === 0) return { model: undefined, note: "No map, because no zone has a boundary on record." };
  if (zones > mostZones)
    return {
      model: undefined,
      note: `No map of the whole farm, because its ${zones} zones could not be told apart on one page. Each field has its own.`,
    };
  const cells = farmColumn(farm, "pH");
  const model = draw(farm, cells, zones <= mostLabels);
  return {
    model,
    note: [
      note(farm, cells, zones <= mostLabels),
      ...(model?.way === 1 ? ["Where the numbers have no room, letters stand for the zones."] : []),
    ].join(" "),
  };
};

const note = (farm: Farm, cells: ReadonlyMap<Zone, RatedCell>, labeled: boolean): string => {
  const what = "Soil pH at each zone's newest routine sampling. Class limits are those of each field's guideline for its next crop.";
  const limeDue = [...cells.values()].some((cell) => mapCss(cell, "pH") === "c-v2");
  const more = labeled
    ? apartNote(farm.fields.flatMap((f) => f.zones.map((z) => ({ name: `${f.name}, ${z.name},`, cell: cells.get(z)! }))))
    : `${limeDue ? `${limeMark}: lime due. ` : ""}The numbers stand on the fields' own pages.`;
  return [what, more].filter(Boolean).join(" ");
};

const classes = [
  { css: "c-v2", label: "lime due" },
  { css: "c-v3", label: "in range" },
  { css: "c-v4", label: "above the range" },
  { css: "c-none", label: "no class by its guidelines" },
  { css: "c-nd", label: "not sampled" },
];

const draw = (farm: Farm, cells: ReadonlyMap<Zone, RatedCell>, labeled: boolean): MapModel | undefined => {
  const used = new Set<string>();
  const zones = farm.fields.flatMap((field) =>
    drawable(field.zones).map((zone) => {
      const cell = cells.get(zone)!;
      const css = mapCss(cell, "pH");
      used.add(css);
      const value = cell.value === "" ? (cell.why ?? "") : `${cell.value}${cell.apart === undefined ? "" : ` ${apartMark}`}`;
      const several = field.zones.length > 1;
      const title = `${field.name}, ${zone.name}: pH ${value}`;
      if (!labeled) return { id: zone.id, area: zone.area, css, lines: css === "c-v2" ? [limeMark] : [], shorter: [], title };
      return {
        id: zone.id,
        area: zone.area,
        css,
        lines: [several ? `${zone.letter} · ${value}` : value],
        shorter: [[several ? zone.letter : value]],
        title,
      };
    }),
  );
  const names = farm.fields.flatMap((f) => {
    const areas = drawable(f.zones).map((z) => z.area);
    return labeled && areas.length > 0 ? [{ text: f.name, areas }] : [];
  });
  return mapModel(
    zones,
    560,
    620,
    farm.units,
    classes.filter((c) => used.has(c.css)),
    names,
  );
};
