import { spawnSync } from "node:child_process";
import { readFileSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { connect, fileAddress, openPage } from "./open.ts";

let browser: Browser;
beforeAll(async () => {
  browser = await connect();
});
afterAll(() => browser.close());

const plan = "fields/netloft/plan.html";
const labels = ["NE-A-2510-1", "NE-B-2510-1"];

/** The text of each page of a PDF by pdftotext; `undefined` on a machine that has none. */
const pagesOf = (pdf: Buffer): string[] | undefined => {
  const folder = mkdtempSync(join(tmpdir(), "field-history-pdf-"));
  try {
    writeFileSync(join(folder, "plan.pdf"), pdf);
    const { status, stdout } = spawnSync("pdftotext", ["-layout", join(folder, "plan.pdf"), "-"], { encoding: "utf8" });
    return status === 0 ? stdout.split("\f").slice(0, -1) : undefined;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};

/** The text of each sheet as it is laid out for print; the way to look where there is no pdftotext. */
const sheetsOf = (page: Page): Promise<string[]> => page.locator(".printsheet").allInnerTexts();

describe("the sampling plan", () => {
  it("is reached from its field, and says what to do", async () => {
    const { page, trouble } = await openPage(browser, { javaScriptEnabled: false });
    await page.goto(fileAddress("fields/netloft.html"));
    await page.locator("a", { hasText: /^Sampling plan for Netloft/ }).click();
    expect(await page.locator(".lede").innerText()).toBe("Take 15 cores from each of two zones, 0 to 8 in deep, into a bag each.");
    expect(await page.locator("#before").innerText()).toContain("Have buried lines located");
    expect(await page.locator("#bags tbody").first().innerText()).toContain("largest area of one composite: 25 acres");
    expect(await page.locator("svg.plan .core").count()).toBe(30);
    expect(await page.locator("#positions tbody tr").count()).toBe(30);
    expect(trouble).toEqual([]);
  });

  it("a field that is not due has none", async () => {
    const { page } = await openPage(browser);
    await page.goto(fileAddress("fields/causeway.html"));
    expect(await page.locator("a", { hasText: "Sampling plan" }).count()).toBe(0);
  });

  it("the label is the same on the bag, in the list for the laboratory and in the CSV", async () => {
    const { page } = await openPage(browser);
    await page.goto(fileAddress(plan));
    expect(await page.locator(".labelcut .id").allInnerTexts()).toEqual(labels);
    expect(await page.locator("#submission tbody th").allInnerTexts()).toEqual(labels);
    const csv = readFileSync(join(inject("site"), "data", "netloft-plan-labels.csv"), "utf8").split("\r\n");
    expect(csv.slice(1, -1).map((line) => line.split(",")[0])).toEqual(labels);
  });

  it.each(["A4", "Letter"])("prints map, labels, checklist and list on a page of %s each", async (format) => {
    const { page } = await openPage(browser);
    await page.goto(fileAddress(plan));
    await page.emulateMedia({ media: "print" });
    const printed = pagesOf(await page.pdf({ format }));
    const sheets = printed ?? (await sheetsOf(page));
    const holding = (text: string): number[] => sheets.flatMap((s, i) => (s.replace(/\s+/g, " ").includes(text) ? [i] : []));
    const heads = ["Map sheet", "Bag labels", "Checklist", "Goes with the bags."].map((h) => holding(h).at(-1)!);
    expect(heads[0]).toBeGreaterThanOrEqual(0);
    expect(heads).toEqual(heads.map((_, i) => heads[0]! + i));
    for (const label of labels) expect(holding(label)).toEqual(expect.arrayContaining([heads[0], heads[1], heads[3]]));
    // Every sheet, once parted from the others, still says whose it is.
    expect(heads.every((i) => sheets[i]!.includes("Skerry Farm, Netloft: sampling plan for"))).toBe(true);
    for (const core of ["A1", "A15", "B1", "B15"]) expect(sheets[heads[0]!]).toMatch(new RegExp(`\\b${core}\\b`));
  });

  it("is legible in gray: every core is black on white, with its name in it", async () => {
    const { page } = await openPage(browser, { colorScheme: "dark" });
    await page.goto(fileAddress(plan));
    await page.emulateMedia({ media: "print", colorScheme: "light" });
    const [fill, text] = await page.evaluate(() => [".core", ".plan .c"].map((s) => getComputedStyle(document.querySelector(s)!).fill));
    expect([fill, text]).toEqual(["rgb(255, 255, 255)", "rgb(31, 29, 24)"]);
  });
});
