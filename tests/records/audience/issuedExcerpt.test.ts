import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { cautions } from "../../../src/interpretation/cautions.ts";
import { issuedExcerpt } from "../../../src/records/audience/issuedExcerpt.ts";
import type { Recommendation, Withheld } from "../../../src/records/model.ts";
import type { FrozenAnswer, FrozenZone } from "../../../src/records/schemas/recommendation.ts";
import { recommendation } from "../../../src/records/schemas/recommendation.ts";
import { frozenPath, issued as day, issuedText } from "../../support/archived.ts";

const asIssued = recommendation.parse(parse(issuedText));

const answer = (question: string, kind: FrozenAnswer["kind"]): FrozenAnswer => ({ question, kind, subject: question, shown: "7 lb/ac", steps: [{ what: `How ${question} was found`, result: "7" }] });

const refused: FrozenAnswer = { question: "s", kind: "rate", subject: "Sulfur (S)", noAnswer: { because: "Small gives no rate for corn", missing: ["a rate for corn"] }, steps: [] };

/** The tiny farm's advice with every kind of answer, and with nitrogen in all that can hold it. */
const issued: Recommendation = {
  id: day,
  file: frozenPath,
  packs: [],
  record: {
    ...asIssued,
    zones: asIssued.zones.map((zone) => ({
      ...zone,
      cautions: [...zone.cautions, "nitrateAndWells"],
      answers: [...zone.answers, answer("rating-nitrateN", "rating"), answer("n", "rate"), answer("nitrogen", "nitrogen"), answer("legume", "credit"), answer("starter", "starter"), refused, { ...answer("rating-Zn", "rating"), steps: [{ what: "Classes for corn", result: "low" }] }],
      inputs: { ...zone.inputs, results: [{ ...zone.inputs.results[0]!, correction: { was: 6.8, reason: "a slip", date: "2025-11-01" } }, ...zone.inputs.results.slice(1), { ...zone.inputs.results[0]!, analyte: "nitrateN", value: 17 }] },
    })),
    cautions: [...asIssued.cautions, cautions.nitrateAndWells.text],
    products: { ...asIssued.products, urea: { kind: "fertilizer", name: "urea", price: { value: 500, per: "ton" }, content: { analysis: { N: 46, P2O5: 0, K2O: 0 } } } },
  },
};

const shownTo = (parts: Withheld["parts"], years?: Withheld["years"]) => issuedExcerpt(issued, { reader: "A reader", parts, years, someFields: false }).record;
const zoneOf = (...[parts, years]: Parameters<typeof shownTo>) => shownTo(parts, years).zones[0]!;
const answerTo = (question: string, ...[parts, years]: Parameters<typeof shownTo>) => zoneOf(parts, years).answers.find((a) => a.question === question)!;
const all = issued.record.zones[0]!.answers.map((a) => a.question);
const hiddenFrom = (...[parts, years]: Parameters<typeof shownTo>): string[] => {
  const shown = zoneOf(parts, years).answers.map((a) => a.question);
  return all.filter((question) => !shown.includes(question));
};

describe("an excerpt of advice as issued", () => {
  it.each([
    [["notes"], []],
    [["positions"], []],
    [["costs"], ["product", "starter"]],
    [["yields"], ["p2o5", "k2o", "product", "n", "nitrogen", "legume", "starter", "s"]],
    [["nitrogen"], ["product", "rating-nitrateN", "n", "nitrogen", "legume", "starter"]],
  ] as const)("without %j lacks the answers that could rest on it, and no other", (parts, hidden) => expect(hiddenFrom(new Set(parts))).toEqual(hidden));

  it("of some years lacks nitrogen, which rests on the years before", () => expect(hiddenFrom(new Set(), { from: 2020 })).toEqual(["nitrogen", "legume"]));

  it("without nitrogen holds no nitrate result, no caution about nitrogen and no product that holds any", () => {
    const whole = shownTo(new Set(["notes"]));
    const without = shownTo(new Set(["nitrogen"]));
    expect(whole.zones[0]!.inputs.results).toContainEqual(expect.objectContaining({ analyte: "nitrateN" }));
    expect(without.zones[0]!.inputs.results.map((r) => r["analyte"])).toEqual(["pH", "bufferPh", "P", "K"]);
    expect(whole.zones[0]!.cautions).toContain("nitrateAndWells");
    expect(without.zones[0]!.cautions).toEqual(["localCodes", "limeDust", "limeAndAmmonia"]);
    expect(whole.cautions).toContain(cautions.nitrateAndWells.text);
    expect(without.cautions).toEqual(asIssued.cautions);
    expect(Object.keys(whole.products)).toEqual(["ground-limestone", "potash", "urea"]);
    expect(Object.keys(without.products)).toEqual(["ground-limestone"]);
  });

  it("without nitrogen holds no chloride and sulfur of a sampling for nitrate either, which they would tell of, and those of its own", () => {
    const [zone] = issued.record.zones;
    const { record } = issued;
    const result = (analyte: string, file: string): FrozenZone["inputs"]["results"][number] => ({ ...zone!.inputs.results[0]!, analyte, origin: { file, line: 9, column: 3 } });
    const sampled = (zone!.inputs.results[0]!["origin"] as { file: string }).file;
    const apart = sampled.replace(".yaml", "-nitrate.yaml");
    const results = [...zone!.inputs.results, result("S", sampled), result("S", apart), result("Cl", apart), result("Zn", sampled)];
    const answers = [...zone!.answers, ...["rating-S", "rating-S-2", "rating-Cl"].map((q) => answer(q, "rating")), answer("cl", "rate")];
    const shown = (parts: Withheld["parts"]) =>
      issuedExcerpt({ ...issued, record: { ...record, zones: [{ ...zone!, answers, inputs: { ...zone!.inputs, results } }] } }, { reader: "A reader", parts, someFields: false }).record.zones[0]!;
    const without = shown(new Set(["nitrogen"]));
    expect(without.inputs.results.map((r) => r["analyte"])).toEqual(["pH", "bufferPh", "P", "K", "S", "Zn"]);
    expect(without.answers.map((a) => a.question).filter((q) => /^(rating-)?(s|cl)\b/i.test(q))).toEqual([]);
    expect(without.answers.map((a) => a.question)).toContain("rating-Zn");
    const whole = shown(new Set(["costs"]));
    expect(whole.inputs.results.filter((r) => ["S", "Cl"].includes(r["analyte"] as string))).toHaveLength(3);
    expect(whole.answers.map((a) => a.question).filter((q) => /^(rating-)?(s|cl)\b/i.test(q))).toEqual(["s", "rating-S", "rating-S-2", "rating-Cl", "cl"]);
  });

  it("lists no fertilizer where what to buy is left out: one that only a hidden field was given would stand there", () => {
    const listed = (parts: Withheld["parts"]): string[] => Object.keys(shownTo(parts).products);
    expect(listed(new Set(["positions"]))).toEqual(["ground-limestone", "potash", "urea"]);
    for (const part of ["costs", "yields"] as const) expect(listed(new Set([part])), part).toEqual(["ground-limestone"]);
  });

  it("says that it is one", () => expect(issuedExcerpt(issued, { reader: "A reader", parts: new Set(["costs"]), someFields: false }).excerpt).toBe(true));

  it("without notes or of some years has no word on a correction, and any other has", () => {
    const correction = (...asked: Parameters<typeof shownTo>) => zoneOf(...asked).inputs.results[0]!["correction"];
    expect([correction(new Set(["notes"])), correction(new Set(), { from: 2020 })]).toEqual([undefined, undefined]);
    expect(correction(new Set(["costs"]))).toMatchObject({ was: 6.8 });
  });

  it("without costs says how much lime, and no sum of money or price", () => {
    expect(answerTo("lime", new Set(["costs"]))).toMatchObject({ shown: "1.9 ton/ac", detail: "of ground limestone, to reach pH 6.5", figures: { target: 6.5 } });
    expect(JSON.stringify(shownTo(new Set(["costs"])))).not.toMatch(/\$|costPerAcre|"price"/);
    expect(answerTo("lime", new Set(["notes"]))).toMatchObject({ detail: "of ground limestone, to reach pH 6.5; 16.3 tons in all, $652", figures: { costPerAcre: expect.closeTo(74.07, 2) as number } });
    expect(shownTo(new Set(["notes"])).products["ground-limestone"]).toMatchObject({ price: { value: 40, per: "ton" } });
  });

  it("without yields names the crop, and not what it was to yield", () => {
    expect(zoneOf(new Set(["notes"])).crop).toBe("corn 2026, 180 bu/ac");
    expect(zoneOf(new Set(["yields"])).crop).toBe("corn 2026");
    expect(JSON.stringify(shownTo(new Set(["yields"])))).not.toMatch(/\b180\b/);
  });

  it("from a year on does not work lime out, since lime of the years before could stand in it", () => {
    expect(answerTo("lime", new Set(), { from: 2020 }).steps).toEqual([{ what: expect.stringMatching(/^Its working is left out for this reader/) as string, result: "1.9 ton/ac" }]);
    expect(answerTo("lime", new Set(), { to: 2026 }).steps.length).toBeGreaterThan(5);
  });

  it("up to a year tells nothing of a crop after it: not its name, yield goal or season", () => {
    expect(zoneOf(new Set(), { to: 2026 })).toMatchObject({ crop: "corn 2026, 180 bu/ac", inputs: { crop: { crop: "corn", season: 2026 } } });
    expect(answerTo("k2o", new Set(), { to: 2026 })).toMatchObject({ detail: "for corn 2026, 180 bu/ac" });
    const { crop, inputs, answers } = zoneOf(new Set(), { to: 2025 });
    expect(crop).toBe("a crop after the years shown");
    expect(inputs.crop).toBeUndefined();
    expect(answerTo("k2o", new Set(), { to: 2025 })).toMatchObject({ shown: "83 lb/ac", steps: [{ what: expect.stringMatching(/^Its working is left out for this reader/) as string }] });
    expect(answerTo("s", new Set(), { to: 2025 }).noAnswer).toEqual({ because: "the reason tells of a crop after the years shown", missing: [] });
    expect(answerTo("p2o5", new Set(), { to: 2025 }).noAnswer!.because).toBe("none of the chosen guidelines gives a rate from this test");
    expect(answerTo("lime", new Set(), { to: 2025 }).steps.length).toBeGreaterThan(5);
    expect(JSON.stringify(answers)).not.toMatch(/corn|\b180\b|2026/i);
  });
});
