import type { TrendRow } from "../views/trends/trendFigure.ts";
import { longDate } from "../views/words.ts";
import { attribute, text } from "./html.ts";
import { paths, relativeHref } from "../views/paths.ts";

/** The lines of the table below a trend, a bag each; one string, because a page holds hundreds. `from`: the page they stand on. */
export const trendRows = (from: string, field: string, rows: readonly TrendRow[]): string =>
  rows
    .map((r) => {
      const sampled = `<a href="${attribute(relativeHref(from, paths.sampling(field, r.sampling)))}">${text(longDate(r.date))}</a>`;
      const was = r.was === undefined ? "" : `<del>${text(r.was)}</del> `;
      return `<tr><th scope="row">${sampled}</th><td>${text(r.zone.name)}</td><td class="n">${was}${text(r.value)}</td><td>${text(r.change)}</td><td class="n">${r.series}</td><td>${text(r.method)}</td><td>${text(r.depth)}</td><td class="n">${text(r.cores)}</td><td>${text(r.bag)}</td><td>${text(r.remark)}</td></tr>`;
    })
    .join("");
