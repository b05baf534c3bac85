import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { fileAddress, openPage } from "./open.ts";

const path = "fields/causeway/maps.html";
const seen = (page: Page): Promise<string[]> => page.locator(".mapyear h3:visible").allInnerTexts();

describe.each([
  ["with the script off", false],
  ["with the script on", true],
])("the maps of a field, %s", (_, javaScriptEnabled) => {
  it("switch between tests and years, by pointer and by keyboard, and keep their place", async () => {
    const { page, trouble } = await openPage({ javaScriptEnabled });
    await page.goto(fileAddress(path));
    expect(await seen(page)).toEqual(["Soil pH, 2025"]);
    const place = (): Promise<unknown> => page.locator(".mapyear .map:visible").boundingBox();
    const before = await place();
    await page.locator("label", { hasText: "Potassium" }).click();
    expect(await seen(page)).toEqual(["Potassium, ppm, 2025"]);
    await page.locator(".mapyears > label", { hasText: "2016" }).click();
    expect(await seen(page)).toEqual(["Potassium, ppm, 2016 †"]);
    expect(await place()).toEqual(before);
    await page.keyboard.press("ArrowRight");
    expect(await seen(page)).toEqual(["Potassium, ppm, 2018"]);
    await page.locator(".mapyears > label", { hasText: "All" }).click();
    expect(await page.locator(".mapyear .map:visible").count()).toBe(6);
    await page.locator("label", { hasText: "Magnesium" }).click();
    expect(await page.locator(".mapyear .map:visible").count()).toBe(6);
    expect(await page.locator(".mapyear p.mapset:visible").count()).toBe(0);
    await page.locator("label", { hasText: "Zinc" }).click();
    expect(await page.locator(".mapyear p.mapset:visible").first().innerText()).toBe("Zinc, ppm, 2014: not tested.");
    expect(trouble).toEqual([]);
  });

  it("draw each zone in the color of its class, and hatch or leave white what has none", async () => {
    const { page } = await openPage({ javaScriptEnabled, reducedMotion: "reduce" });
    await page.goto(fileAddress(path));
    await page.locator("label", { hasText: "Potassium" }).click();
    const drawn = page.locator(".mapyear .map:visible use.zone");
    expect(await drawn.count()).toBe(3);
    for (const box of await Promise.all((await drawn.all()).map((zone) => zone.boundingBox()))) expect(box!.width).toBeGreaterThan(50);
    await page.locator(".mapyears > label", { hasText: "2014" }).click();
    expect(await page.locator(".mapyear .map:visible use.c-none").count()).toBe(3);
  });
});

it("keeps what is shown in the address, so that a link shows it again", async () => {
  const { page } = await openPage();
  await page.goto(fileAddress(path));
  await page.locator("label", { hasText: "Phosphorus" }).click();
  await page.locator(".mapyears > label", { hasText: "2018" }).click();
  const address = page.url();
  expect(address).toContain("#map=p&year=2018-10-23");
  await page.goto("about:blank");
  await page.goto(address);
  expect(await seen(page)).toEqual(["Phosphorus, ppm, 2018"]);
});

it("follows a pointer that is drawn along the years, and leaves out the fade for who asked for less motion", async () => {
  const { page } = await openPage({ reducedMotion: "reduce" });
  await page.goto(fileAddress(path));
  const middle = async (year: string): Promise<[number, number]> => {
    const box = (await page.locator(".mapyears > label", { hasText: year }).boundingBox())!;
    return [box.x + box.width / 2, box.y + box.height / 2];
  };
  await page.mouse.move(...(await middle("2023")));
  await page.mouse.down();
  await page.mouse.move(...(await middle("2020")));
  expect(await seen(page)).toEqual(["Soil pH, 2020"]);
  expect(page.url()).toContain("year=2020");
  await page.mouse.up();
  expect(await page.locator(".mapyear .zone:visible").first().evaluate((zone) => getComputedStyle(zone).animationName)).toBe("none");
});

it("prints pH, potassium, phosphorus and the chosen test of every year side by side, with their legends, and no switch", async () => {
  const { page } = await openPage();
  await page.goto(fileAddress(path));
  await page.emulateMedia({ media: "print" });
  expect(await page.locator(".mapyear .map:visible").count()).toBe(18);
  expect(await page.locator(".mapyear .legend:visible").count()).toBe(18);
  await page.emulateMedia({ media: "screen" });
  await page.locator("label", { hasText: "Organic matter" }).click();
  await page.emulateMedia({ media: "print" });
  expect(await page.locator(".mapyear .map:visible").count()).toBe(24);
  expect(await page.locator(".switch label:visible").count()).toBe(0);
});

it("the field's own page leads there", async () => {
  const { page } = await openPage();
  await page.goto(fileAddress("fields/causeway.html"));
  await page.locator("#zones a", { hasText: "Maps of every test and sampling, 2014 to 2025" }).click();
  expect(await page.locator("h1").innerText()).toBe("Maps of Causeway: routine samplings, 2014 to 2025");
});

it("keeps the colors of the key where the reader's own colors are forced", async () => {
  const { page } = await openPage({ forcedColors: "active" });
  await page.goto(fileAddress("index.html"));
  const grounds = await page.evaluate(() => [...document.querySelectorAll(".legend i")].map((i) => getComputedStyle(i).backgroundColor));
  expect(new Set(grounds).size).toBe(grounds.length);
  expect(grounds).toContain("rgb(253, 184, 99)");
});

it("tells the chosen test and year by a line of its own where colors are forced", async () => {
  const { page } = await openPage({ forcedColors: "active" });
  await page.goto(fileAddress("fields/causeway/maps.html"));
  const lines = (of: string): Promise<string[]> => page.locator(`.switch ${of}`).evaluateAll((labels) => [...new Set(labels.map((l) => getComputedStyle(l).borderBottomColor))]);
  const [chosen, other] = [await lines("input:checked+label"), await lines("input:not(:checked)+label")];
  expect(chosen).toHaveLength(1);
  expect(other).toHaveLength(1);
  expect(chosen).not.toEqual(other);
});
