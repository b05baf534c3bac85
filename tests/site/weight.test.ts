import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { pathToFileURL } from "node:url";
import { gzipSync } from "node:zlib";
import { afterAll, describe, expect, inject, it } from "vitest";
import { filesBelow } from "../../scripts/checkLinks.ts";
import { installation } from "../../scripts/options.ts";
import { readFarm } from "../../src/records/reading/readFarm.ts";
import { nextSamplings } from "../../src/views/calendar/calendar.ts";
import { calendarWeights, mostOfPage, seasonZoneWeight, summaryFieldWeight } from "../../src/views/pageWeight.ts";
import { seasonParts } from "../../src/views/season/seasonParts.ts";
import { ranOn } from "../support/command.ts";
import { generateFarm } from "../support/generateFarm.ts";
import { smallTargets } from "../support/smallTargets.ts";
import { unseenFocus } from "../support/unseenFocus.ts";
import { openPage } from "./open.ts";
import { paths } from "../../src/views/paths.ts";

/** The style guide's budgets, in bytes after gzip at its default level, as web hosts send pages. */
const budgets = { html: 40 * 1024, css: 15 * 1024, js: 60 * 1024 } as const;

const weigh = (site: string): { path: string; bytes: number; over: boolean }[] =>
  filesBelow(site).flatMap((path) => {
    const budget = new Map(Object.entries(budgets)).get(path.split(".").at(-1)!);
    if (budget === undefined) return [];
    const bytes = gzipSync(readFileSync(join(site, path))).length;
    return [{ path, bytes, over: bytes > budget }];
  });

/** Many zones, sampled every year for forty years. */
const largestField = { seed: 7, fields: 1, zones: 26, samplings: 40 };
/** So many fields that the season does not fit on one page. */
const otherFields = { seed: 7, fields: 61, zones: 6, samplings: 1 };
/** A field sampled in a grid: a zone a cell, more than its own page can work the advice out for. The second of the farm. */
const gridField = { seed: 7, fields: 2, zones: 52, samplings: 2 };

const home = mkdtempSync(join(tmpdir(), "field-history-weight-"));
afterAll(() => rmSync(home, { recursive: true, force: true }));
const content = join(home, "content");
const site = join(home, "site");
/** One farm of both: the first field is the largest. */
const buildLargest = async (): Promise<string> => {
  const others = [...generateFarm(otherFields)].filter(([path]) => !path.startsWith("fields/field-0001/"));
  const grid = [...generateFarm(gridField)].filter(([path]) => path.startsWith("fields/field-0002/"));
  for (const [path, text] of [...others, ...grid, ...generateFarm(largestField)]) {
    mkdirSync(dirname(join(content, path)), { recursive: true });
    writeFileSync(join(content, path), text);
  }
  const { status, stderr } = await ranOn("build", ["--content", content, "--out", site]);
  if (status !== 0) throw new Error(stderr);
  return site;
};

describe.each([
  ["the demo farm", () => Promise.resolve(inject("site"))],
  [`${otherFields.fields} fields, one of ${largestField.zones} zones and ${largestField.samplings} samplings`, buildLargest],
])("the pages of %s", (_, built) => {
  it("keep within the budgets: 40 kB of HTML a page, one style sheet of 15 kB, one script of 60 kB on pages with a chart alone", { timeout: 300_000 }, async () => {
    const site = await built();
    const weighed = weigh(site);
    expect(weighed.length).toBeGreaterThan(40);
    expect(weighed.filter((f) => f.over)).toEqual([]);
    expect(weighed.map((f) => f.path).filter((path) => !path.endsWith(".html"))).toEqual(["assets/charts.js", "assets/lists.js", "assets/maps.js", "assets/search-index.js", "assets/site.css"]);
    for (const { path } of weighed.filter((f) => f.path.endsWith(".html"))) {
      const html = readFileSync(join(site, path), "utf8");
      expect(/<script[^>]* src="[^"]*charts\.js"/.test(html), path).toBe(html.includes('class="chart-data"'));
      expect(/<script[^>]* src="[^"]*maps\.js"/.test(html), path).toBe(/\/maps(-\d+)?\.html$/.test(path));
      // Only pages that help to find things load the other two.
      expect(/<script[^>]* src="[^"]*lists\.js"/.test(html), path).toBe(/^(search|fields(-by-[a-z-]+)?)\.html$/.test(path));
      expect(/<script[^>]* src="[^"]*search-index\.js"/.test(html), path).toBe(path === "search.html");
    }
  });
});

describe("with twice the fields", () => {
  const zipped = (path: string): number => gzipSync(readFileSync(join(site, path))).length;
  /** What a page weighs besides its lines. */
  const frame = budgets.html - mostOfPage;

  // A page that goes over several pages takes lines up to `mostOfPage` and no more: were a line heavier than it is reckoned, a page would grow too heavy.
  it("the season's pages, its sheets and the calendar keep within the budget, because no line weighs more than is reckoned for it", () => {
    const { farm } = readFarm({ content, library: join(installation, "content") });
    const parts = seasonParts(farm!);
    expect(parts.length).toBeGreaterThan(1);
    for (const { part, fields } of parts) {
      const reckoned = frame + fields.flatMap((f) => f.zones).length * seasonZoneWeight;
      expect(zipped(paths.seasonPart(part))).toBeLessThan(reckoned);
      expect(zipped(paths.spreaderSheetsPart(part))).toBeLessThan(reckoned);
    }
    const calendar = nextSamplings(farm!).length * calendarWeights.entry + farm!.fields.length * (calendarWeights.cost + calendarWeights.worth);
    // The summary of so few fields is one page, whose lines come on top of its own sentences.
    expect(zipped(paths.summary)).toBeLessThan(frame + farm!.fields.length * summaryFieldWeight);
    expect(zipped(paths.calendarPart(1))).toBeLessThan(frame + calendar);
  });

  it("every kind of page that is parted fits at 320 px, has targets large enough at 390 px, and shows the focus", async () => {
    const parts = ["season/fields-1.html", "spreader-sheets/fields-1.html", "fields.html", "fields-by-need.html", "index.html", "summary.html", "fields/field-0001.html", ...["maps", "maps-2", "trends-2", "balance-2", "timeline", "summary"].map((page) => `fields/field-0001/${page}.html`), "fields/field-0002.html", "fields/field-0002/advice.html", "fields/field-0002/maps.html", "fields/field-0002/zones-compared-2.html", filesBelow(site).find((path) => /^fields\/field-0002\/samplings\/.*\.html$/.test(path))!];
    const { page } = await openPage({ viewport: { width: 320, height: 800 } });
    for (const path of parts) {
      await page.setViewportSize({ width: 320, height: 800 });
      await page.goto(pathToFileURL(join(site, path)).href);
      expect(await page.evaluate(() => document.documentElement.scrollWidth), path).toBeLessThanOrEqual(320);
      await page.setViewportSize({ width: 390, height: 844 });
      await page.keyboard.press("Tab");
      expect(await page.evaluate(smallTargets), path).toEqual([]);
      expect(await page.evaluate(unseenFocus), path).toEqual([]);
    }
  }, 120_000);

  // The rest of such a page stays as it is, so that twice its weight is more than it can come to.
  it("no other page of the whole farm passes the budget", () => {
    const whole = filesBelow(site).filter((path) => /^[^/]+\.html$/.test(path));
    expect(whole).toContain("index.html");
    expect(whole.filter((path) => 2 * zipped(path) > budgets.html)).toEqual([]);
  });
});
