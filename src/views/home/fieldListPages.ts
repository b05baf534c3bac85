import type { Farm } from "../../records/model.ts";
import type { FieldRow } from "./fieldList.ts";
import { byNeed, fieldList } from "./fieldList.ts";
import { needKinds, needs } from "../season/fieldNeeds.ts";
import { rowsPerPage } from "./fieldListPaging.ts";
import { compareNames } from "../nameOrder.ts";
import { capital, count } from "../words.ts";
import type { FieldOrder } from "../paths.ts";
import { paths } from "../paths.ts";

/** Fields with one thing in common, on one page. */
export interface FieldGroup {
  /** Its anchor; empty for a list without headings. */
  readonly id: string;
  readonly title: string;
  readonly rows: readonly FieldRow[];
}

export interface FieldListPage {
  readonly path: string;
  readonly groups: readonly FieldGroup[];
}

export interface FieldListView {
  readonly title: string;
  readonly lede: string;
  /** What a heading means and how the fields below it are ordered. */
  readonly note: string;
  readonly pages: readonly FieldListPage[];
  /** Every heading with the page it begins on. */
  readonly jumps: readonly { readonly path: string; readonly id: string; readonly text: string; readonly fields: number }[];
}

const titles: Record<FieldOrder, { title: string; note: string }> = {
  name: { title: "All fields", note: "By name." },
  need: {
    title: "Fields by need",
    note: "A field stands once, under its most urgent need; its line names the others. Within a need, the longest untested comes first.",
  },
  "oldest-test": {
    title: "Fields by oldest test",
    note: "The oldest of its zones' newest full samplings counts for a field. The oldest comes first.",
  },
  crop: { title: "Fields by next crop", note: "The next crop that is planned or recorded for each zone. Within a crop by name." },
  tenure: { title: "Fields by tenure", note: "As the field's record says. Within a tenure by name." },
};

const anchor = (text: string): string => text.replaceAll(/[^a-z0-9]+/gi, "-").toLowerCase();

/** The fields in the order of one list, below its headings. */
const groupsOf = (rows: readonly FieldRow[], order: FieldOrder): FieldGroup[] => {
  if (order === "name") return [{ id: "", title: "", rows }];
  if (order === "need") {
    const sorted = byNeed(rows);
    return needKinds
      .map((kind) => ({ id: anchor(kind), title: needs[kind], rows: sorted.filter((r) => r.needs[0]!.kind === kind) }))
      .filter((g) => g.rows.length > 0);
  }
  const titleOf = {
    "oldest-test": (r: FieldRow) => r.oldest?.slice(0, 4) ?? "Not all zones sampled",
    crop: (r: FieldRow) => capital(r.crop),
    tenure: (r: FieldRow) => capital(r.tenure),
  }[order];
  const tested = order === "oldest-test";
  const sorted = tested ? [...rows].sort((a, b) => a.keys[4]! - b.keys[4]! || a.keys[0]! - b.keys[0]!) : [...rows];
  const found = [...new Set(sorted.map(titleOf))];
  const inOrder = tested ? found : found.sort(compareNames);
  return inOrder.map((title) => ({ id: anchor(title), title, rows: sorted.filter((r) => titleOf(r) === title) }));
};

/** Groups over pages of at most `rowsPerPage` rows; a group that is parted goes on under its name. */
const paged = (groups: readonly FieldGroup[], order: FieldOrder): FieldListPage[] => {
  const pages: FieldGroup[][] = [[]];
  let room = rowsPerPage;
  for (const group of groups)
    for (let from = 0; from < group.rows.length;) {
      if (room === 0) {
        pages.push([]);
        room = rowsPerPage;
      }
      const rows = group.rows.slice(from, from + room);
      pages.at(-1)!.push({ ...group, title: from === 0 ? group.title : `${group.title}, continued`, rows });
      from += rows.length;
      room -= rows.length;
    }
  return pages.map((onPage, i) => ({ path: paths.fieldList(order, i + 1), groups: onPage }));
};

const lede = (rows: readonly FieldRow[]): string => {
  const parts = needKinds.flatMap((kind) => {
    const fields = rows.filter((r) => r.needs.some((n) => n.kind === kind)).length;
    return fields === 0 ? [] : [`${needs[kind].toLowerCase()} on ${count(fields, "field")}`];
  });
  return rows.length === 0 ? "This farm has no fields yet." : `${capital(parts.slice(0, 3).join("; "))}.`;
};

/** One order of the farm's fields, laid out over as many pages as it takes. */
export const fieldListView = (farm: Farm, order: FieldOrder): FieldListView => {
  const rows = fieldList(farm);
  const groups = groupsOf(rows, order);
  const pages = paged(groups, order);
  return {
    ...titles[order],
    lede: lede(rows),
    pages,
    jumps: groups
      .filter((g) => g.id !== "")
      .map((g) => ({
        path: pages.find((p) => p.groups.some((each) => each.id === g.id))!.path,
        id: g.id,
        text: g.title,
        fields: g.rows.length,
      })),
  };
};

/** The lists by name, for the links from one to another. */
export const orderNames: Record<FieldOrder, string> = {
  name: "By name",
  need: "By need",
  "oldest-test": "By oldest test",
  crop: "By next crop",
  tenure: "By tenure",
};
