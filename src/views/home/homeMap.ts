import type { Farm, Zone } from "../../records/model.ts";
import { isLimeDue } from "../season/fieldNeeds.ts";
import { seasonZones } from "../season/seasonZones.ts";
import { apartMark, apartNote } from "../advice/apart.ts";
import { farmColumn } from "./homeZones.ts";
import { leavesOut, leftOutForReader } from "../leftOut.ts";
import type { MapModel } from "../maps/map.ts";
import { drawable, mapModel } from "../maps/map.ts";
import type { RatedCell } from "../advice/zoneRows.ts";
import { mapCss } from "../advice/zoneRows.ts";

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
const limeColor = "c-v2";

type Colors = (zone: Zone) => string;

/** A zone's color. A table without a range gives pH no class, and may call for lime all the same. */
const colors = (farm: Farm, cells: ReadonlyMap<Zone, RatedCell>): Colors => {
  const due = new Set(seasonZones(farm).flatMap((z) => (isLimeDue(z) ? [z.zone] : [])));
  return (zone) => {
    const css = mapCss(cells.get(zone)!, "pH");
    return css === "c-none" && due.has(zone) ? limeColor : css;
  };
};

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
  const css = colors(farm, cells);
  const labeled = zones <= mostLabels;
  const model = draw(farm, cells, css, labeled);
  return {
    model,
    note: [note(farm, cells, css, labeled), ...(model && labeled ? shortened(model, farm) : [])].join(" "),
  };
};

/** What had no room: a field that lies far from the others leaves them small. */
const shortened = ({ way, names }: MapModel, farm: Farm): string[] => [
  ...(way === 1 ? ["Where the numbers have no room, letters stand for the zones."] : []),
  ...(way === 2 ? ["The numbers have no room here and stand on the fields' own pages."] : []),
  ...(names.length < farm.fields.filter((f) => drawable(f.zones).length > 0).length
    ? ["Names that have no room are left out; each field's own page has a map."]
    : []),
];

const note = (farm: Farm, cells: ReadonlyMap<Zone, RatedCell>, css: Colors, labeled: boolean): string => {
  const what = "Soil pH at each zone's newest routine sampling. Class limits are those of each field's guideline for its next crop.";
  const limeDue = farm.fields.some((f) => f.zones.some((z) => css(z) === limeColor));
  const more = labeled
    ? apartNote(farm.fields.flatMap((f) => f.zones.map((z) => ({ name: `${f.name}, ${z.name},`, cell: cells.get(z)! }))))
    : `${limeDue ? `${limeMark}: lime due. ` : ""}The numbers stand on the fields' own pages.`;
  return [what, more].filter(Boolean).join(" ");
};

const classes = [
  { css: limeColor, label: "lime due" },
  { css: "c-v3", label: "in range" },
  { css: "c-v4", label: "above the range" },
  { css: "c-none", label: "no class by its guidelines" },
  { css: "c-nd", label: "not sampled" },
];

const draw = (farm: Farm, cells: ReadonlyMap<Zone, RatedCell>, colorOf: Colors, labeled: boolean): MapModel | undefined => {
  const used = new Set<string>();
  const zones = farm.fields.flatMap((field) =>
    drawable(field.zones).map((zone) => {
      const cell = cells.get(zone)!;
      const css = colorOf(zone);
      used.add(css);
      const value = cell.value === "" ? (cell.why ?? "") : `${cell.value}${cell.apart === undefined ? "" : ` ${apartMark}`}`;
      const several = field.zones.length > 1;
      const title = `${field.name}, ${zone.name}: pH ${value}`;
      if (!labeled) return { id: zone.id, area: zone.area, css, lines: css === limeColor ? [limeMark] : [], shorter: [], title };
      return {
        id: zone.id,
        area: zone.area,
        css,
        lines: [several ? `${zone.letter} · ${value}` : value],
        shorter: [[several ? zone.letter : value], []],
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
