import { describe, expect, it } from "vitest";
import * as fc from "fast-check";
import { parse } from "yaml";
import { canonicalJson } from "../../src/records/sealing/canonicalJson.ts";
import { packPrint, packSince } from "../../src/records/sealing/packPrint.ts";
import { recommendationText } from "../../src/records/sealing/recommendationText.ts";
import type { RecommendationBody, RecommendationRecord } from "../../src/records/schemas/recommendation.ts";
import { brokenSeals, sealRecommendation } from "../../src/records/sealing/sealRecommendation.ts";
import { archivedFarm, advisedFarm, frozenPath, issued, issuedText, read } from "../support/archived.ts";
import { oregon, packOf, triState } from "../support/packs.ts";
import { paths, tinyFarm } from "../support/tinyFarm.ts";

const text = issuedText;
const record = parse(text) as RecommendationRecord;
const remedy = "advice as issued must not be edited: bring the file back from version control, or delete it and issue new advice";

/** What check says of the archive with one text in it replaced, after the words that lead to it. */
const after = (from: string, to: string, behind = ""): string[] => {
  const at = text.indexOf(from, text.indexOf(behind));
  if (at < 0) throw new Error(`the archive does not hold ${from}`);
  const changed = text.slice(0, at) + to + text.slice(at + from.length);
  return archivedFarm().write(frozenPath, changed).lines();
};
/** The line that the words stand on. */
const lineOf = (words: string, behind = ""): number => text.slice(0, text.indexOf(words, text.indexOf(behind))).split("\n").length;

describe("advice as issued", () => {
  it("is read without a problem, and holds what was worked out", () => {
    const whole = archivedFarm();
    expect(whole.lines()).toEqual([]);
    const { frozen } = read(whole);
    const [west, east] = frozen.record.zones;
    // (1.5 - 0.01 x 104) x 180 bu = 82.8; (1.5 - 0.01 x 138, as corrected) x 180 = 21.6.
    expect(west!.answers.find((a) => a.question === "k2o")).toMatchObject({ shown: "83 lb/ac", guideline: "full-guide", evidence: "read" });
    expect(west!.answers.find((a) => a.question === "k2o")!.figures!["value"]).toBeCloseTo(82.8, 9);
    expect(east!.answers.find((a) => a.question === "k2o")!.shown).toBe("22 lb/ac");
    // Buffer 6.7 lies a quarter of the way from 1.0 to 2.0: 1.25 tons, x 8/6 in, / 0.90: 1.85.
    expect(west!.answers.find((a) => a.question === "lime")!.figures!["value"]).toBeCloseTo(((1.25 * 8) / 6 / 90) * 100, 9);
    expect(frozen.record).toMatchObject({ for: "the landlord", issued, farm: "Tiny Farm", sampling: { id: "2025-10-18", laboratory: "North Laboratory" }, units: "us" });
    expect(frozen.record.products["potash"]!.price).toEqual({ value: 400, per: "ton" });
    expect(frozen.record.publications).toEqual({ "bulletin-1": "A bulletin. A publisher" });
  });

  it("says at its top what it is, and is one thing a line", () => {
    expect(text.startsWith(`# Advice as issued on ${issued} for North Field, Tiny Farm, from the soil sampling of 2025-10-18.\n# This file must not be edited.`)).toBe(true);
    expect(text).not.toMatch(/^\s*[^#\s"][^"]*: [{[](?![\]}])/m);
    expect(text.trimEnd().split("\n").at(-1)).toMatch(/^sha256: sha256:[0-9a-f]{64}$/);
  });

  it("keeps every number as it was computed", () => expect(canonicalJson(read(archivedFarm()).frozen.record)).toBe(canonicalJson(record)));

  it("writes out what stands twice in it, since an anchor would be refused when it is read", () => {
    const cautions = ["limeDust"];
    const body: RecommendationBody = structuredClone(record);
    delete (body as Partial<RecommendationRecord>).parts;
    delete (body as Partial<RecommendationRecord>).sha256;
    const twice = recommendationText(sealRecommendation({ ...body, zones: body.zones.map((zone) => ({ ...zone, cautions })) }));
    expect(archivedFarm().write(frozenPath, twice).lines()).toEqual([]);
  });

  it("stays readable where the program's own words have changed by then", () => {
    const body: RecommendationBody = structuredClone(record);
    delete (body as Partial<RecommendationRecord>).parts;
    delete (body as Partial<RecommendationRecord>).sha256;
    body.zones[0]!.cautions.push("aCautionOfOldTimes");
    body.zones[0]!.inputs.soil["aFactOfOldTimes"] = 7;
    expect(archivedFarm().write(frozenPath, recommendationText(sealRecommendation(body))).lines()).toEqual([]);
  });

  it("counts as a day in the records", () => expect(read(archivedFarm()).farm.today).toBe(issued));
});

describe("a change of an archive is found and named", () => {
  it.each([
    ["a rate as shown", "shown: 83 lb/ac", "shown: 38 lb/ac", "", "the potash rate of zone west", "question: k2o", "zones[1].answers[7]"],
    ["a rate as computed", "unit: lb/ac", "unit: kg/ha", "question: k2o", "the potash rate of zone west", "question: k2o", "zones[1].answers[7]"],
    ["a step", "Table 3", "Table 9", "question: k2o", "the potash rate of zone west", "question: k2o", "zones[1].answers[7]"],
    ["a mark of evidence", "evidence: read", "evidence: memory", "question: lime", "the lime rate of zone west", "question: lime", "zones[1].answers[5]"],
    ["a class", "104 ppm, enough", "104 ppm, low", "question: rating-K", "the rating of potassium of zone west", "question: rating-K", "zones[1].answers[4]"],
    ["a choice of products", "of muriate", "of murky", "question: product", "the choice of products of zone west", "question: product", "zones[1].answers[8]"],
    ["the summary", "83 lb/ac", "93 lb/ac", "inShort:", "the summary of zone west", '- "Soil pH', "zones[1].inShort"],
    ["a zone's cautions", "- limeDust", "- highPotassium", "cautions:", "the cautions of zone west", "- localCodes", "zones[1].cautions"],
    ["a zone's name", "name: West end", "name: Best end", "", "the description of zone west", "zone: west", "zones[1]"],
    ["a result", "value: 104", "value: 140", "results:", "the laboratory results of zone west", "- analyte: pH", "zones[1].inputs.results"],
    ["a soil fact", "cec: 14", "cec: 24", "soil:", "the soil facts of zone west", "texture: siltLoam", "zones[1].inputs.soil"],
    ["the crop", "value: 180", "value: 280", "crop:\n", "the crop planned of zone west", "season: 2026", "zones[1].inputs.crop"],
    ["a price", "value: 400", "value: 300", "products:\n  ground", "the price of product potash", "value: 400", "products.potash.price"],
    ["an analysis", "K2O: 60", "K2O: 50", "products:\n  ground", "the description of product potash", "kind: fertilizer", "products.potash"],
    ["the cautions in words", "not a permit", "a permit", "", "the cautions", "- These rates", "cautions"],
    ["whom it is for", "for: the landlord", "for: the lender", "", "whom it is for", "for: the landlord", "for"],
    ["a publication", "bulletin-1: A bulletin", "bulletin-1: A bulletin of old", "", "the list of publications", "bulletin-1: A bulletin", "publications"],
    ["a guideline's fingerprint", "fingerprint: sha256:", "fingerprint: sha256:0", "guidelines:", "", "", ""],
  ])("%s", (_, from, to, behind, words, stands, field) => {
    const lines = after(from, to, behind);
    if (words === "") {
      // One digit too many is no fingerprint at all.
      expect(lines.join("\n")).toMatch(/guidelines\[1\]\.fingerprint: must be sha256: and 64 hexadecimal digits/);
      return;
    }
    expect(lines).toHaveLength(1);
    expect(lines[0]).toMatch(new RegExp(`^${frozenPath}:\\d+:\\d+: `));
    expect(lines[0]).toContain(`: ${field}: ${words} was changed after it was issued; ${remedy}`);
    expect(Number(lines[0]!.split(":")[1])).toBe(lineOf(stands, behind));
  });

  it("an answer that was taken out, and one that was put in", () => {
    const without = structuredClone(record);
    without.zones[0]!.answers = without.zones[0]!.answers.filter((a) => a.question !== "k2o");
    expect(brokenSeals(without).map((b) => b.message)).toEqual(["zones.west.answers.k2o was removed, or renamed, after it was issued"]);
    const more = structuredClone(record);
    more.zones[0]!.answers.push({ ...more.zones[0]!.answers[0]!, question: "rating-more", subject: "Gold" });
    expect(brokenSeals(more).map((b) => b.message)).toEqual(["the rating of gold of zone west was added after it was issued"]);
  });

  it("the seal itself", () => {
    expect(brokenSeals({ ...record, sha256: `sha256:${"0".repeat(64)}` }).map((b) => b.message)).toEqual(["its fingerprints, or the order of its parts, were changed after it was issued"]);
  });

  it("any value at all", () => {
    const leaves: (string | number)[][] = [];
    const walk = (value: unknown, path: (string | number)[]): void => {
      if (typeof value === "object" && value !== null) for (const [key, each] of Object.entries(value)) walk(each, [...path, Array.isArray(value) ? Number(key) : key]);
      else leaves.push(path);
    };
    walk(record, []);
    expect(leaves.length).toBeGreaterThan(300);
    fc.assert(
      fc.property(fc.constantFrom(...leaves), (path) => {
        const spoiled = structuredClone(record) as unknown as Record<string, unknown>;
        let at = spoiled;
        for (const key of path.slice(0, -1)) at = at[key] as Record<string, unknown>;
        const last = path.at(-1)!;
        at[last] = typeof at[last] === "number" ? (at[last]) + 1 : `${String(at[last])} `;
        const broken = brokenSeals(spoiled as unknown as RecommendationRecord);
        expect(broken.length).toBeGreaterThan(0);
        for (const { message } of broken) expect(message).toMatch(/ after it was issued$/);
      }),
      { seed: 20251018, numRuns: 300 },
    );
  });

  it("but not its comments and its layout", () => {
    const relaid = text.replace("# This file", "# Printed and filed.\n# This file").replace("currency: USD", 'currency:   "USD"  # dollars');
    expect(archivedFarm().write(frozenPath, relaid).lines()).toEqual([]);
  });
});

describe("a damaged archive is told in plain words", () => {
  it("cut short anywhere", () => {
    // Every three-hundredth byte, and just before the end.
    const cuts = [0, 1, ...Array.from({ length: 60 }, (_, i) => Math.floor(((i + 1) * text.length) / 62)), text.length - 2];
    for (const cut of cuts) {
      const lines = archivedFarm().write(frozenPath, text.slice(0, cut)).lines();
      expect(lines, `${cut} bytes`).toHaveLength(1);
      expect(lines[0]).toMatch(/^fields\/north\/recommendations\/2025-11-10\.yaml:\d+:1: file: does not end with its seal \(sha256\): it is half written or damaged; /);
    }
  }, 60_000);

  it("broken in the middle", () => {
    const lines = after("    letter: A", "   letter: A");
    expect(lines.length).toBeGreaterThan(1);
    expect(lines[0]).toBe(`${frozenPath}:1:1: file: is damaged; ${remedy}`);
    expect(lines.slice(1).join("\n")).toMatch(/^fields\/north\/recommendations\/2025-11-10\.yaml:\d+:\d+: /m);
  });

  it("under another name, or in another field's folder", () => {
    const renamed = archivedFarm().remove(frozenPath).write("fields/north/recommendations/2025-12-01.yaml", text);
    expect(renamed.lines()).toEqual([`fields/north/recommendations/2025-12-01.yaml:${lineOf("issued: 2025")}:9: issued: was issued on 2025-11-10, and the file is named 2025-12-01.yaml; give it the name 2025-11-10.yaml back`]);
    const moved = archivedFarm().write("fields/south/field.yaml", tinyFarm[paths.field]!).write("fields/south/recommendations/2025-11-10.yaml", text);
    expect(moved.lines()).toEqual([`fields/south/recommendations/2025-11-10.yaml:${lineOf("id: north")}:7: field.id: is about field "north" and stands in the folder of field "south"; move it back`]);
    expect(archivedFarm().write("fields/north/recommendations/advice.yaml", text).lines()[0]).toContain("a file named by its day of issue, such as 2025-11-02.yaml");
  });
});

describe("a guideline that was edited since", () => {
  it("is no error, and its sections are named", () => {
    const farm = archivedFarm().write("guidelines/full-guide.yaml", advisedFarm["guidelines/full-guide.yaml"]!.replace("from: 1.5", "from: 1.6"));
    expect(farm.lines()).toEqual([]);
    expect(read(farm).frozen.packs[0]).toMatchObject({ id: "full-guide", short: "Full", state: "edited", edited: ["potash"], added: [], removed: [], restEdited: false });
    expect(read(farm).frozen.packs[1]).toMatchObject({ id: "small-guide", state: "same" });
  });

  it("is the same where only its comments and its layout were", () => {
    const farm = archivedFarm().write("guidelines/full-guide.yaml", `# About corn.\n${advisedFarm["guidelines/full-guide.yaml"]!.replace("region: nowhere", 'region:    "nowhere"')}`);
    expect(read(farm).frozen.packs.map((p) => p.state)).toEqual(["same", "same"]);
  });

  it("tells sections that are new, gone and changed, and a description that was", () => {
    const [first, second, ...rest] = triState.sections;
    const then = packPrint({ ...triState, sections: [first!, second!] });
    const now = { ...triState, title: "Another title", sections: [{ ...first!, id: "renamed" }, second!, rest[0]!] };
    expect(packSince(then, now)).toEqual({ id: triState.id, short: triState.short, state: "edited", edited: [], added: ["renamed", rest[0]!.id], removed: [first!.id], restEdited: true });
    expect(packSince(then, undefined).state).toBe("gone");
    expect(packSince(packPrint(oregon), oregon).state).toBe("same");
    expect(packPrint(packOf(first!)).fingerprint).not.toBe(packPrint(packOf(second!)).fingerprint);
  });
});
