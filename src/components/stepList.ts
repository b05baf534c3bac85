import type { StepRow } from "../views/steps.ts";
import { attribute, text } from "./html.ts";
import { relativeHref } from "../views/paths.ts";

const source = (from: string, link: StepRow["source"]): string => {
  if (!link) return "";
  return link.to
    ? `<a href="${attribute(relativeHref(from, link.to, link.anchor))}">${text(link.text)}</a>`
    : `<span>${text(link.text)}</span>`;
};

/** Worked steps as a list, the last one its result; one string, because a site holds tens of thousands. `from`: the page they stand on. */
export const stepList = (from: string, steps: readonly StepRow[]): string => {
  const items = steps.map((s, i) => {
    const expression = s.expression ? `<span class="x">${text(s.expression)}</span>` : "";
    const evidence = s.evidence ? `<span class="ev ${s.evidence.grade}">${text(s.evidence.words)}</span>` : "";
    const note = s.note ? `<span class="nb">${text(s.note)}.</span>` : "";
    return `<li${i === steps.length - 1 ? ' class="tot"' : ""}> <span class="what">${text(s.what)}</span> <span class="r">${text(s.result)}</span> ${expression} <span class="src">${source(from, s.source)} ${evidence}${note}</span> </li>`;
  });
  return `<ol class="sum">${items.join("")}</ol>`;
};
