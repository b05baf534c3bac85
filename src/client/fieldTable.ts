import { fold, holdsAll } from "./fold.ts";
import { keepState, readState } from "./state.ts";

type Way = "ascending" | "descending";

/** "1 field", "4 fields"; and where something is looked for, "1 of 4 fields". */
export const shownWords = (all: number, left: number | undefined): string =>
  `${left === undefined ? "" : `${left} of `}${all} ${all === 1 ? "field" : "fields"}`;

/** The list of fields learns to sort by a column and to show only lines that hold what is typed. Both stand in the address. */
export const fieldTable = (table: HTMLTableElement, form: HTMLFormElement): void => {
  const input = form.querySelector<HTMLInputElement>("input")!;
  const status = form.querySelector<HTMLElement>("[data-count]")!;
  const heads = [...table.tHead!.rows[0]!.cells];
  const bodies = [...table.tBodies].map((body) => ({
    body,
    head: body.querySelector(".head"),
    rows: [...body.querySelectorAll<HTMLTableRowElement>("tr[data-keys]")],
  }));
  const rows = bodies.flatMap((b) => b.rows).map((row) => ({ row, words: [...row.cells].flatMap((cell) => fold(cell.textContent)) }));
  const keys = new Map(rows.map(({ row }) => [row, row.dataset["keys"]!.split(",").map(Number)]));
  const onPaper = document.createElement("span");
  onPaper.className = "paper";
  table.caption!.append(" ", onPaper);
  let sorted: { column: number; way: Way } | undefined;
  let said = "";

  const show = (): void => {
    const typed = fold(input.value);
    for (const { row, words } of rows) row.hidden = !holdsAll(words, typed);
    for (const { body, rows: own } of bodies) body.hidden = own.every((row) => row.hidden);
    const left = rows.filter(({ row }) => !row.hidden).length;
    status.textContent = `${shownWords(rows.length, typed.length === 0 ? undefined : left)}${said}.`;
    onPaper.textContent = typed.length === 0 ? "" : `Only lines with “${input.value.trim()}”: ${shownWords(rows.length, left)}.`;
    keepState({ find: input.value.trim(), sort: sorted ? String(sorted.column + 1) : "", way: sorted?.way === "descending" ? "down" : "" });
  };

  const sort = (column: number, way: Way): void => {
    sorted = { column, way };
    const sign = way === "ascending" ? 1 : -1;
    for (const { body, head, rows: own } of bodies)
      body.replaceChildren(...(head ? [head] : []), ...[...own].sort((a, b) => sign * (keys.get(a)![column]! - keys.get(b)![column]!)));
    heads.forEach((head, i) => (i === column ? head.setAttribute("aria-sort", way) : head.removeAttribute("aria-sort")));
    said = `, sorted by ${heads[column]!.textContent.toLowerCase()}${way === "descending" ? ", last to first" : ""}${bodies.length > 1 ? ", under each heading" : ""}`;
  };

  heads.forEach((head, column) => {
    const button = document.createElement("button");
    button.type = "button";
    button.append(...head.childNodes);
    head.append(button);
    button.addEventListener("click", () => {
      sort(column, sorted?.column === column && sorted.way === "ascending" ? "descending" : "ascending");
      show();
    });
  });
  input.addEventListener("input", show);
  form.addEventListener("submit", (event) => event.preventDefault());
  form.addEventListener("reset", () => setTimeout(show));

  const restore = (): void => {
    const state = readState(location.hash);
    input.value = state.get("find") ?? "";
    const column = Number(state.get("sort") ?? 0) - 1;
    if (heads[column]) sort(column, state.get("way") === "down" ? "descending" : "ascending");
    show();
  };
  addEventListener("hashchange", () => {
    if (readState(location.hash).size > 0) return restore();
    // A heading is hidden while none of its lines holds what was typed: a link to it would lead nowhere.
    const sought = bodies.find(({ body, head }) => body.hidden && head?.firstElementChild?.id === location.hash.slice(1));
    if (!sought) return;
    input.value = "";
    show();
    sought.body.scrollIntoView();
  });
  restore();
};
