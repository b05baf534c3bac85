import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, inject, it } from "vitest";
import { readPdf } from "../support/pdfText.ts";
import { fileAddress, openPage } from "./open.ts";

const plan = "fields/netloft/plan.html";
const labels = ["NE-A-2510-1", "NE-B-2510-1"];

/** What stands in the first column of the CSV that goes with the bags. */
const inCsv = (): string[] =>
  readFileSync(join(inject("site"), "data", "netloft-plan-labels.csv"), "utf8").split("\r\n").slice(1, -1).map((line) => line.split(",")[0]!);

/** Whatever looks like a bag's label: the field's code, a zone's letter, the month, a number. */
const looksLikeLabel = /\b[A-Z0-9]+-[A-Z]-\d{4}-\d+\b/g;

describe("the sampling plan", () => {
  it("is reached from its field, and says what to do", async () => {
    const { page, trouble } = await openPage({ javaScriptEnabled: false });
    await page.goto(fileAddress("fields/netloft.html"));
    await page.locator("a", { hasText: /^Sampling plan for Netloft/ }).click();
    expect(await page.locator(".lede").innerText()).toBe("Take 15 cores from each of two zones, 0 to 8 in deep, into a bag each.");
    expect(await page.locator("#before").innerText()).toContain("Have buried lines located");
    expect(await page.locator("#bags tbody").first().innerText()).toContain("largest area of one composite, 25 acres");
    expect(await page.locator("svg.plan .core").count()).toBe(30);
    expect(await page.locator("#positions tbody tr").count()).toBe(30);
    expect(trouble).toEqual([]);
  });

  it("a field that is not due has none", async () => {
    const { page } = await openPage();
    await page.goto(fileAddress("fields/causeway.html"));
    expect(await page.locator("a", { hasText: "Sampling plan" }).count()).toBe(0);
  });

  it("the label is the same on the bag, in the list for the laboratory and in the CSV", async () => {
    const { page } = await openPage();
    await page.goto(fileAddress(plan));
    expect(await page.locator(".labelcut .id").allInnerTexts()).toEqual(labels);
    expect(await page.locator("#submission tbody th").allInnerTexts()).toEqual(labels);
    expect(inCsv()).toEqual(labels);
  });

  it.each(["A4", "Letter"])("prints map, labels, checklist and list on a page of %s each", async (format) => {
    const { page } = await openPage();
    await page.goto(fileAddress(plan));
    await page.emulateMedia({ media: "print" });
    const { runs } = readPdf(await page.pdf({ format }));
    const bare = (text: string): string => text.replace(/\s+/g, "");
    const sheets = runs.map((sheet) => bare(sheet.join("")));
    const heads = ["Map sheet", "Bag labels", "Goes with the bags.", "Checklist"].map((head) => sheets.findLastIndex((text) => text.includes(bare(head))));
    expect(heads[0]).toBeGreaterThanOrEqual(0);
    expect(heads).toEqual(heads.map((_, i) => heads[0]! + i));
    // Read off the paper: below the map and over its positions, on what is cut out and on the laboratory's list each label once, unbroken, and as the CSV has it.
    const [onMap, onBags, onList] = heads.map((i) => runs[i]!.join("\n").match(looksLikeLabel));
    expect(inCsv()).toEqual(labels);
    expect([onMap, onBags, onList]).toEqual([[...labels, ...labels], labels, labels]);
    // Every sheet, once parted from the others, still says whose it is.
    expect(heads.every((i) => sheets[i]!.includes(bare("Skerry Farm, Netloft: sampling plan for")))).toBe(true);
    const onMapSheet = runs[heads[0]!]!.map((run) => run.trim());
    for (const core of ["A1", "A15", "B1", "B15"]) expect(onMapSheet).toContain(core);
  });

  it("is legible in gray: every core is black on white, with its name in it", async () => {
    const { page } = await openPage({ colorScheme: "dark" });
    await page.goto(fileAddress(plan));
    await page.emulateMedia({ media: "print", colorScheme: "light" });
    const [fill, text] = await page.evaluate(() => [".core", ".plan .c"].map((s) => getComputedStyle(document.querySelector(s)!).fill));
    expect([fill, text]).toEqual(["rgb(255, 255, 255)", "rgb(31, 29, 24)"]);
  });
});
