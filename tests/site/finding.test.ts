import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { describe, expect, inject, it } from "vitest";
import type { SearchIndex } from "../../src/views/search/searchIndex.ts";
import { fileAddress, openPage } from "./open.ts";

const names = (page: Page): Promise<string[]> => page.locator("table.fieldlist tr[data-keys]:visible th").allInnerTexts();

describe("the list of fields, opened from a folder", () => {
  it("sorts by a column with the keyboard, says so, and keeps it in the address", async () => {
    const { page, trouble } = await openPage();
    await page.goto(fileAddress("fields.html"));
    expect(await names(page)).toEqual(["Causeway", "Netloft", "Ropewalk", "Saltings"]);
    await page.locator("thead button", { hasText: "acres" }).focus();
    await page.keyboard.press("Enter");
    expect(await names(page)).toEqual(["Netloft", "Saltings", "Ropewalk", "Causeway"]);
    expect(await page.locator("th[aria-sort=ascending]").innerText()).toContain("acres");
    await page.keyboard.press("Enter");
    expect(await names(page)).toEqual(["Causeway", "Ropewalk", "Saltings", "Netloft"]);
    expect(await page.locator("[role=status]").innerText()).toBe("4 fields, sorted by acres, last to first.");
    expect(new URL(page.url()).hash).toBe("#sort=2&way=down");
    await page.reload();
    expect(await names(page)).toEqual(["Causeway", "Ropewalk", "Saltings", "Netloft"]);
    expect(trouble).toEqual([]);
  });

  it("shows only the lines that hold what is typed, and all of them again", async () => {
    const { page } = await openPage();
    await page.goto(fileAddress("fields-by-need.html"));
    await page.locator("#find").pressSequentially("potass low");
    expect(await names(page)).toEqual(["Causeway", "Saltings"]);
    expect(await page.locator("tr.head:visible").allInnerTexts()).toEqual(["Lime due", "Potassium low"]);
    expect(await page.locator("[role=status]").innerText()).toBe("2 of 4 fields.");
    expect(new URL(page.url()).hash).toBe("#find=potass+low");
    // On paper, where the box is not, the table says that it does not hold all lines.
    const caption = page.locator("table.fieldlist caption");
    expect(await caption.innerText()).not.toContain("Only lines");
    await page.emulateMedia({ media: "print" });
    expect(await caption.innerText()).toContain("Only lines with “potass low”: 2 of 4 fields.");
    await page.emulateMedia({ media: null });
    await page.locator("nav.jumps a", { hasText: "Lime due" }).click();
    await page.evaluate(() => new Promise(requestAnimationFrame));
    expect(await names(page)).toEqual(["Causeway", "Saltings"]);
    // A link to a heading of which no line is shown shows all lines again.
    await page.locator("nav.jumps a", { hasText: "A question open" }).click();
    expect(await page.locator("tr.head", { hasText: "A question open" }).isVisible()).toBe(true);
    expect(await page.locator("#find").inputValue()).toBe("");
    await page.locator("#find").pressSequentially("potass low");
    await page.locator("button", { hasText: "Show all" }).click();
    await expect.poll(() => names(page)).toHaveLength(4);
    expect(new URL(page.url()).hash).toBe("");
  });

  it("without a script leads by links to every order, and to a heading", async () => {
    const { page, trouble } = await openPage({ javaScriptEnabled: false });
    await page.goto(fileAddress("fields.html"));
    expect(await page.locator("form").isVisible()).toBe(false);
    await page.locator("nav.orders a", { hasText: "By tenure" }).click();
    expect(await page.locator("h1").innerText()).toBe("Fields by tenure");
    await page.locator("nav.jumps a", { hasText: "Rented" }).click();
    expect(new URL(page.url()).hash).toBe("#rented");
    expect(await page.locator("tr.head").allInnerTexts()).toEqual(["Owned", "Rented"]);
    await page.locator("table a", { hasText: "Saltings" }).click();
    expect(await page.locator("h1").innerText()).toBe("Saltings");
    expect(trouble).toEqual([]);
  });
});

describe("the search, opened from a folder", () => {
  it("is typed into, walked through by the arrow keys and followed with Enter", async () => {
    const { page, trouble } = await openPage();
    await page.goto(fileAddress("fields/causeway.html"));
    await page.locator("nav a", { hasText: "Search" }).click();
    await page.locator("#query").pressSequentially("outw");
    expect(await page.locator("[role=status]").innerText()).toBe("1 result.");
    await page.keyboard.press("ArrowDown");
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe("Causeway, Outwash");
    await page.keyboard.press("ArrowUp");
    expect(await page.evaluate(() => document.activeElement?.id)).toBe("query");
    await page.keyboard.press("Enter");
    await page.keyboard.press("Enter");
    await page.waitForURL(/causeway\.html#zones$/);
    await page.goBack();
    await expect.poll(() => page.locator("#query").inputValue()).toBe("outw");
    expect(await page.locator("[data-results] a").allInnerTexts()).toEqual(["Causeway, Outwash"]);
    // The link that skips to the content leaves alone what was typed, and the way back brings it again.
    await page.locator(".skip").press("Enter");
    await page.waitForURL(/#content$/);
    await page.evaluate(() => new Promise(requestAnimationFrame));
    expect(await page.locator("[data-results] a").allInnerTexts()).toEqual(["Causeway, Outwash"]);
    expect(trouble).toEqual([]);
  });

  it("says when nothing is found, and is walked down one result at a time", async () => {
    const { page } = await openPage();
    await page.goto(`${fileAddress("search.html")}#find=xyzzy`);
    expect(await page.locator("[role=status]").innerText()).toBe("Nothing found. Fewer or shorter words find more.");
    await page.locator("#query").fill("causeway 2025");
    const links = await page.locator("[data-results] a").allInnerTexts();
    expect(links.length).toBeGreaterThan(2);
    for (const at of [links[0], links[1]]) {
      await page.keyboard.press("ArrowDown");
      expect(await page.evaluate(() => document.activeElement?.textContent)).toBe(at);
    }
  });

  it("without a script lists fields, years and tests as links", async () => {
    const { page, trouble } = await openPage({ javaScriptEnabled: false });
    await page.goto(fileAddress("search.html"));
    expect(await page.locator("form").isVisible()).toBe(false);
    expect(await page.locator("#tests dt").allInnerTexts()).toContain("Potassium");
    await page.locator("#years dl > div", { hasText: "2019" }).locator("a", { hasText: "Causeway" }).click();
    expect(new URL(page.url()).hash).toBe("#y2019");
    expect(trouble).toEqual([]);
  });
});

it("every address of the search's index is a page of the site with that anchor", () => {
  const read = (path: string): string => readFileSync(join(inject("site"), path), "utf8");
  const index = JSON.parse(read("assets/search-index.js").replace(/^window\.fieldSearch=/, "").replace(/;\s*$/, "")) as SearchIndex;
  const targets = [
    ...index.pages.map(([, , href]) => href),
    ...index.fields.flatMap(([id, , , things]) => [0, ...things.map((t) => index.things[t]![0])].map((kind, i) => index.kinds[kind]![1].replace("{field}", id).replace("{key}", i === 0 ? "" : index.things[things[i - 1]!]![2]))),
  ];
  expect(targets.length).toBeGreaterThan(150);
  const wrong = targets.filter((target) => {
    const [path = "", anchor] = decodeURIComponent(target).split("#");
    return !existsSync(join(inject("site"), path)) || (anchor !== undefined && !read(path).includes(`id="${anchor}"`));
  });
  expect(wrong).toEqual([]);
});
