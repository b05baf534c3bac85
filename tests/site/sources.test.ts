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
/** A rate to spread, or one that was for a crop now past. */
const hasNumber = (row: Row): boolean => /<span class="rate"><b>[\d.,]+<\/b>|[\d.,]+ \S+ for [^,<]+, now past/.test(row.summary);
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

/** Every line of some page that shows a rate, as text, with what it must hold beside it. */
const page = (path: string): string => readFileSync(join(inject("site"), path), "utf8");
const marked = /class="ev (read|derived|secondary|memory)"/;
const leadsToRule = /href="[^"]*guidelines\/[a-z0-9-]+\.html"/;
const aRate = /[\d.,]+ (lb\/ac|kg\/ha|tons? (an|per) acre|t\/ha)/;

it("every line of what needs doing that names a rate says by whose rule, and bears a mark", () => {
  const lines = [...page("index.html").matchAll(/<li><div class="when[\s\S]*?<\/li>/g)].map(([line]) => line).filter((line) => aRate.test(line));
  expect(lines.length).toBeGreaterThan(2);
  for (const line of lines) {
    expect(line).toMatch(leadsToRule);
    expect(line).toMatch(marked);
  }
});

it("every line of the season says by whose rule, bears a mark and leads to its working", () => {
  const lines = [...page("season.html").matchAll(/<tr>(?:(?!<\/tr>)[\s\S])*<\/tr>/g)].map(([line]) => line).filter((line) => /<td class="n"><a /.test(line));
  expect(lines.length).toBeGreaterThan(8);
  for (const line of lines) {
    expect(line).toMatch(leadsToRule);
    expect(line).toMatch(marked);
    const [, field, anchor] = /href="fields\/([a-z0-9-]+)\.html#([a-z0-9-]+)"/.exec(line) ?? [];
    expect(page(`fields/${field!}.html`)).toContain(`id="${anchor!}"`);
  }
});

it("every spreader sheet says by whose rule, and whether that is checked", () => {
  const sheets = page("spreader-sheets.html").split(/<section /).filter((section) => section.includes("what to spread"));
  expect(sheets.length).toBe(3);
  for (const sheet of sheets) expect(sheet).toMatch(/Rates by [^<]+, resting on values not yet checked against the publication\./);
});

it("what is owed says by whose rule, and bears a mark", () => {
  for (const path of ["summary.html", ...filesBelow(inject("site")).filter((f) => f.endsWith("/summary.html"))]) {
    const owed = page(path).split('id="owed"')[1]!.split("</section>")[0]!;
    if (/\d lb/.test(owed)) expect(owed, path).toMatch(/by [A-Z][^<]+[\s\S]*class="ev /);
  }
});
