import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { bagLabel, fieldCode, labelStart } from "../../../src/interpretation/sampling/planLabel.ts";

const codesOf = (ids: readonly string[]): string[] => ids.map((id) => fieldCode(id, ids));

describe("labels", () => {
  it("say field, zone, month and number", () => {
    const taken = new Set<string>();
    expect(bagLabel("CA", "A", "2025-10-18", "routine", taken)).toBe("CA-A-2510-1");
    expect(bagLabel("CA", "A", "2025-10-18", "routine", taken)).toBe("CA-A-2510-2");
    expect(bagLabel("CA", "A", "2025-10-18", "nitrate", taken)).toBe("CA-A-2510-N1");
    expect(bagLabel("CA", "B", "2026-06-11", "phCheck", taken)).toBe("CA-B-2606-P1");
  });

  it("pass over one that is taken, however it is written", () => expect(bagLabel("CA", "A", "2025-10-18", "routine", new Set(["CA-A-2510-1"]))).toBe("CA-A-2510-2"));

  it("tell every field from every other", () => {
    expect(codesOf(["causeway", "saltings", "netloft"])).toEqual(["CA", "SA", "NE"]);
    expect(codesOf(["north", "north-east", "northern", "a"])).toEqual(["NORTH", "NORTHEA", "NORTHER", "A"]);
    expect(codesOf(["nor-th1", "north-1"])).toEqual(["NOR-TH1", "NORTH-1"]);
  });

  it("are unique and plain for any fields", () =>
    fc.assert(
      fc.property(fc.uniqueArray(fc.stringMatching(/^[a-c0-1]{1,4}(-[a-c0-1]{1,2}){0,2}$/), { minLength: 1, maxLength: 12 }), (ids) => {
        const codes = codesOf(ids);
        expect(new Set(codes).size).toBe(ids.length);
        const taken = new Set<string>();
        const labels = codes.flatMap((code) => [1, 2].map(() => bagLabel(code, "A", "2025-10-18", "routine", taken)));
        expect(new Set(labels).size).toBe(labels.length);
        for (const label of labels) expect(label).toMatch(/^[A-Z0-9-]+$/);
      }),
      { numRuns: 200, seed: 11 },
    ));

  it.each(["=1+1", "+A", "-A", "@A", "A,B", "A;B", 'A"B', "A B", "", "ü", "A\tB", "ABCDEFGHIJKLMNOPQRSTU"])("never begin with %j", (start) => expect(labelStart.test(start)).toBe(false));
  it.each(["CA", "north-7", "0012"])("may begin with %j", (start) => expect(labelStart.test(start)).toBe(true));
});
