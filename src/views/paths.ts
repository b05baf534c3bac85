import type { PurposeId } from "../interpretation/vocabulary.ts";

const planEndings: Readonly<Record<PurposeId, string>> = { routine: "", phCheck: "-ph", nitrate: "-nitrate" };
const partName = (name: string, part: number): string => (part === 1 ? name : `${name}-${part}`);

/** The orders in which the farm's fields are listed, each on pages of its own. */
export const fieldOrders = ["name", "need", "oldest-test", "crop", "tenure"] as const;
export type FieldOrder = (typeof fieldOrders)[number];

/** Every file the site is made of. A page passes its own path and links with `relativeHref`. */
export const paths = {
  home: "index.html",
  references: "references.html",
  methods: "methods.html",
  compare: "compare.html",
  checks: "checks.html",
  calendar: "calendar.html",
  /** From the second page on `calendar/part-2.html`. */
  calendarPart: (part: number) => (part === 1 ? "calendar.html" : `calendar/part-${part}.html`),
  /** `fields.html` by name, `fields-by-need.html`, and from the second page on `fields-by-need-2.html`. */
  fieldList: (order: FieldOrder, page = 1) => `fields${order === "name" ? "" : `-by-${order}`}${page === 1 ? "" : `-${page}`}.html`,
  search: "search.html",
  glossary: "glossary.html",
  summary: "summary.html",
  /** On a large farm the lines by field stand on pages of their own. */
  summaryPart: (part: number) => `summary/fields-${part}.html`,
  season: "season.html",
  spreaderSheets: "spreader-sheets.html",
  /** On a large farm the season and its sheets are told of some fields a page. */
  seasonPart: (part: number) => `season/fields-${part}.html`,
  spreaderSheetsPart: (part: number) => `spreader-sheets/fields-${part}.html`,
  /** `file` is `fertilizer-potash.csv`; each choice of units has its own folder, and nothing else writes there. */
  rateMap: (units: string, file: string) => `data/rates/${units}/${file}`,
  check: (kind: string) => `checks/${kind}.html`,
  field: (field: string) => `fields/${field}.html`,
  /** The working of advice, of a field of very many zones. */
  advice: (field: string, part = 1) => `fields/${field}/${partName("advice", part)}.html`,
  /** Histories, balances and pairs of zones are parted where one page would be too heavy; the first part bears the plain name. */
  trends: (field: string, part = 1) => `fields/${field}/${partName("trends", part)}.html`,
  balance: (field: string, part = 1) => `fields/${field}/${partName("balance", part)}.html`,
  compared: (field: string, part = 1) => `fields/${field}/${partName("zones-compared", part)}.html`,
  /** The maps year by year, the newest on the first page. */
  maps: (field: string, part = 1) => `fields/${field}/${partName("maps", part)}.html`,
  timeline: (field: string) => `fields/${field}/timeline.html`,
  fieldSummary: (field: string) => `fields/${field}/summary.html`,
  plan: (field: string, purpose: PurposeId) => `fields/${field}/plan${planEndings[purpose]}.html`,
  sampling: (field: string, sampling: string) => `fields/${field}/samplings/${sampling}.html`,
  recommendation: (field: string, issued: string) => `fields/${field}/recommendations/${issued}.html`,
  /** A laboratory's report, under the name that the farm gave it. */
  report: (file: string) => `data/reports/${file}`,
  guideline: (guideline: string) => `guidelines/${guideline}.html`,
  resultsCsv: (field: string) => `data/${field}-results.csv`,
  zonesGeoJson: (field: string) => `data/${field}-zones.geojson`,
  balanceCsv: (field: string) => `data/${field}-balance.csv`,
  planGpx: (field: string, purpose: PurposeId) => `data/${field}-plan${planEndings[purpose]}.gpx`,
  planGeoJson: (field: string, purpose: PurposeId) => `data/${field}-plan${planEndings[purpose]}.geojson`,
  planCsv: (field: string, purpose: PurposeId) => `data/${field}-plan${planEndings[purpose]}-labels.csv`,
  latestCsv: "data/latest-results.csv",
  fieldsCsv: "data/fields.csv",
  styles: "assets/site.css",
  script: "assets/charts.js",
  listsScript: "assets/lists.js",
  mapsScript: "assets/maps.js",
  searchIndex: "assets/search-index.js",
} as const;

/** The folders at the top of a site, beside its pages. */
export const siteFolders: ReadonlySet<string> = new Set([
  "assets",
  "calendar",
  "checks",
  "data",
  "fields",
  "guidelines",
  "season",
  "spreader-sheets",
  "summary",
]);

/**
 * A relative link from one output file to another: works from a web host at any path and from a folder.
 * Each segment is percent-encoded, so a name with a space or # in it stays a name.
 */
export const relativeHref = (from: string, to: string, anchor?: string): string => {
  // The folders that both stand in end here.
  let shared = 0;
  for (let i = 0; i < from.length && from[i] === to[i]; i += 1) if (from[i] === "/") shared = i + 1;
  let up = "";
  for (let i = shared; i < from.length; i += 1) if (from[i] === "/") up += "../";
  const down = to.slice(shared);
  const way = up + (nothingToEncode.test(down) ? down : down.split("/").map(encodeURIComponent).join("/"));
  return anchor === undefined ? way : `${way}#${encodeURIComponent(anchor)}`;
};

/** Nearly every path is one, and encoding takes longer than looking. */
const nothingToEncode = /^[\w./-]*$/;
