import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, it } from "vitest";
import { brokenLinks } from "../../scripts/checkLinks.ts";

let site: string;
beforeEach(() => {
  site = mkdtempSync(join(tmpdir(), "field-history-links-"));
  mkdirSync(join(site, "fields"));
  writeFileSync(join(site, "fields", "a b.html"), '<p id="here">x</p>');
});
afterEach(() => rmSync(site, { recursive: true, force: true }));

const page = (body: string): string[] => {
  writeFileSync(join(site, "index.html"), body);
  return brokenLinks(site);
};

it("accepts relative, encoded and anchored links, and data in the page", () => {
  expect(page('<a href="fields/a%20b.html#here">x</a><a href="#top" id="top">y</a><link href="data:image/svg+xml,x">')).toEqual([]);
});

it("reads addresses and anchors as a browser does, marks written as HTML asks included", () => {
  writeFileSync(join(site, "fields", `a&b's.html`), '<p id="say &#34;x&quot; &#38; y">x</p>');
  expect(page('<a href="fields/a&amp;b&#39;s.html#say%20&quot;x&#34;%20&amp;%20y">x</a>')).toEqual([]);
});

it.each([
  ['<a href="/fields/a%20b.html">', "absolute link, /fields/a%20b.html"],
  ['<script src="https://example.org/x.js">', "link to elsewhere, https://example.org/x.js"],
  ['<script src="//example.org/x.js">', "link to elsewhere, //example.org/x.js"],
  ['<a href="fields/">', "link to a missing file, fields/"],
  ['<a href="fields/none.html">', "link to a missing file, fields/none.html"],
  ['<a href="fields/a%20b.html#gone">', "link to a missing anchor, fields/a%20b.html#gone"],
  ['<a href="../up.html">', "link out of the site, ../up.html"],
  ['<script type="module">', "a module script does not run from a folder"],
])("finds %s", (body, problem) => {
  expect(page(body)).toEqual([`index.html: ${problem}`]);
});
