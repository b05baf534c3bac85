import { expect, it } from "vitest";
import { fileAddress, openPage } from "./open.ts";

it("charts draw where the printed figure draws, and keep within the page while the window is narrowed", async () => {
  const { page } = await openPage();
  await page.goto(fileAddress("fields/causeway.html"));
  await page.locator(".plot canvas").first().waitFor();
  await page.evaluate(() => {
    const seen = Object.assign(window, { widest: 0 });
    const look = (): void => {
      seen.widest = Math.max(seen.widest, document.documentElement.scrollWidth - window.innerWidth);
      requestAnimationFrame(look);
    };
    look();
  });
  for (const width of [900, 600, 390, 320]) {
    await page.setViewportSize({ width, height: 900 });
    await page.waitForFunction(() => [...document.querySelectorAll<HTMLElement>(".live canvas")].every((c) => Math.abs(c.offsetWidth - c.closest<HTMLElement>(".plot")!.offsetWidth) <= 1));
  }
  expect(await page.evaluate(() => (window as unknown as { widest: number }).widest)).toBe(0);
  // One axis of values for both: the thousands of calcium are written alike, and nothing is cut off on the left.
  await page.goto(fileAddress("fields/causeway/trends.html"));
  const ticks = await page.evaluate(() => [...document.querySelectorAll<SVGTextElement>(".plot svg .q")].map((t) => t.getBBox().x));
  expect(Math.min(...ticks)).toBeGreaterThanOrEqual(0);
});

it.each(["index.html", "fields/causeway.html", "summary.html", "season.html", "fields.html"])("%s leaves room on a phone beside the column that stays, however long its names are", async (path) => {
  const { page } = await openPage({ viewport: { width: 390, height: 844 } });
  await page.goto(fileAddress(path));
  const shares = await page.evaluate(() => {
    document.querySelectorAll(".scroll tbody th[scope=row]").forEach((th) => th.append(" and a name that is far longer than a phone is wide"));
    return [...document.querySelectorAll<HTMLElement>(".scroll")].flatMap((box) => {
      const head = box.querySelector<HTMLElement>("tbody th[scope=row]");
      return head && box.scrollWidth > box.clientWidth ? [head.offsetWidth / box.clientWidth] : [];
    });
  });
  expect(shares.length).toBeGreaterThan(0);
  expect(Math.max(...shares)).toBeLessThan(0.5);
});

it.each(["fields/causeway.html", "fields/causeway/zones-compared.html"])("%s keeps to the page where a zone's name is one word that is wider than a phone", async (path) => {
  const { page } = await openPage();
  await page.goto(fileAddress(path));
  await page.evaluate(() => {
    document.querySelectorAll("details").forEach((d) => (d.open = true));
    const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    while (texts.nextNode()) texts.currentNode.textContent = texts.currentNode.textContent!.replaceAll("Outwash", "Lowermeadowgrasslandbesidethebrookandthemillrace");
  });
  for (const width of [320, 1280]) {
    await page.setViewportSize({ width, height: 800 });
    expect(await page.evaluate(() => document.documentElement.scrollWidth), `${width} px`).toBe(width);
  }
});

it("the labels of a plan keep to a phone's page where text is twice as large", async () => {
  const { page } = await openPage({ viewport: { width: 390, height: 844 } });
  await page.goto(fileAddress("fields/netloft/plan.html"));
  await page.evaluate(() => (document.documentElement.style.fontSize = "200%"));
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390);
});
