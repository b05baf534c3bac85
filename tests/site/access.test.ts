import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { Page } from "playwright-core";
import { beforeAll, describe, expect, it } from "vitest";
import { eachLookOnce } from "../support/eachLookOnce.ts";
import { smallTargets } from "../support/smallTargets.ts";
import { unseenFocus } from "../support/unseenFocus.ts";
import { fileAddress, openPage } from "./open.ts";
import { onePageOfEachKind } from "./pages.ts";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

// Every page of the tab begins with it: read anew for each, it takes as long to read as most pages to check.
beforeAll(async () => (await openPage()).page.addInitScript({ content: axe }));

const contrast = { type: "rule", values: ["color-contrast"] };

// A page is opened once for all that is asked of it: opening it takes as long as most of the questions.
describe.each(onePageOfEachKind)("%s", (path) => {
  const phone = { width: 390, height: 844 };
  let page: Page;
  beforeAll(async () => {
    ({ page } = await openPage());
    await page.setViewportSize(phone);
    await page.goto(fileAddress(path));
  });

  it("does not scroll sideways at 390, 320 and 1280 px", async () => {
    for (const width of [390, 320, 1280]) {
      await page.setViewportSize({ ...phone, width });
      expect(await page.evaluate(() => document.documentElement.scrollWidth), `${width} px`).toBeLessThanOrEqual(width);
    }
  });

  it("has, on a phone, targets of 24 by 24 px or with room around them, folded and unfolded, and shows the focus on each", async () => {
    await page.setViewportSize(phone);
    await page.keyboard.press("Tab");
    expect(await page.evaluate(smallTargets)).toEqual([]);
    await page.evaluate(() => document.querySelectorAll("details").forEach((d) => (d.open = true)));
    expect(await page.evaluate(smallTargets)).toEqual([]);
    expect(await page.evaluate(unseenFocus)).toEqual([]);
  });

  it("has no accessibility finding unfolded, in light and dark", async () => {
    await page.setViewportSize({ ...phone, width: 1280 });
    await page.evaluate(() => {
      (document.activeElement as HTMLElement).blur();
      document.querySelectorAll("details").forEach((d) => (d.open = true));
    });
    for (const colorScheme of ["light", "dark"] as const) {
      await page.emulateMedia({ colorScheme });
      // The dark page is the light one in other colors: of it only the contrast can differ.
      const rules = colorScheme === "light" ? ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] : contrast;
      expect(await page.evaluate(eachLookOnce, rules), colorScheme).toEqual([]);
    }
  });
});

it("the search for poor contrast finds each that axe finds: one cell among many, on a ground of its own, faded, placed over another, and typed into", async () => {
  const { page } = await openPage();
  const cells = '<td style="color:#000">Well seen</td>'.repeat(20);
  const poor = [
    '<td style="color:#aaa">Too pale</td>',
    '<td style="color:#000;background:#333">Black on dark</td>',
    '<td style="opacity:.2;color:#000">Faded</td>',
    '<td style="color:#000">Well seen <b style="font-weight:400;color:#bbb">but for this</b></td>',
    '<td><div style="background:#222;width:9em;height:3em"></div><span style="position:relative;color:#000"><i style="position:absolute;top:-2em;left:0;white-space:nowrap">Placed over it</i></span></td>',
    '<td><input aria-label="Typed" value="Typed" style="color:#bbb;background:#fff"></td>',
  ];
  await page.setContent(`<body style="background:#fff"><table><tbody>${["", ...poor].map((cell) => `<tr>${cells}${cell}</tr>`).join("")}</tbody></table></body>`);
  await page.evaluate(axe);
  const all = await page.evaluate(async (runOnly) => {
    const { axe: run } = window as unknown as { axe: { run: (where: Document, options: object) => Promise<{ violations: { nodes: unknown[] }[] }> } };
    return (await run.run(document, { runOnly })).violations.flatMap((f) => f.nodes);
  }, contrast);
  expect(all).toHaveLength(poor.length);
  for (const [i, cell] of poor.entries()) {
    await page.setContent(`<body style="background:#fff"><table><tbody><tr>${cells}</tr><tr>${cells}${cell}</tr></tbody></table></body>`);
    await page.evaluate(axe);
    expect(await page.evaluate(eachLookOnce, contrast), poor[i]).toHaveLength(1);
  }
});

describe("with the script off", () => {
  it("the figures, the tables and the switch of maps are there", async () => {
    const { page, trouble } = await openPage({ javaScriptEnabled: false });
    await page.goto(fileAddress("fields/causeway.html"));
    expect(await page.locator(".plot svg").count()).toBe(9);
    expect(await page.locator(".plot svg").first().isVisible()).toBe(true);
    expect(await page.locator(".plot svg text.v").count()).toBeGreaterThan(30);
    const table = page.locator("figure table").first();
    await page.locator("figure details summary", { hasText: "in figures" }).first().click();
    expect(await table.isVisible()).toBe(true);
    expect(await table.locator("tbody tr").count()).toBeGreaterThan(10);
    await page.locator("label", { hasText: "Potassium" }).click();
    expect(await page.locator(".mapset.m-k svg").isVisible()).toBe(true);
    expect(await page.locator(".mapset.m-ph svg").isVisible()).toBe(false);
    expect(trouble).toEqual([]);
  });
});

it("prints the drawn figures of pH and potassium with their tables, every map, and every rate with its source, and says what it leaves out", async () => {
  const { page } = await openPage();
  await page.goto(fileAddress("fields/causeway.html"));
  await page.locator(".plot canvas").first().waitFor();
  await page.emulateMedia({ media: "print" });
  expect(await page.locator(".plot svg").first().isVisible()).toBe(true);
  expect(await page.locator(".plot .live").first().isVisible()).toBe(false);
  expect(await page.locator("#trend-k table").isVisible()).toBe(true);
  expect(await page.locator("#trend-p").isVisible()).toBe(false);
  expect(await page.locator(".mapset svg:visible").count()).toBe(3);
  expect(await page.locator("#outwash-k2o summary").innerText()).toMatch(/Potash.*lb\/ac.*by Tri-State 2020, .*not yet checked against the publication/s);
  expect(await page.locator("#outwash-k2o .sum").isVisible()).toBe(false);
  expect(await page.locator("#citations .paper").innerText()).toContain("Not on paper, but on the page fields/causeway.html: the working of every rate");
});
