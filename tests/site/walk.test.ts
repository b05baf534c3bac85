import type { Server } from "node:http";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { fileAddress, openPage, serve } from "./open.ts";

let host: { server: Server; address: (path: string) => string };
beforeAll(async () => {
  host = await serve();
});
afterAll(() => void host.server.close());

describe.each([
  ["from a folder", (path: string) => fileAddress(path)],
  ["below a path of a web host", (path: string) => host.address(path)],
])("the site opened %s", (_, address) => {
  it("leads from home to field, sampling and guideline without an error or a failed request", async () => {
    const { page, trouble, asked } = await openPage();
    await page.goto(address("index.html"));
    expect(await page.locator("h1").innerText()).toBe("Skerry Farm");

    await page.locator("#fields a", { hasText: "Causeway" }).click();
    expect(await page.locator("h1").innerText()).toBe("Causeway");
    await page.locator(".plot canvas").first().waitFor();
    expect(await page.locator(".plot canvas").count()).toBe(9);
    expect(await blankCanvases(page)).toEqual([]);

    await page.locator("#advice a", { hasText: "From the sampling of" }).first().click();
    expect(await page.locator("h1").innerText()).toContain("Routine sampling");

    await page.locator("#more a", { hasText: "Guideline: Tri-State 2020" }).click();
    expect(await page.locator("h1").innerText()).toBe("Tri-State 2020");
    expect(await page.locator("#potash table").first().innerText()).toContain("critical level");

    await page.locator("#potash a").first().click();
    expect(new URL(page.url()).pathname).toContain("references.html");
    await page.locator("nav a", { hasText: "How these numbers were made" }).click();
    expect(await page.locator("h1").innerText()).toBe("How these numbers were made");
    expect(trouble).toEqual([]);
    const beginning = address("");
    expect(asked.filter((url) => !url.startsWith(beginning) && !url.startsWith("data:"))).toEqual([]);
  });
});

it("opens a rate to its worked steps, down to the line of the record and the publication", async () => {
  const { page } = await openPage();
  await page.goto(fileAddress("fields/causeway.html"));
  const potash = page.locator("#outwash-k2o");
  await potash.locator("summary").click();
  const text = await potash.innerText();
  expect(text).toMatch(/fields\/causeway\/samplings\/2025-\d\d-\d\d\.yaml:\d+/);
  expect(text).toContain("Critical level for CEC above 5 meq/100 g");
  expect(text).toContain("not yet checked against the publication");
  await potash.locator("a", { hasText: "Ohio State University Extension" }).first().click();
  expect(await page.locator("li:target cite").count()).toBe(1);
});

/** Indices of canvases on which nothing is drawn: every pixel the same. */
const blankCanvases = (page: Awaited<ReturnType<typeof openPage>>["page"]): Promise<number[]> =>
  page.evaluate(() =>
    [...document.querySelectorAll<HTMLCanvasElement>(".plot canvas")].flatMap((canvas, i) => {
      const { data } = canvas.getContext("2d")!.getImageData(0, 0, canvas.width, canvas.height);
      const pixels = new Uint32Array(data.buffer);
      return new Set(pixels).size > 8 ? [] : [i];
    }),
  );
