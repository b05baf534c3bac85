import { describe, expect, it } from "vitest";
import { forAudience } from "../../../src/records/audience/forAudience.ts";
import type { Farm } from "../../../src/records/model.ts";
import type { AudienceRecord } from "../../../src/records/schemas/audience.ts";
import { withheldParts } from "../../../src/records/schemas/audience.ts";
import { readSecretFarm, secrets } from "../../support/secretFarm.ts";

const whole = readSecretFarm();

/** Every key and value of a farm, maps and sets included, as one text to search. The shipped guidelines are the same for every reader. */
const textOf = ({ allGuidelines, references, ...own }: Farm): string =>
  JSON.stringify({ ...own, ids: [...allGuidelines.keys(), ...references.keys()] }, (_, value: unknown) => (value instanceof Map || value instanceof Set ? [...(value as Iterable<unknown>)] : value));

const leaks = (text: string, hidden: readonly string[]): string[] => hidden.filter((secret) => text.includes(secret));

const shown = (audience: Partial<AudienceRecord>): string => textOf(forAudience(whole, { name: "A reader", leaveOut: [], ...audience }));

/** What is written otherwise in a page than in the records, and what only the file of a laboratory's report holds. */
const ofPages = /^\d+ [A-Z]|\d (in|gal)$|^zqsheet$/;
const inRecords = (words: readonly string[]): string[] => words.filter((word) => !ofPages.test(word));

describe("a farm as one reader may see it", () => {
  it("holds nothing of a part that is left out, and the whole farm does", () => {
    for (const part of withheldParts) {
      const hidden = inRecords(secrets[part]);
      expect(leaks(textOf(whole), hidden), `the farm holds the secrets of ${part}`).toEqual(hidden);
      expect(leaks(shown({ leaveOut: [part] }), hidden), part).toEqual([]);
    }
  });

  it("keeps the parts that are not left out", () => {
    for (const part of withheldParts) {
      const others = withheldParts.filter((each) => each !== part);
      const kept = shown({ leaveOut: [part] });
      for (const other of others) expect(leaks(kept, inRecords(secrets[other])).length, `${other} stays where only ${part} is left out`).toBeGreaterThan(0);
    }
  });

  it("holds nothing of a field that is not shown: not its products, laboratory, guideline or newest day", () => {
    const farm = forAudience(whole, { name: "A reader", fields: ["quay"], leaveOut: [] });
    expect(leaks(textOf(whole), inRecords(secrets.fields))).toContain("zqcovemanure".slice(0, 6));
    expect(leaks(textOf(farm), inRecords(secrets.fields))).toEqual([]);
    expect(farm.today).toBe("2026-10-07");
    expect(forAudience(whole, { name: "A reader", tenure: "owned", leaveOut: [] }).fields.map((f) => f.id)).toEqual(["zqcove"]);
  });

  it("holds no day before the first year or after the last, and speaks from no later day", () => {
    const farm = forAudience(whole, { name: "A reader", fields: ["quay"], leaveOut: [], seasons: { from: 2018, to: 2025 } });
    const hidden = inRecords(secrets.years);
    expect(leaks(textOf(whole), hidden)).toEqual(hidden);
    expect(leaks(textOf(farm), hidden)).toEqual([]);
    expect(textOf(farm).match(/\b(19\d\d|200\d|201[0-7]|202[6-9])-\d\d-\d\d\b/g)).toBeNull();
    expect(farm.today).toBe("2025-10-18");
    expect(forAudience(whole, { name: "A reader", leaveOut: [], seasons: { to: 2019 } }, "2026-02-01").today).toBe("2019-12-31");
  });

  it("keeps a corrected result right where the correction is of a later year", () => {
    const farm = forAudience(whole, { name: "A reader", fields: ["quay"], leaveOut: [], seasons: { to: 2019 } });
    const bag = farm.fields[0]!.samplings.find((s) => s.id === "2019-10-15")!.composites[0]!;
    expect(bag.measurements.find((m) => m.analyte === "K")).toMatchObject({ value: 111, correction: { date: "2019-12-02" } });
  });

  it("tells what was left out, and nothing of it", () => {
    expect(forAudience(whole, whole.audiences.get("trust")!).withheld).toEqual({
      reader: "The reading trust",
      parts: new Set(withheldParts),
      years: { from: 2018, to: 2025 },
      someFields: true,
    });
  });

  it("lets no search engine in, whatever the owner's own site does", () => {
    expect(whole.publish.index).toBe(true);
    expect(forAudience(whole, whole.audiences.get("heir")!).publish).toEqual({ index: false, location: true, reports: true });
  });

  it("counts what a compound brought besides nitrogen, without the product's name", () => {
    const farm = forAudience(whole, { name: "A reader", fields: ["quay"], leaveOut: ["nitrogen"] });
    const [left] = farm.fields[0]!.seasons.find((s) => s.season === 2019)!.applications;
    // 123.739 lb of a compound with 44.91 percent of phosphate.
    expect(left).toMatchObject({ rate: { value: 56, unit: "lb/ac" }, product: { fertilizer: { analysis: { N: 0, P2O5: 100 } } } });
  });
});
