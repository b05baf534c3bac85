import { gzipSync } from "node:zlib";
import { describe, expect, it } from "vitest";
import { fold } from "../../src/client/fold.ts";
import { prepare, search } from "../../src/client/search.ts";
import { readFarm } from "../../src/records/reading/readFarm.ts";
import { fieldThings, mostFieldsInFull, searchIndex } from "../../src/views/search/searchIndex.ts";
import { allPaths } from "../../src/views/site/routes.ts";
import { library } from "../support/gardenFarm.ts";
import { manyFields } from "../support/manyFields.ts";
import { paths } from "../../src/views/paths.ts";

const demo = readFarm({ content: library, library }).farm!;
const index = searchIndex(demo);
const words = prepare(index);
const found = (query: string): Record<string, string[]> => Object.fromEntries(search(index, words, query).map((g) => [g.title, g.hits.map((h) => h.text)]));

describe("words", () => {
  it.each([
    ["Ängen, NORTH", ["angen", "north"]],
    ["Potash (K₂O)", ["potash", "k2o"]],
    ["2025-10-18", ["2025", "10", "18"]],
    ["Großfeld, Øster Æng, Łąka", ["grossfeld", "oster", "aeng", "laka"]],
    ["  ", []],
  ])("of %s", (text, folded) => expect(fold(text)).toEqual(folded));
});

describe("the search of the demo farm", () => {
  it("finds a field by the beginning of its name, without regard to case and accents", () => {
    expect(found("caus")).toEqual({ Fields: ["Causeway"] });
    expect(found("causeway maps")).toEqual({ "Pages of a field": ["Causeway, maps year by year"] });
    expect(found("CÁUSEWAY")).toEqual({ Fields: ["Causeway"] });
  });

  it("finds a field by its crop and its tenure", () => {
    expect(found("alfalfa rented")["Fields"]).toEqual(["Saltings"]);
  });

  it("finds a zone, a year and a sampling with its field, in any order of words", () => {
    expect(found("outwash")["Zones"]).toEqual(["Causeway, Outwash"]);
    expect(found("2019 ropewalk")).toEqual({ "Years of a field": ["Ropewalk, 2019"] });
    expect(found("causeway 18 october 2025")["Samplings"]).toEqual(["Causeway, routine sampling, 18 October 2025, report F25-10418"]);
    // By the number on the laboratory's paper every field that the report is of.
    expect(found("f25-10418")["Samplings"]).toEqual(["Causeway, routine sampling, 18 October 2025, report F25-10418", "Saltings, routine sampling, 18 October 2025, report F25-10418"]);
    expect(found("2025-10-18")["Samplings"]).toHaveLength(2);
  });

  it("finds a test by its name and its sign, and the word that explains it", () => {
    expect(found("potassium netloft")).toEqual({ "Results of a field": ["Netloft, Potassium (K)"] });
    expect(found("potassium")["Results of a field"]).toHaveLength(4);
    expect(found("potassium")["Words explained"]).toContain("Potash and potassium");
    expect(found("cec")["Words explained"]).toEqual(["Cation exchange capacity"]);
  });

  it("finds advice, guidelines, laboratories and pages", () => {
    expect(found("issued causeway")["Advice as issued"]!.length).toBeGreaterThan(0);
    expect(found("tri-state")["Guidelines"]!.length).toBeGreaterThan(0);
    expect(found("fulmar")["Laboratories"]).toEqual(["Fulmar Soil Laboratory"]);
    expect(found("calendar")).toEqual({ Pages: ["Sampling calendar"] });
  });

  it("leads to every page that a field has beside its own", () => {
    const own = [...allPaths(demo).keys()].filter((path) => /^fields\/[^/]+\/[^/]+\.html$/.test(path) && !/-\d\.html$/.test(path));
    const found = new Set(
      ["timeline", "trends", "maps", "balance", "compared", "landlord", "plan"].flatMap((word) => search(index, words, word).flatMap((g) => (g.title === "Pages of a field" ? g.hits.map((h) => h.href) : []))),
    );
    expect(own.length).toBeGreaterThan(24);
    expect(own.filter((path) => !found.has(path))).toEqual([]);
    expect([...found].filter((path) => !own.includes(path))).toEqual([]);
  });

  it("leads to every page that is no field's own", () => {
    const own = [...allPaths(demo).keys()].filter((path) => /^[^/]+\.html$/.test(path) && path !== paths.search);
    const led = new Set(index.pages.map(([, , href]) => href.split("#")[0]!));
    expect(own.length).toBeGreaterThan(12);
    expect(own.filter((path) => !led.has(path))).toEqual([]);
    expect(found("summary landlord")["Pages"]).toEqual(["Summary for a landlord or a lender"]);
    expect(found("glossary")["Pages"]).toEqual(["Words explained"]);
  });

  it("finds nothing for nothing, and nothing for a word that is not there", () => {
    expect(found(" ")).toEqual({});
    expect(found("causeway xyzzy")).toEqual({});
  });

  it("shows the first twenty of many, and counts the rest", () => {
    const big = { ...index, ...fieldThings(manyFields(demo, 90)) };
    const [fields] = search(big, prepare(big), "field");
    expect(fields).toMatchObject({ title: "Fields", total: 90 });
    expect(fields!.hits.slice(0, 3).map((h) => h.text)).toEqual(["Field 1", "Field 2", "Field 3"]);
    expect(fields!.hits).toHaveLength(20);
  });

  it("writes addresses so that a strange id stays one", () => {
    const odd = { ...index, fields: [["a b#c", "Odd", "", []] as const] };
    expect(search(odd, prepare(odd), "odd")[0]!.hits).toEqual([{ text: "Odd", href: "fields/a%20b%23c.html" }]);
  });
});

describe("the weight of the index, compressed", () => {
  const weigh = (fields: number): number => gzipSync(JSON.stringify({ ...index, ...fieldThings(manyFields(demo, fields)) })).length;
  // The style guide's budget for scripts is 60 kB a page; the script that searches takes 3 of them.
  it.each([mostFieldsInFull, 2000])("of %d fields is within the budget", (fields) => expect(weigh(fields)).toBeLessThan(57_000));

  it("leaves single samplings and tests out above so many fields, and keeps fields, their pages, zones and years", () => {
    const { things } = fieldThings(manyFields(demo, mostFieldsInFull + 1));
    const kept = new Set(things.map(([kind]) => index.kinds[kind]![0]));
    expect(kept).toEqual(new Set(["Pages of a field", "Zones", "Years of a field", "Advice as issued"]));
  });
});
