import { crops } from "../interpretation/vocabulary.ts";
import type { Farm, Field, Zone } from "../records/model.ts";
import { jobs, zoneAdviceView } from "./adviceView.ts";
import { apartMark, apartNote, sayApart } from "./apart.ts";
import { awaitedOf } from "./awaited.ts";
import type { Bought } from "./productsView.ts";
import { dueOf } from "./due.ts";
import type { MapModel } from "./map.ts";
import { drawable, mapModel } from "./map.ts";
import { fieldRows, resultsCsv, weight } from "./rows.ts";
import type { ResultRow } from "./rows.ts";
import type { ZoneAdvice } from "./sample.ts";
import { latestAdvice } from "./sample.ts";
import { area, areaUnit, depth, inUnitsOf, mass, money } from "./units.ts";
import { capital, count, list, monthYear } from "./words.ts";
import type { RatedCell } from "./zoneRows.ts";
import { columnHead, mapCss, ratedCell, sayUnits } from "./zoneRows.ts";

export interface Task {
  readonly field: Field;
  readonly when: string;
  readonly urgent: boolean;
  /** False for a line that only says why there is nothing to do. */
  readonly job: boolean;
  readonly text: string;
  readonly detail: string;
}

export interface HomeZone {
  readonly zone: Zone;
  readonly area: string;
  readonly pH: RatedCell;
  readonly P: RatedCell;
  readonly K: RatedCell;
  readonly sampled: string;
}

export interface HomeField {
  readonly field: Field;
  readonly about: string;
  readonly due: string;
  readonly overdue: boolean;
  readonly zones: readonly HomeZone[];
}

export interface HomeView {
  readonly farm: Farm;
  readonly lede: string;
  readonly period: string;
  readonly size: string;
  readonly tasks: readonly Task[];
  readonly map: MapModel | undefined;
  readonly mapNote: string;
  readonly fields: readonly HomeField[];
  /** Over phosphorus and potassium. */
  readonly heads: readonly [string, string];
  readonly csvWeight: string;
}

/** The newest result of each analyte in each zone, for the download beside the table of fields. */
export const latestRows = (farm: Farm): ResultRow[] =>
  farm.fields.flatMap((field) => {
    const newest = new Map<string, string>();
    const rows = fieldRows(field);
    const key = (r: ResultRow): string => `${r.zone.id} ${r.measurement.analyte}`;
    // The rows come oldest first.
    for (const row of rows) newest.set(key(row), row.sampling.date);
    return rows.filter((row) => newest.get(key(row)) === row.sampling.date);
  });

const csvOfFarm = new WeakMap<Farm, string>();

/** The newest results as CSV, made once: the page tells its weight and the download holds it. */
export const latestCsv = (farm: Farm): string => {
  let text = csvOfFarm.get(farm);
  if (text === undefined) csvOfFarm.set(farm, (text = resultsCsv(latestRows(farm), farm.units)));
  return text;
};

/** All that the home page shows. */
export const homeView = (farm: Farm): HomeView => {
  const advised = new Map<Zone, ZoneAdvice>();
  for (const field of farm.fields)
    for (const zone of field.zones) {
      const found = latestAdvice(farm, field, zone);
      if (found) advised.set(zone, found);
    }
  const tasks = farm.fields.flatMap((field) => fieldTasks(farm, field, advised));
  const dates = farm.fields.flatMap((f) => f.samplings.map((s) => s.date)).sort();
  const squareMeters = farm.fields.flatMap((f) => f.zones).reduce((sum, z) => sum + (z.squareMeters ?? 0), 0);
  const urgent = tasks.filter((t) => t.urgent);
  const acidity = farmColumn(farm, advised, "pH");
  return {
    farm,
    lede: lede(tasks, urgent),
    period: dates.length === 0 ? "no samplings yet" : `${dates[0]!.slice(0, 4)} to ${dates.at(-1)!.slice(0, 4)}`,
    size: `${count(farm.fields.length, "field")}${squareMeters > 0 ? `, ${area(squareMeters, farm.units)} ${areaUnit(farm.units)}` : ""}`,
    tasks: [...urgent, ...tasks.filter((t) => !t.urgent)],
    map: farmMap(farm, acidity),
    mapNote: mapNote(farm, acidity),
    ...fieldTable(farm, advised, acidity),
    csvWeight: weight(latestCsv(farm)),
  };
};

/** The first three things to do, one a field; the rest is counted. */
const lede = (tasks: readonly Task[], urgent: readonly Task[]): string => {
  const inOrder = [...urgent, ...tasks.filter((t) => !t.urgent && t.job)];
  if (inOrder.length === 0) return "Nothing needs doing now.";
  const fields = [...new Set(inOrder.map((t) => t.field))].slice(0, 3);
  const first = fields.map((field) => {
    const { text } = inOrder.find((t) => t.field === field)!;
    return `${field.name}: ${text.charAt(0).toLowerCase()}${text.slice(1)}.`;
  });
  const rest = inOrder.length - first.length;
  return `${first.join(" ")}${rest > 0 ? ` ${capital(count(rest, "more thing needs", "more things need"))} doing.` : ""}`;
};

const fieldTasks = (farm: Farm, field: Field, advised: ReadonlyMap<Zone, ZoneAdvice>): Task[] => {
  const shown = inUnitsOf(farm, field);
  const due = dueOf(farm, field);
  const tasks: Task[] = [];
  if (due.overdue)
    tasks.push({
      field,
      when: "Now",
      urgent: true,
      job: true,
      text: due.last ? "Sample again" : "Sample every zone",
      detail: due.last ? `Last sampled ${monthYear(due.last)}; the next sampling was due ${due.words.replace(", overdue", "")}.` : "Not every zone has a routine sampling.",
    });
  const awaited = awaitedOf(field);
  if (awaited.length > 0) tasks.push({ field, when: "At the laboratory", urgent: false, job: false, text: "Results awaited", detail: awaited.join(" ") });
  const views = field.zones.flatMap((z) => {
    const found = advised.get(z);
    return found ? [{ advice: found, view: zoneAdviceView(shown, found) }] : [];
  });
  const next = [...new Set(views.flatMap(({ advice }) => (advice.crop ? `${advice.crop.season} ${crops[advice.crop.crop].label}` : [])))];
  const when = next.length > 0 ? `For ${list(next)}` : "Next crop not planned";
  const cost = views.reduce((sum, { view }) => sum + (view.limeCost ?? 0), 0);
  const fieldJobs = jobs(views.flatMap(({ view }) => view.actions), field.zones.length);
  const shopping = shoppingWords(shown, views.flatMap(({ view }) => view.bought));
  for (const job of fieldJobs)
    tasks.push({ field, when, urgent: false, job: true, text: job.text, detail: job.lime && cost > 0 ? `About ${money(cost, farm.currency)} of lime on this field.` : `${job.detail}${job.lime ? "" : shopping}` });
  const silent = [...new Set(views.flatMap(({ view }) => view.rows.flatMap((r) => r.none ?? [])))];
  if (fieldJobs.length === 0 && views.length > 0 && !due.overdue)
    tasks.push({ field, when, urgent: false, job: false, text: silent.length > 0 ? "No advice" : "Nothing to do", detail: silent[0] ?? `Next sampling ${due.words}.` });
  return tasks;
};

/** " That takes 1,120 lb of muriate of potash, 0-0-60, about $252." */
const shoppingWords = (farm: Farm, bought: readonly Bought[]): string => {
  const totals = new Map<string, Bought>();
  for (const b of bought) {
    const so = totals.get(b.name);
    totals.set(b.name, so ? { name: b.name, pounds: so.pounds + b.pounds, cost: so.cost === undefined || b.cost === undefined ? undefined : so.cost + b.cost } : b);
  }
  if (totals.size === 0) return "";
  return ` That takes ${list([...totals.values()].map((b) => `${mass(b.pounds, farm.units)} of ${b.name}${b.cost === undefined ? "" : ` (about ${money(b.cost, farm.currency)})`}`))}.`;
};

/** Every zone's cell of one analyte, over the whole farm; those not to be compared with the most of them marked. */
const farmColumn = (farm: Farm, advised: ReadonlyMap<Zone, ZoneAdvice>, analyte: "pH" | "P" | "K"): Map<Zone, RatedCell> => {
  const zones = farm.fields.flatMap((f) => f.zones);
  const cells = sayApart(zones.map((z) => ratedCell(advised.get(z), analyte)), (d) => depth(d, farm.units));
  return new Map(zones.map((z, i) => [z, cells[i]!]));
};

const mapNote = (farm: Farm, cells: ReadonlyMap<Zone, RatedCell>): string =>
  [
    "Soil pH at each zone's newest routine sampling. Class limits are those of each field's guideline for its next crop.",
    apartNote(farm.fields.flatMap((f) => f.zones.map((z) => ({ name: `${f.name}, ${z.name},`, cell: cells.get(z)! })))),
  ]
    .filter(Boolean)
    .join(" ");

const farmMap = (farm: Farm, cells: ReadonlyMap<Zone, RatedCell>): MapModel | undefined => {
  const used = new Set<string>();
  const zones = farm.fields.flatMap((field) =>
    drawable(field.zones).map((zone) => {
      const cell = cells.get(zone)!;
      const css = mapCss(cell, "pH");
      used.add(css);
      const value = cell.value === "" ? (cell.why ?? "") : `${cell.value}${cell.apart === undefined ? "" : ` ${apartMark}`}`;
      return { id: zone.id, area: zone.area, css, lines: [field.zones.length > 1 ? `${zone.letter} · ${value}` : value], title: `${field.name}, ${zone.name}: pH ${value}` };
    }),
  );
  const all = [
    { css: "c-v2", label: "lime due" },
    { css: "c-v3", label: "in range" },
    { css: "c-v4", label: "above the range" },
    { css: "c-none", label: "no class: no guideline for its next crop" },
    { css: "c-nd", label: "not sampled" },
  ];
  const names = farm.fields.flatMap((f) => {
    const areas = drawable(f.zones).map((z) => z.area);
    return areas.length > 0 ? [{ text: f.name, areas }] : [];
  });
  return mapModel(zones, 560, 620, farm.units, all.filter((c) => used.has(c.css)), names);
};

/** The table of fields, its columns headed by the unit of their results; where laboratories differ each result says its own. */
const fieldTable = (farm: Farm, advised: ReadonlyMap<Zone, ZoneAdvice>, acidity: ReadonlyMap<Zone, RatedCell>): Pick<HomeView, "fields" | "heads"> => {
  const [phosphorus, potassium] = [farmColumn(farm, advised, "P"), farmColumn(farm, advised, "K")];
  const fields = farm.fields.map((field) => homeField(farm, field, advised, { pH: acidity, P: phosphorus, K: potassium }));
  const column = (analyte: "P" | "K"): RatedCell[] => fields.flatMap((f) => f.zones.map((z) => z[analyte]));
  const [p, k] = [sayUnits(column("P")), sayUnits(column("K"))];
  let row = 0;
  return {
    fields: fields.map((f) => ({ ...f, zones: f.zones.map((z) => ({ ...z, P: p[row]!, K: k[row++]! })) })),
    heads: [columnHead("P", column("P")), columnHead("K", column("K"))],
  };
};

const homeField = (farm: Farm, field: Field, advised: ReadonlyMap<Zone, ZoneAdvice>, cells: Record<"pH" | "P" | "K", ReadonlyMap<Zone, RatedCell>>): HomeField => {
  const due = dueOf(farm, field);
  const units = field.units ?? farm.units;
  const grown = [...new Set(field.seasons.flatMap((s) => s.crops.map((c) => crops[c.crop].label)))];
  const squareMeters = field.zones.reduce((sum, z) => sum + (z.squareMeters ?? 0), 0);
  const about = [grown.length > 0 && list(grown), field.tenure?.kind, squareMeters > 0 && `${area(squareMeters, units)} ${areaUnit(units)}`];
  // A garden in a column of acres would be nothing.
  const ownUnit = units === farm.units ? "" : ` ${areaUnit(units)}`;
  return {
    field,
    about: about.filter(Boolean).join("; "),
    due: due.words,
    overdue: due.overdue,
    zones: field.zones.map((zone) => {
      const advice = advised.get(zone);
      return {
        zone,
        area: zone.squareMeters === undefined ? "not mapped" : `${area(zone.squareMeters, units)}${ownUnit}`,
        pH: cells.pH.get(zone)!,
        P: cells.P.get(zone)!,
        K: cells.K.get(zone)!,
        sampled: advice ? monthYear(advice.sampling.date) : awaitedOf(field, zone).length > 0 ? "results awaited" : "never",
      };
    }),
  };
};
