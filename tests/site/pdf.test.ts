import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { beforeAll, describe, expect, inject, it } from "vitest";
import { filesBelow } from "../../scripts/checkLinks.ts";
import { installation } from "../../scripts/options.ts";
import { pdfName, printedPages } from "../../scripts/pdfPages.ts";
import { paperOf, printPages, type Paper } from "../../scripts/printPages.ts";
import { ranApart } from "../support/command.ts";
import type { ReadPdf } from "../support/pdfText.ts";
import { readPdf } from "../support/pdfText.ts";
import { connect, fileAddress, openPage } from "./open.ts";
import { onePageOfEachKind } from "./pages.ts";

/** ISO 216 and the US Letter sheet in points, to within the half point Chromium rounds to. */
const sheets = { A4: [595, 842], Letter: [612, 792] } as const;

const expectSheet = (pdf: ReadPdf, paper: Paper, name: string): void => {
  for (const size of pdf.sheets) for (const [i, points] of size.entries()) expect(Math.abs(points - sheets[paper][i]!), name).toBeLessThan(1);
};

const printed = async (paper: Paper, pages: readonly string[]): Promise<Map<string, ReadPdf>> => {
  const site = inject("site");
  const files = new Map<string, ReadPdf>();
  for await (const [path, pdf] of printPages(await connect(), site, pages, paper)) files.set(pdfName(path), readPdf(Buffer.from(pdf)));
  return files;
};
/** Every field, every summary and one page of each kind that is printed: the pages that differ. */
const telling = (): string[] => {
  const all = printedPages(filesBelow(inject("site")));
  return all.filter((path) => onePageOfEachKind.includes(path) || /^fields\/[^/]+(\/summary)?\.html$/.test(path));
};
/** The demo farm's telling pages as they print of themselves, on Letter. */
let demo: Map<string, ReadPdf>;
beforeAll(async () => {
  demo = await printed("Letter", telling());
}, 120_000);

describe("the printed demo farm", () => {
  it("is one file a page: the farm, each field, its timeline and advice, and no page about guidelines or samplings", () => {
    const names = printedPages(filesBelow(inject("site"))).map(pdfName);
    for (const name of ["index.pdf", "fields_causeway.pdf", "fields_causeway_timeline.pdf", "fields_causeway_recommendations_2020-11-05.pdf", "fields_saltings.pdf"]) expect(names).toContain(name);
    expect(names.filter((name) => /guideline|sampling|check|method|reference/.test(name))).toEqual([]);
    expect(demo.size).toBeGreaterThan(15);
  });

  it("tells a field on eight sheets at most", () => {
    const fields = [...demo].filter(([name]) => /^fields_[^_]+\.pdf$/.test(name));
    expect(fields).toHaveLength(4);
    for (const [name, { sheets: printed }] of fields) expect(printed.length, name).toBeLessThanOrEqual(8);
  });

  it("leads into no folder of the computer it was printed on, and its bookmarks keep their blanks", () => {
    for (const [name, pdf] of demo) expect(pdf.everything, name).not.toContain("file:");
    expect(demo.get("index.pdf")!.strings).toContain("What needs doing");
    expect(demo.get("fields_causeway.pdf")!.strings).toEqual(expect.arrayContaining(["A\u00a0Knoll", "Samplings, crops and applications"]));
  });

  it("names the test again where a table goes on to the next sheet", () => {
    const sheets = demo.get("fields_causeway.pdf")!.runs.map((runs) => runs.join("").replace(/\s+/g, ""));
    expect(sheets.filter((sheet) => sheet.includes("SoilpHSampledZone"))).toHaveLength(2);
  });

  it("tells advice as issued on eight sheets at most, and names on them what stays on the page", () => {
    const { sheets: advice, text } = demo.get("fields_causeway_recommendations_2020-11-05.pdf")!;
    expect(advice.length).toBeLessThanOrEqual(8);
    for (const words of ["Not on paper, but on the page", "by Tri-State 2020", "Prices of that day", "Seal"]) expect(text).toContain(words.replace(/\s+/g, ""));
  });

  it("is tagged, has an outline of its headings, and lies on Letter, as a farm in acres prints", () => {
    for (const [name, pdf] of demo) {
      expect(pdf.tagged, name).toBe(true);
      expect(pdf.outline, name).toBeGreaterThan(1);
      expect(pdf.sheets.length, name).toBeGreaterThan(0);
      expectSheet(pdf, "Letter", name);
    }
  });

  it.each([
    ["fields_causeway.pdf", "fields/causeway.html"],
    ["fields_causeway_timeline.pdf", "fields/causeway/timeline.html"],
    ["index.pdf", "index.html"],
    ["summary.pdf", "summary.html"],
    ["fields_causeway_summary.pdf", "fields/causeway/summary.html"],
  ])("%s holds every heading and every cell of its page", async (name, path) => {
    const { page } = await openPage();
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

it("the summary of the farm and of each field is one sheet of paper, on Letter and on A4", async () => {
  const pages = filesBelow(inject("site")).filter((path) => /(^|\/)summary\.html$/.test(path));
  expect(pages).toHaveLength(5);
  const a4 = await printed("A4", pages);
  for (const name of pages.map(pdfName))
    for (const pdf of [demo.get(name)!, a4.get(name)!]) {
      expect(pdf.sheets, name).toHaveLength(1);
      // Nothing was shrunk to get it there, and its last line is on it.
      expect(pdf.scale, name).toBe(1);
      expect(pdf.text, name).toContain("noappraisaloftheland");
      expect(pdf.text, name).toMatch(/SHA-256[0-9a-f]{64}/);
    }
});

// A grid of facts within the grid of a row once drove all below the title to the next sheet.
it("a sampling event begins below its own title, and takes two sheets", async () => {
  const [pdf] = (await printed("Letter", ["fields/causeway/samplings/2025-10-18.html"])).values();
  expect(pdf!.sheets).toHaveLength(2);
});

// Each sheet is taken to the field, or given away, alone.
it("a spreader sheet is a sheet a product, and says whose it is and what to beware of; a sampling plan is five sheets, each with its name", () => {
  const sheets = demo.get("spreader-sheets.pdf")!.runs.map((runs) => runs.join("").replace(/\s+/g, ""));
  expect(sheets).toHaveLength(3);
  for (const sheet of sheets) for (const words of ["SkerryFarm.Season2026", "Asof28October2025", "Localcodes", "Spreadby"]) expect(sheet).toContain(words);
  expect(sheets.map((sheet) => sheet.includes("weargoggles"))).toEqual([true, false, false]);
  const plan = demo.get("fields_netloft_plan.pdf")!.runs.map((runs) => runs.join("").replace(/\s+/g, ""));
  expect(plan).toHaveLength(5);
  for (const sheet of plan.slice(1)) expect(sheet).toContain("SkerryFarm,Netloft:samplingplanfor28October2025");
  expect(plan[1]).toMatch(/Mapsheet.*Corepositions/);
});

it("a farm in acres prints on Letter, one in hectares on A4", () => expect((["us", "garden", "metric"] as const).map((units) => paperOf({ units }))).toEqual(["Letter", "Letter", "A4"]));

it("npm run pdf writes a file for each of these pages", () => {
  const out = mkdtempSync(join(tmpdir(), "field-history-pdf-test-"));
  try {
    const { status, stdout } = ranApart("pdf", ["--content", join(installation, "tests", "golden", "farm"), "--out", out, "--paper", "a4"]);
    expect(status).toBe(0);
    const written = readdirSync(out).sort();
    expect(stdout).toContain(`${written.length} pages of the site printed on A4 paper`);
    expect(written).toEqual(expect.arrayContaining(["fields_croft.pdf", "index.pdf", "season.pdf"]));
    for (const name of written) expectSheet(readPdf(readFileSync(join(out, name))), "A4", name);
  } finally {
    rmSync(out, { recursive: true, force: true });
  }
}, 120_000);

/** The width between the style sheet's margins of 15 mm, in dots of the screen. */
const widths = { A4: Math.floor(((210 - 30) / 25.4) * 96), Letter: Math.floor((8.5 - 30 / 25.4) * 96) };

// On A4, the narrower, one page of each kind, since a reader prints what he likes from his browser.
it.each(["A4", "Letter"] as const)("on %s nothing is cut at its side, shrunk to fit or too small to read, and nothing asks to be clicked", async (paper) => {
  const { page } = await openPage({ javaScriptEnabled: false });
  await page.emulateMedia({ media: "print" });
  await page.setViewportSize({ width: widths[paper], height: 900 });
  for (const path of paper === "Letter" ? telling() : onePageOfEachKind) {
    await page.goto(fileAddress(path));
    // Printed here as a browser prints of itself: without what screen readers need, which takes longer than the drawing and is asked of the sheets on Letter.
    const { scale, text } = paper === "Letter" ? demo.get(pdfName(path))! : readPdf(await page.pdf({ format: paper }));
    expect(scale, path).toBeCloseTo(1, 3);
    expect(text, path).not.toMatch(/Download|Choose(one|what)|lead(s)?to(the|its)|Openaline|Typethe|below opens/);
    const flaws = await page.evaluate((right) => {
      const cut = [...document.querySelectorAll("table, figure, svg:not(.outline)")].filter((e) => e.checkVisibility() && e.getBoundingClientRect().right > right + 1).map((e) => `${e.tagName} in ${e.closest("section")?.id ?? "?"}: ${e.getBoundingClientRect().right} of ${right}`);
      const words = [...document.querySelectorAll<HTMLElement>("body *")].filter((e) => e.checkVisibility() && !e.matches("code, code *, .zl, use") && [...e.childNodes].some((n) => n.nodeType === Node.TEXT_NODE && n.textContent!.trim() !== "" && e.getClientRects().length > 0));
      const small = words.flatMap((e) => {
        const drawn = e.closest("svg")?.getScreenCTM()?.a ?? 1;
        const points = Number.parseFloat(getComputedStyle(e).fontSize) * 0.75 * drawn;
        return points < (drawn === 1 ? 7.3 : 5.8) ? [`${points.toFixed(1)} pt: ${e.textContent.slice(0, 30)}`] : [];
      });
      return [...cut, ...new Set(small)];
    }, widths[paper]);
    expect(flaws, path).toEqual([]);
  }
}, 120_000);
