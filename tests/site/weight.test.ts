import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { gzipSync } from "node:zlib";
import { afterAll, describe, expect, inject, it } from "vitest";
import { filesBelow } from "../../scripts/checkLinks.ts";
import { installation } from "../../scripts/options.ts";
import { generateFarm } from "../support/generateFarm.ts";

/** The style guide's budgets, in bytes after gzip at its default level, as web hosts send pages. */
const budgets = { html: 40 * 1024, css: 15 * 1024, js: 60 * 1024 } as const;

const weigh = (site: string): { path: string; bytes: number; over: boolean }[] =>
  filesBelow(site).flatMap((path) => {
    const budget = new Map(Object.entries(budgets)).get(path.split(".").at(-1)!);
    if (budget === undefined) return [];
    const bytes = gzipSync(readFileSync(join(site, path))).length;
    return [{ path, bytes, over: bytes > budget }];
  });

/** As many zones as there are letters, sampled every year for forty years. */
const largestField = { seed: 7, fields: 1, zones: 26, samplings: 40 };

const home = mkdtempSync(join(tmpdir(), "field-history-weight-"));
afterAll(() => rmSync(home, { recursive: true, force: true }));
const buildLargest = (): string => {
  const content = join(home, "content");
  for (const [path, text] of generateFarm(largestField)) {
    mkdirSync(dirname(join(content, path)), { recursive: true });
    writeFileSync(join(content, path), text);
  }
  const site = join(home, "site");
  const { status, stderr } = spawnSync(process.execPath, [join(installation, "scripts", "build.ts"), "--content", content, "--out", site], { encoding: "utf8" });
  if (status !== 0) throw new Error(stderr);
  return site;
};

describe.each([
  ["the demo farm", () => inject("site")],
  [`a field of ${largestField.zones} zones and ${largestField.samplings} samplings`, buildLargest],
])("the pages of %s", (_, built) => {
  it("keep within the budgets: 40 kB of HTML a page, one style sheet of 15 kB, one script of 60 kB on pages with a chart alone", { timeout: 300_000 }, () => {
    const site = built();
    const weighed = weigh(site);
    expect(weighed.length).toBeGreaterThan(40);
    expect(weighed.filter((f) => f.over)).toEqual([]);
    expect(weighed.map((f) => f.path).filter((path) => !path.endsWith(".html"))).toEqual(["assets/charts.js", "assets/lists.js", "assets/search-index.js", "assets/site.css"]);
    for (const { path } of weighed.filter((f) => f.path.endsWith(".html"))) {
      const html = readFileSync(join(site, path), "utf8");
      expect(/<script[^>]* src="[^"]*charts\.js"/.test(html), path).toBe(html.includes('class="chart-data"'));
      // Only pages that help to find things load the other two.
      expect(/<script[^>]* src="[^"]*lists\.js"/.test(html), path).toBe(/^(search|fields(-by-[a-z-]+)?)\.html$/.test(path));
      expect(/<script[^>]* src="[^"]*search-index\.js"/.test(html), path).toBe(path === "search.html");
    }
  });
});
