import { expect, it } from "vitest";
import { fileAddress, openPage } from "./open.ts";

it("the timeline shows one kind alone without a script, and everything in print", async () => {
  const { page, trouble } = await openPage({ javaScriptEnabled: false });
  await page.goto(fileAddress("fields/causeway/timeline.html"));
  const shown = (): Promise<number> => page.locator(".events li:visible").count();
  const all = await shown();
  expect(all).toBeGreaterThan(40);
  await page.locator("label[for=only-lime]").click();
  expect(await shown()).toBe(1);
  expect(await page.locator(".year:visible h3").allInnerTexts()).toEqual(["2019"]);
  await page.locator("label[for=only-correction]").click();
  expect(await page.locator(".events li:visible del").innerText()).toBe("212");
  await page.emulateMedia({ media: "print" });
  expect(await shown()).toBe(all);
  expect(trouble).toEqual([]);
});

it("a year's link leads to the year, and an entry to its sampling", async () => {
  const { page } = await openPage();
  await page.goto(fileAddress("fields/causeway/timeline.html"));
  await page.locator("nav[aria-label=Years] a", { hasText: "2019" }).click();
  expect(new URL(page.url()).hash).toBe("#y2019");
  await page.locator(".k-sampling a").first().click();
  expect(await page.locator("h1").innerText()).toContain("Routine sampling");
});
