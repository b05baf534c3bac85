import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { filesBelow } from "../../scripts/checkLinks.ts";
import { installation } from "../../scripts/options.ts";
import { ranOn } from "../support/command.ts";

/**
 * The fixture farm's pages as a reader sees them, one line an element. The expected texts were checked by hand:
 *   area 200 m x 100 m = 20,000 sq m = 4.942 acres;
 *   potash, test 90: (100 - 90) x 2 + 150 bu x 0.2 + 10 = 20 + 30 + 10 = 60 lb/ac;
 *   lime, buffer 6.5: halfway between 0 and 3 = 1.5, x 8/6 in = 2.0, x 100/80 = 2.5 ton/ac, x 4.942 = 12.4 tons, x $40 = $494;
 *   potash salt: 60 / 0.60 = 100 lb/ac, x $400 / 2,000 = $20 an acre; x 4.942 = 494 lb, $99;
 *   noise of K 110, 15 cores: sqrt((39 x 110 / sqrt 15)^2 + (6 x 110)^2) / 100 = sqrt(11.08^2 + 6.6^2) = 12.89, of 90: 10.55; the least
 *   change 1.96 x sqrt(12.89^2 + 10.55^2) = 32.7; of pH 5.9 and 5.6: 0.128, 0.123 and 0.35; the changes, 20 and 0.3, are within;
 *   potassium of 2017: 70 corrected to 110, between 100 and 150, so "fair";
 *   owed: (100 - 90) x 2 = 20 lb/ac of potash a year, x 4.942 = 99 lb; of the salt 33.3 lb/ac, x $400 / 2,000 x 4.942 = $33; the lime as above;
 *   the fingerprint of the records is what the command on the sheet prints in the fixture's folder.
 * They are changed by hand, never regenerated unseen: `expected/` differs from a build only where a page was meant to change.
 */
const here = join(installation, "tests", "golden");
let out: string;
beforeAll(async () => {
  out = mkdtempSync(join(tmpdir(), "field-history-golden-"));
  const { status, stderr } = await ranOn("build", ["--content", join(here, "farm"), "--out", join(out, "site")]);
  if (status !== 0) throw new Error(stderr);
}, 120_000);
afterAll(() => rmSync(out, { recursive: true, force: true }));

const asRead = (html: string): string =>
  html
    .replace(/<head>.*?<\/head>/s, "")
    .replace(/<script.*?<\/script>/gs, "")
    .replace(/<span class="grade">(.*?)<\/span>/g, "$1")
    .replace(/<(?:"[^"]*"|[^>"])*>/g, "\n")
    .split("\n")
    .map((line) => line.trim())
    .filter((line) => line !== "")
    .join("\n");

it.each(["index", "fields/croft", "fields/croft/samplings/2017-10-05", "fields/croft/timeline", "fields/croft/summary", "guidelines/test-rules", "season"])("%s reads as it was checked by hand", (page) => {
  const built = asRead(readFileSync(join(out, "site", `${page}.html`), "utf8"));
  const expected = readFileSync(join(here, "expected", `${page.replaceAll("/", "_")}.txt`), "utf8");
  expect(built).toBe(expected.trimEnd());
});

it("the CSV holds the raw value, the correction and the line of the record", () => {
  const csv = readFileSync(join(out, "site", "data", "croft-results.csv"), "utf8").split("\r\n");
  expect(csv[0]).toBe(
    "field,zone,date,purpose,analyte,qualifier,value,unit,method,finish,preparation,depth_from_in,depth_to_in,laboratory,bag,cores,series,corrected_from,correction_reason,correction_date,report,record",
  );
  expect(csv).toContain("croft,all,2017-10-05,routine,K,,110,ppm,Mehlich-3,,,0,8,lab,C-1,15,croft/all/K/1,70,misread sheet,2017-11-01,,fields/croft/samplings/2017-10-05.yaml:7");
  expect(csv).toContain("croft,all,2020-10-01,routine,pH,,5.6,pH,1:1 water,,,0,8,lab,C-1,15,croft/all/pH/1,,,,,fields/croft/samplings/2020-10-01.yaml:7");
});

it("text with HTML in it is shown as text", () => {
  const html = readFileSync(join(out, "site", "fields", "croft.html"), "utf8");
  expect(html).toContain("Croft &lt;i&gt;&amp; Co&lt;/i&gt;");
  // Within a quoted attribute a < is only a letter; anywhere else it would open an element.
  expect(html.replace(/"[^"]*"/g, '""')).not.toContain("<i>");
});

it("the whole site is these files and no others", () => {
  // Guidelines of the installation that answer in the comparison have a page too, and so has each kind of check value; which do is not this farm's affair.
  const files = filesBelow(join(out, "site")).filter((file) => !/^(guidelines|checks)\//.test(file) || file.endsWith("/test-rules.html"));
  expect(files).toEqual([
    "assets/charts.js",
    "assets/lists.js",
    "assets/maps.js",
    "assets/search-index.js",
    "assets/site.css",
    "calendar.html",
    "checks.html",
    "compare.html",
    "data/croft-results.csv",
    "data/fields.csv",
    "data/latest-results.csv",
    "data/rates/us/fertilizer-potash.csv",
    "data/rates/us/lime-lime.csv",
    "data/rates/us/nutrient-k2o.csv",
    "fields-by-crop.html",
    "fields-by-need.html",
    "fields-by-oldest-test.html",
    "fields-by-tenure.html",
    "fields.html",
    "fields/croft.html",
    "fields/croft/maps.html",
    "fields/croft/samplings/2017-10-05.html",
    "fields/croft/samplings/2020-10-01.html",
    "fields/croft/summary.html",
    "fields/croft/timeline.html",
    "fields/croft/trends.html",
    "glossary.html",
    "guidelines/test-rules.html",
    "index.html",
    "methods.html",
    "references.html",
    "search.html",
    "season.html",
    "spreader-sheets.html",
    "summary.html",
  ]);
});
