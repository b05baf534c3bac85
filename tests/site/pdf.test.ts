import { spawnSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { filesBelow } from "../../scripts/checkLinks.ts";
import { installation } from "../../scripts/options.ts";
import { pdfName, printedPages } from "../../scripts/pdfPages.ts";
import type { ReadPdf } from "../support/pdfText.ts";
import { readPdf } from "../support/pdfText.ts";
import { connect, fileAddress, openPage } from "./open.ts";

/** ISO 216 and the US Letter sheet in points, to within the half point Chromium rounds to. */
const sheets = { A4: [595, 842], Letter: [612, 792] } as const;

let home: string;
let browser: Browser;
/** The demo farm as it prints of itself: on Letter. */
let demo: Map<string, ReadPdf>;
const print = (content: string, out: string, ...args: string[]): Map<string, ReadPdf> => {
  const { status, stderr } = spawnSync(process.execPath, [join(installation, "scripts", "pdf.ts"), "--content", join(installation, content), "--out", join(home, out), ...args], { encoding: "utf8" });
  if (status !== 0) throw new Error(stderr);
  return new Map(readdirSync(join(home, out)).sort().map((name) => [name, readPdf(readFileSync(join(home, out, name)))]));
};
beforeAll(async () => {
  home = mkdtempSync(join(tmpdir(), "field-history-pdf-test-"));
  browser = await connect();
  demo = print("content", "demo");
}, 120_000);
afterAll(async () => {
  rmSync(home, { recursive: true, force: true });
  await browser.close();
});

describe("the printed demo farm", () => {
  it("is one file a page: the farm, each field, its timeline and advice, and no page about guidelines or samplings", () => {
    const names = [...demo.keys()];
    for (const name of ["index.pdf", "fields_causeway.pdf", "fields_causeway_timeline.pdf", "fields_causeway_recommendations_2020-11-05.pdf", "fields_saltings.pdf"]) expect(names).toContain(name);
    expect(names.filter((name) => /guideline|sampling|check|method|reference/.test(name))).toEqual([]);
    expect(names).toHaveLength(printedPages(filesBelow(inject("site"))).length);
  });

  it("is tagged, has an outline of its headings, and lies on Letter, as a farm in acres prints", () => {
    for (const [name, pdf] of demo) {
      expect(pdf.tagged, name).toBe(true);
      expect(pdf.outline, name).toBeGreaterThan(1);
      expect(pdf.sheets.length, name).toBeGreaterThan(0);
      for (const [width, height] of pdf.sheets) {
        expect(Math.abs(width - sheets.Letter[0]), name).toBeLessThan(1);
        expect(Math.abs(height - sheets.Letter[1]), name).toBeLessThan(1);
      }
    }
  });

  it.each([
    ["fields_causeway.pdf", "fields/causeway.html"],
    ["fields_causeway_timeline.pdf", "fields/causeway/timeline.html"],
    ["index.pdf", "index.html"],
  ])("%s holds every heading and every cell of its page", async (name, path) => {
    const { page } = await openPage(browser);
    await page.emulateMedia({ media: "print" });
    await page.goto(fileAddress(path));
    const cells = await page.evaluate(() => [...document.querySelectorAll<HTMLElement>("h1, h2, h3, th, td")].filter((cell) => cell.checkVisibility()).map((cell) => cell.innerText.replace(/\s+/g, "")));
    expect(cells.length).toBeGreaterThan(5);
    const { text } = demo.get(name)!;
    expect(text).not.toContain("\ufffd");
    const lost = (cell: string): boolean => !text.toLowerCase().includes(cell.toLowerCase());
    expect([...new Set(cells)].filter(lost)).toEqual([]);
  });
});

it("prints a farm in hectares on A4", () => {
  for (const [name, { sheets: printed }] of print("tests/fixtures/metric", "metric"))
    for (const [i, size] of printed[0]!.entries()) expect(Math.abs(size - sheets.A4[i]!), name).toBeLessThan(1);
}, 120_000);

// The style sheet's margins are 15 mm: what is left of 210 mm and of 8.5 in, at 96 dots an inch.
describe.each([
  ["A4", (210 - 30) / 25.4],
  ["Letter", 8.5 - 30 / 25.4],
])("on %s", (paper, inches) => {
  it("no table and no figure is cut at its side, and none makes its page too small to read", async () => {
    const printed = paper === "Letter" ? demo : print("content", "a4", "--paper", "a4");
    for (const path of printedPages(filesBelow(inject("site")))) {
      const { scale } = printed.get(pdfName(path))!;
      expect(scale, path).toBeGreaterThan(0.7);
      // The width the page was laid out for, before it was shrunk onto the sheet; known to some dots only, hence the half percent below.
      const width = Math.floor((inches * 96) / scale);
      const { page } = await openPage(browser, { viewport: { width, height: 900 } });
      await page.emulateMedia({ media: "print" });
      await page.goto(fileAddress(path));
      const cut = await page.evaluate(
        (right) => [...document.querySelectorAll("table, figure, svg")].filter((e) => e.checkVisibility() && e.getBoundingClientRect().right > right * 1.005).map((e) => `${e.tagName} in ${e.closest("section")?.id ?? "?"}: ${e.getBoundingClientRect().right} of ${right}`),
        width,
      );
      expect(cut, path).toEqual([]);
      await page.context().close();
    }
  }, 120_000);
});
