import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parse, stringify } from "yaml";
import { redrawnText } from "../../../src/records/zones/redrawText.ts";

const merged = { since: "2025-11-20", ended: ["a", "b"], drawn: { long: { letter: "C", name: "Long, piece", since: "2025-11-20", formerly: ["a", "b"] } }, plans: [] };
const block = `name: North
zones:
  a:
    letter: A
    name: West end  # by the road
    soil:
      texture: loam
  b:
    name: East end
    letter: B
    soil:
      cec: 14  # measured

# what is grown
plan:
  - { season: 2026, crop: corn, zones: [c, a, d, b] }
`;

describe("zones drawn anew in a field.yaml", () => {
  it("end, and begin below the last one, a key a line; all else stays", () => {
    expect(redrawnText(block, { ...merged, plans: [0] })).toBe(`name: North
zones:
  a:
    letter: A
    name: West end  # by the road
    until: 2025-11-20
    soil:
      texture: loam
  b:
    name: East end
    until: 2025-11-20
    letter: B
    soil:
      cec: 14  # measured
  long:
    letter: C
    name: "Long, piece"
    since: 2025-11-20
    formerly: [a, b]

# what is grown
plan:
  - { season: 2026, crop: corn, zones: [c, long, d] }
`);
  });

  it.each([
    ["in braces, a zone a line", "zones:\n  a: { letter: A, name: W } # one\n  b: { letter: B, name: E }", "zones:\n  a: { letter: A, name: W, until: 2025-11-20 } # one\n  b: { letter: B, name: E, until: 2025-11-20 }\n  long: { letter: C, name: \"Long, piece\", since: 2025-11-20, formerly: [a, b] }"],
    ["in braces, all in one", "zones: { a: { name: W, letter: A }, b: { name: E, letter: B } }\n", "zones: { a: { name: W, until: 2025-11-20, letter: A }, b: { name: E, until: 2025-11-20, letter: B }, long: { letter: C, name: \"Long, piece\", since: 2025-11-20, formerly: [a, b] } }\n"],
    ["after a mark and as on Windows", "\ufeffzones:\r\n  a: { letter: A, name: W }\r\n  b:\r\n      letter: B\r\n      name: E\r\n", "\ufeffzones:\r\n  a: { letter: A, name: W, until: 2025-11-20 }\r\n  b:\r\n      letter: B\r\n      name: E\r\n      until: 2025-11-20\r\n  long:\r\n      letter: C\r\n      name: \"Long, piece\"\r\n      since: 2025-11-20\r\n      formerly: [a, b]\r\n"],
    ["below a name of two lines", "zones:\n  a:\n    letter: A\n    name: >-\n      West\n      end\n  b: { letter: B, name: E }\n", 'zones:\n  a:\n    letter: A\n    name: >-\n      West\n      end\n    until: 2025-11-20\n  b: { letter: B, name: E, until: 2025-11-20 }\n  long: { letter: C, name: "Long, piece", since: 2025-11-20, formerly: [a, b] }\n'],
    ["where the plan names zones a line each", "zones:\n  a: { letter: A, name: W }\n  b: { letter: B, name: E }\nplan:\n  - zones:\n      - a\n      - b\n", undefined],
    ["without zones", "zones: none\n", undefined],
    ["in no map at all", "- a\n", undefined],
  ])("%s", (_, before, after) => {
    expect(redrawnText(before, { ...merged, plans: before.includes("plan") ? [0] : [] })).toBe(after);
  });

  it("bear a name of any length on one line", () => {
    const name = "long, ".repeat(30).trim();
    expect(redrawnText(block, { ...merged, drawn: { long: { ...merged.drawn.long, name } } })).toContain(`    name: "${name}"\n`);
  });

  it("are never drawn wrong: what comes out is the old record and what is new, in whatever style the file is written", () => {
    const names = fc.string({ unit: fc.constantFrom("a", "B", " ", ":", "#", "'", '"', ",", "{", "}", "[", "-", "é", "0", "~"), minLength: 1, maxLength: 6 });
    const style = fc.record({ collectionStyle: fc.constantFrom("any", "flow", "block"), indent: fc.constantFrom(2, 4), defaultStringType: fc.constantFrom("PLAIN", "QUOTE_DOUBLE") }) as fc.Arbitrary<object>;
    let made = 0;
    fc.assert(
      fc.property(names, names, style, (old, fresh, options) => {
        const record = { zones: { a: { letter: "A", name: old }, b: { letter: "B", name: old, soil: { texture: "loam" } } }, plan: [{ season: 2026, zones: ["b", "a"] }], note: "end" };
        const drawn = { long: { ...merged.drawn.long, name: fresh } };
        const text = redrawnText(stringify(record, options), { ...merged, drawn, plans: [] });
        if (text === undefined) return;
        made++;
        expect(parse(text)).toEqual({ ...record, zones: { a: { ...record.zones.a, until: "2025-11-20" }, b: { ...record.zones.b, until: "2025-11-20" }, ...drawn } });
      }),
      { seed: 1, numRuns: 300 },
    );
    expect(made).toBeGreaterThan(250);
  });
});
