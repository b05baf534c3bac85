import type { Farm } from "../../records/model.ts";
import type { CalendarEntry, CalendarSeason, CalendarView } from "./calendar.ts";
import { calendarView } from "./calendar.ts";
import { calendarWeights, mostOfPage } from "../pageWeight.ts";
import { parted } from "../parted.ts";
import type { TestingRow } from "./testingCosts.ts";
import type { FarmWorth } from "./worthView.ts";
import { farmWorth } from "./worthView.ts";
import { paths } from "../paths.ts";

type WorthRow = FarmWorth["rows"][number];
type Line =
  | { readonly kind: "entry"; readonly season: CalendarSeason; readonly entry: CalendarEntry }
  | { readonly kind: "cost"; readonly row: TestingRow }
  | { readonly kind: "worth"; readonly row: WorthRow };

/** One page of the calendar: a stretch of its seasons, then of the table of costs, then of that of worth. */
export interface CalendarPage {
  /** A season that began on the page before says that it is continued. */
  readonly seasons: readonly CalendarSeason[];
  readonly costs: readonly TestingRow[];
  readonly worth: readonly WorthRow[];
  /** "Autumn 2026 to What it costs", for the links between the pages. */
  readonly holds: string;
}

/** Every line of the calendar in its order, over as many pages as it takes: on most farms one. */
export const calendarPages = (view: CalendarView, worth: readonly WorthRow[]): readonly CalendarPage[] => {
  const seasons = [
    ...view.seasons,
    ...(view.undated.length > 0 ? [{ id: "undated", label: "No season can be said", total: "", entries: view.undated }] : []),
  ];
  const lines: Line[] = [
    ...seasons.flatMap((season) => season.entries.map((entry): Line => ({ kind: "entry", season, entry }))),
    ...view.costs.map((row): Line => ({ kind: "cost", row })),
    ...worth.map((row): Line => ({ kind: "worth", row })),
  ];
  const parts = parted(lines, ({ kind }) => calendarWeights[kind], mostOfPage);
  return parts.length === 0 ? [page([])] : parts.map(page);
};

/** All that one page of the calendar shows. */
export interface CalendarPageView {
  /** From 1 on. */
  readonly part: number;
  readonly path: string;
  readonly title: string;
  readonly lede: string;
  readonly why: string;
  readonly page: CalendarPage;
  readonly pages: readonly CalendarPage[];
  readonly showsCosts: boolean;
  readonly showsWorth: boolean;
  readonly farmCost: string;
  readonly worth: string;
  readonly contents: readonly { readonly id: string; readonly text: string }[];
}

interface Calendar {
  readonly view: CalendarView;
  readonly worth: FarmWorth;
  readonly pages: readonly CalendarPage[];
}
const known = new WeakMap<Farm, Calendar>();

/** Worked out once a farm, for all its pages. */
const calendarOf = (farm: Farm): Calendar => {
  let calendar = known.get(farm);
  if (!calendar) {
    const [view, worth] = [calendarView(farm), farmWorth(farm)];
    known.set(farm, (calendar = { view, worth, pages: calendarPages(view, worth.rows) }));
  }
  return calendar;
};

export const calendarPageView = (farm: Farm, part: number): CalendarPageView => {
  const { view, worth, pages } = calendarOf(farm);
  const { lede, why, farmCost } = view;
  const here = pages[part - 1]!;
  const last = part === pages.length;
  const [showsCosts, showsWorth] = [
    here.costs.length > 0 || (last && view.costs.length === 0),
    here.worth.length > 0 || (last && worth.rows.length === 0),
  ];
  return {
    part,
    path: paths.calendarPart(part),
    title: part === 1 ? "Sampling calendar" : `Sampling calendar, page ${part}`,
    ...{ lede, why, farmCost, worth: worth.says, page: here, pages, showsCosts, showsWorth },
    contents: [
      ...here.seasons.map(({ id, label }) => ({ id, text: label })),
      ...(showsCosts ? [{ id: "costs", text: "What it costs" }] : []),
      ...(showsWorth ? [{ id: "worth", text: "Is it worth it" }] : []),
    ],
  };
};

const page = (lines: readonly Line[]): CalendarPage => {
  const entries = lines.flatMap((l) => (l.kind === "entry" ? [l] : []));
  const seasons = [...new Set(entries.map((l) => l.season))].map((season): CalendarSeason => {
    const own = entries.filter((l) => l.season === season).map((l) => l.entry);
    return { ...season, label: own[0] === season.entries[0] ? season.label : `${season.label}, continued`, entries: own };
  });
  const costs = lines.flatMap((l) => (l.kind === "cost" ? [l.row] : []));
  const worth = lines.flatMap((l) => (l.kind === "worth" ? [l.row] : []));
  const heads = [
    ...seasons.map((s) => s.label),
    ...(costs.length > 0 ? ["What it costs"] : []),
    ...(worth.length > 0 ? ["Is it worth it"] : []),
  ];
  return { seasons, costs, worth, holds: heads.length > 1 ? `${heads[0]!} to ${heads.at(-1)!}` : (heads[0] ?? "") };
};
