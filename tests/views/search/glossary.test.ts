import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { filesBelow } from "../../../scripts/checkLinks.ts";
import { installation } from "../../../scripts/options.ts";
import { glossary, glossaryAnchor } from "../../../src/views/search/glossary.ts";

it("explains each word once, in two or three sentences at most, in the order of the alphabet", () => {
  expect(new Set(glossary.map((t) => t.id)).size).toBe(glossary.length);
  for (const { term, text } of glossary) {
    expect(text.match(/\.(?= |$)/g)!.length, term).toBeLessThanOrEqual(4);
    expect(text, term).toMatch(/^[A-Z0-9].*\.$/);
  }
  const names = glossary.map((t) => t.term);
  expect(names.slice(0, 3)).toEqual(["Ammonium acetate", "Balance of nutrients", "Band or class"]);
  expect(names.at(-1)).toBe("Zone");
});

it("explains the spring test of Europe by the names that farmers there have for it", () =>
  expect(glossary.find((t) => t.id === "mineral-nitrogen")).toMatchObject({ term: "Mineral nitrogen", also: "Nmin SMN SNS soil nitrogen supply spring" }));

// Standard atomic masses, IUPAC 2021 abridged, to four digits: P 30.97, K 39.10, O 16.00.
it("has the two factors right that follow from atomic masses", () => {
  const [P, K, O] = [30.97, 39.1, 16];
  expect(glossary.find((t) => t.id === "phosphate")!.text).toContain(`${((2 * P + 5 * O) / (2 * P)).toFixed(2)} times`);
  expect(glossary.find((t) => t.id === "potash")!.text).toContain(`${((2 * K + O) / (2 * K)).toFixed(2)} times`);
});

it("knows every word that a page sends to it", () => {
  const root = join(installation, "src");
  const ids = filesBelow(root).filter((f) => f.endsWith(".astro")).flatMap((f) => [...readFileSync(join(root, f), "utf8").matchAll(/<Term [^>]*\bid="([^"]+)"/g)].map(([, id]) => id!));
  expect(ids.length).toBeGreaterThan(8);
  for (const id of ids) expect(glossaryAnchor(id)).toBe(id);
  expect(() => glossaryAnchor("nonsense")).toThrow("the glossary has no term nonsense");
});
