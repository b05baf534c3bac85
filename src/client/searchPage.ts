import type { SearchIndex } from "../views/search/searchIndex.ts";
import type { FoundGroup } from "./search.ts";
import { prepare, search } from "./search.ts";
import { keepState, readState } from "./state.ts";

/** The search box, its results and the keys that lead through them. */
export const searchPage = (form: HTMLFormElement, results: HTMLElement, index: SearchIndex): void => {
  const input = form.querySelector<HTMLInputElement>("input")!;
  const status = form.querySelector<HTMLElement>("[data-count]")!;
  const words = prepare(index);

  const show = (): void => {
    const groups = search(index, words, input.value);
    results.replaceChildren(...groups.map(groupElement));
    const total = groups.reduce((sum, g) => sum + g.total, 0);
    status.textContent =
      input.value.trim() === ""
        ? ""
        : total === 0
          ? "Nothing found. Fewer or shorter words find more."
          : total === 1
            ? "1 result."
            : `${total} results.`;
    keepState({ find: input.value.trim() });
  };

  const links = (): HTMLElement[] => [...results.querySelectorAll<HTMLElement>("a")];
  const move = (step: 1 | -1): void => {
    const all = links();
    const next = all.indexOf(document.activeElement as HTMLElement) + step;
    (next < 0 ? input : all[Math.min(next, all.length - 1)])?.focus();
  };
  for (const part of [form, results])
    part.addEventListener("keydown", (event) => {
      if (event.key === "ArrowDown") move(1);
      else if (event.key === "ArrowUp" && document.activeElement !== input) move(-1);
      else if (event.key === "Escape" && document.activeElement !== input) input.focus();
      else return;
      event.preventDefault();
    });
  input.addEventListener("input", show);
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    links()[0]?.focus();
  });
  const restore = (): void => {
    input.value = readState(location.hash).get("find") ?? "";
    show();
  };
  // An anchor, such as that of the link that skips to the content, leaves alone what was typed.
  addEventListener("hashchange", () => {
    if (location.hash === "" || readState(location.hash).size > 0) restore();
  });
  restore();
};

const groupElement = ({ title, hits, total }: FoundGroup): HTMLElement => {
  const group = document.createElement("div");
  const heading = document.createElement("h3");
  heading.textContent = title;
  const list = document.createElement("ul");
  list.className = "plain";
  list.append(
    ...hits.map(({ text, href }) => {
      const item = document.createElement("li");
      const link = document.createElement("a");
      link.href = href;
      link.textContent = text;
      item.append(link);
      return item;
    }),
  );
  group.append(heading, list);
  if (total > hits.length) {
    const more = document.createElement("p");
    more.className = "note";
    more.textContent = `${total - hits.length} more. Another word narrows them.`;
    group.append(more);
  }
  return group;
};
