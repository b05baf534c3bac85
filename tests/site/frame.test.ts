import { readFileSync } from "node:fs";
import { join } from "node:path";
import { HtmlValidate, StaticConfigLoader } from "html-validate";
import { beforeAll, describe, expect, inject, it } from "vitest";
import { filesBelow } from "../../scripts/checkLinks.ts";
import { fileAddress, openPage } from "./open.ts";
import { onePageOfEachKind } from "./pages.ts";

const narrow = { viewport: { width: 390, height: 800 } };
interface Shift {
  readonly at: number;
  readonly by: number;
}
/** Settled once the page that is opened has been seen. */
let seen = Promise.withResolvers<void>();
beforeAll(async () => {
  const { page } = await openPage(narrow);
  await page.addInitScript(() => {
    const shifts: Shift[] = ((window as unknown as { shifts: Shift[] }).shifts = []);
    new PerformanceObserver((entries) => entries.getEntries().forEach((e) => shifts.push({ at: e.startTime, by: (e as unknown as { value: number }).value }))).observe({ type: "layout-shift", buffered: true });
    document.addEventListener("readystatechange", () => {
      if (document.readyState !== "interactive" || location.protocol !== "file:") return;
      new Image().src = "http://held.invalid/load";
      requestAnimationFrame(() => requestAnimationFrame(() => void fetch("http://held.invalid/seen", { mode: "no-cors" })));
    });
  });
  // However quick the machine, a page's scripts and its end of loading come once it has been seen: what they move, a reader sees move.
  await page.route(/\.js$|held\.invalid/, async (route) => {
    const address = route.request().url();
    if (address.endsWith("/seen")) seen.resolve();
    await seen.promise;
    await (address.startsWith("file:") ? route.continue() : route.fulfill({ status: 204 }));
  });
});

/** Where the keyboard has come to, and whether one sees it. */
interface Reached {
  readonly stop: string | undefined;
  readonly seen: boolean;
}

const read = (path: string): string => readFileSync(join(inject("site"), path), "utf8");
/** The HTML standard, as html-validate reads it. */
const validator = new HtmlValidate(new StaticConfigLoader({ root: true, extends: ["html-validate:standard"] }));

it("no two pages share a title", () => {
  const titles = filesBelow(inject("site")).filter((path) => path.endsWith(".html")).map((path) => /<title>(.*?)<\/title>/.exec(read(path))?.[1]);
  expect(titles.filter((title, i) => title === undefined || titles.indexOf(title) !== i)).toEqual([]);
});

// HTML standard, "The id attribute": unique in its tree. The Nu HTML Checker found those of drawings too, which html-validate passes over.
it("no page holds an id twice", () => {
  const twice = filesBelow(inject("site")).filter((path) => path.endsWith(".html")).flatMap((path) => {
    const ids = [...read(path).matchAll(/ id="([^"]*)"/g)].map(([, id]) => id!);
    return ids.filter((id, i) => ids.indexOf(id) !== i).map((id) => `${path}: ${id}`);
  });
  expect(twice).toEqual([]);
});

describe.each(onePageOfEachKind)("%s", (path) => {
  it("is valid HTML", async () => {
    const { results } = await validator.validateString(read(path));
    expect(results.flatMap((r) => r.messages).map((m) => `${m.line}:${m.column} ${m.ruleId}: ${m.message}`)).toEqual([]);
  });

  it("says its language, its dates and how to cite it, and asks search engines to stay away", () => {
    const html = read(path);
    expect(html).toContain('<html lang="en">');
    expect(html).toContain('<meta name="robots" content="noindex">');
    const foot = /<footer[\s\S]*<\/footer>/.exec(html)![0];
    expect(foot).toMatch(/Last sampled <time datetime="\d{4}-\d\d-\d\d">/);
    expect(foot).toMatch(/how things stood on <time datetime="\d{4}-\d\d-\d\d">/);
    expect(foot).toContain(`, ${path}.</p>`);
    // In print, the foot of every sheet: farm, page, day and address.
    expect(html).toMatch(new RegExp(`@bottom-left\\{content:"Skerry Farm[^"]*Records to [^"]*${path.replaceAll(".", "\\.")}"`));
  });

  it("gives every drawing its size, shifts nothing while it loads, is walked through by the keyboard and shows where one stands", async () => {
    for (const [svg] of read(path).matchAll(/<svg[^>]*viewBox[^>]*>/g)) expect(svg).toMatch(/ width="[\d.]+" height="[\d.]+"/);
    const { page } = await openPage(narrow);
    seen = Promise.withResolvers();
    await page.goto(fileAddress(path));
    // And what a timer moves, a moment later.
    await page.evaluate(() => new Promise((drawn) => requestAnimationFrame(() => setTimeout(() => requestAnimationFrame(drawn), 100))));
    // The style guide's limit; web.dev calls up to 0.1 good.
    // Counted once the whole page is read: on a busy machine a long table is laid out row by row as it comes in.
    const shifted = await page.evaluate(() => {
      const [read] = performance.getEntriesByType("navigation") as PerformanceNavigationTiming[];
      return (window as unknown as { shifts: Shift[] }).shifts.filter(({ at }) => at >= read!.domInteractive).reduce((sum, { by }) => sum + by, 0);
    });
    expect(shifted).toBeLessThan(0.1);

    // Then it is walked through by the keyboard, on a wide screen.
    await page.setViewportSize({ width: 1280, height: 900 });
    const reachable = await page.evaluate(() => {
      // A group of radio buttons is one stop: the arrow keys move within it.
      const stops = [...document.querySelectorAll<HTMLElement>("a[href], button, summary, input, [tabindex='0']")].filter((e) => e.checkVisibility() && (!(e instanceof HTMLInputElement) || e.type !== "radio" || e.checked));
      stops.forEach((e, i) => (e.dataset["stop"] = String(i)));
      return stops.length;
    });
    // Every stop of a short page; of a long one the first forty, which hold each kind of them.
    const steps = Math.min(reachable, 40);
    await page.evaluate(() => {
      const stops: Reached[] = ((window as unknown as { reached: Reached[] }).reached = []);
      document.addEventListener("focusin", ({ target }) => {
        const at = target as HTMLElement;
        const { outlineStyle, outlineWidth } = getComputedStyle(at.matches("input[type=radio]") ? at.nextElementSibling! : at);
        stops.push({ stop: at.dataset["stop"], seen: outlineStyle !== "none" && parseFloat(outlineWidth) >= 2 });
      });
    });
    await Promise.all(Array.from({ length: steps }, () => page.keyboard.press("Tab")));
    const reached = await page.evaluate(() => (window as unknown as { reached: Reached[] }).reached);
    expect(reached.map((r) => r.stop)).toEqual(Array.from({ length: steps }, (_, i) => String(i)));
    expect(reached.filter((r) => !r.seen)).toEqual([]);
  });
});

it.each(onePageOfEachKind.filter((path) => /^fields\/[^/]+(\/trends)?\.html$/.test(path)))("%s fits at 320, 390 and 1280 px without its script", async (path) => {
  const { page } = await openPage({ javaScriptEnabled: false });
  await page.goto(fileAddress(path));
  for (const width of [320, 390, 1280]) {
    await page.setViewportSize({ width, height: 800 });
    expect(await page.evaluate(() => document.documentElement.scrollWidth), `${width} px`).toBeLessThanOrEqual(width);
  }
});
