import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, inject, it } from "vitest";
import { filesBelow } from "../../scripts/checkLinks.ts";

/** A line of advice that opens to its working, as it stands in the page. */
interface Row {
  readonly id: string;
  readonly summary: string;
  readonly html: string;
}

const advice = (html: string): Row[] =>
  [...html.matchAll(/<div class="adv">([\s\S]*?)(?=<div class="adv">|<div class="marks">)/g)].flatMap(([, block]) =>
    [...block!.matchAll(/<details id="([^"]+)"[^>]*>\s*<summary>([\s\S]*?)<\/summary>([\s\S]*?)<\/details>/g)].map(([, id, summary, rest]) => ({ id: id!, summary: summary!, html: rest! })),
  );

const steps = (row: Row): string[] => [...row.html.matchAll(/<li[\s>][\s\S]*?<\/li>/g)].map(([step]) => step);
const hasNumber = (row: Row): boolean => /<span class="rate"><b>[\d.,]+<\/b>/.test(row.summary);
const linksToPublication = (step: string): boolean => /href="[^"]*references\.html#[^"]+"/.test(step);
const hasMark = (step: string): boolean => /class="ev (read|derived|secondary|memory)"/.test(step);

const pages = filesBelow(inject("site")).filter((f) => /^fields\/[^/]+\.html$/.test(f));
const rows = pages.flatMap((page) => advice(readFileSync(join(inject("site"), page), "utf8")).map((row) => ({ ...row, page })));

describe("no page shows a rate without its source and its evidence", () => {
  it("walks rates of every field", () => {
    expect(pages.length).toBeGreaterThan(3);
    expect(rows.filter(hasNumber).length).toBeGreaterThan(15);
    for (const page of pages) expect(rows.some((r) => r.page === page), page).toBe(true);
  });

  it.each(rows.filter(hasNumber))("$page#$id", (row) => {
    const all = steps(row);
    expect(all.length).toBeGreaterThan(0);
    const proven = all.some((step) => linksToPublication(step) && hasMark(step));
    expect(proven || all.some((step) => step.includes("common practice")), row.html.slice(0, 500)).toBe(true);
    // A line with an anchor into the references says how well it is known, whichever line it is.
    for (const step of all.filter(linksToPublication)) expect(hasMark(step), step).toBe(true);
  });

  it.each(rows.filter((r) => !hasNumber(r)))("$page#$id says why there is no rate", (row) => expect(row.summary).toMatch(/No [^<]+, because [^<]+\./));
});

it("every rate in the comparison of guidelines leads to a guideline with a page, and bears a mark", () => {
  const html = readFileSync(join(inject("site"), "compare.html"), "utf8");
  const lines = [...html.matchAll(/<tr><th scope="row">[\s\S]*?<\/tr>/g)].map(([line]) => line);
  expect(lines.length).toBeGreaterThan(2);
  for (const line of lines) {
    expect(line).toMatch(/href="guidelines\/[a-z0-9-]+\.html"/);
    if (/<td>[\d.,]+ (lb|kg)/.test(line)) expect(line).toMatch(/class="ev (read|derived|secondary|memory)"/);
  }
});
