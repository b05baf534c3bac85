import { expect, describe, it } from "vitest";
import * as fc from "fast-check";
import { canonicalJson, fingerprint } from "../../../src/records/sealing/canonicalJson.ts";

describe("canonical JSON, by the examples of RFC 8785", () => {
  // Sections 3.2.2 to 3.2.4: the sample, and its bytes.
  const sample: unknown = JSON.parse(String.raw`{
    "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
    "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
    "literals": [null, true, false]
  }`);

  it("writes the sample of section 3.2.2", () =>
    expect(canonicalJson(sample)).toBe(String.raw`{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\u000f\nA'B\"\\\\\"/"}`));

  it("has the bytes of section 3.2.4", () =>
    expect(Buffer.from(canonicalJson(sample), "utf8").toString("hex")).toBe(
      "7b226c69746572616c73223a5b6e756c6c2c747275652c66616c73655d2c226e756d62657273223a5b3333333333333333332e333333333333332c31652b33302c342e352c302e3030322c31652d32375d2c22737472696e67223a22e282ac245c75303030665c6e4127425c225c5c5c5c5c222f227d",
    ));

  it("sorts keys by UTF-16 code units, as in section 3.2.3", () => {
    const keys = JSON.parse(
      String.raw`{"\u20ac":"Euro Sign","\r":"Carriage Return","\ufb33":"Hebrew Letter Dalet With Dagesh","1":"One","\ud83d\ude00":"Emoji: Grinning Face","\u0080":"Control","\u00f6":"Latin Small Letter O With Diaeresis"}`,
    ) as unknown;
    expect([...canonicalJson(keys).matchAll(/:"([^"]+)"/g)].map((m) => m[1])).toEqual([
      "Carriage Return",
      "One",
      "Control",
      "Latin Small Letter O With Diaeresis",
      "Euro Sign",
      "Emoji: Grinning Face",
      "Hebrew Letter Dalet With Dagesh",
    ]);
  });

  // Appendix B: the bits of a number, and how it is written.
  it.each([
    ["0000000000000000", "0"],
    ["8000000000000000", "0"],
    ["0000000000000001", "5e-324"],
    ["8000000000000001", "-5e-324"],
    ["7fefffffffffffff", "1.7976931348623157e+308"],
    ["ffefffffffffffff", "-1.7976931348623157e+308"],
    ["4340000000000000", "9007199254740992"],
    ["c340000000000000", "-9007199254740992"],
    ["4430000000000000", "295147905179352830000"],
    ["44b52d02c7e14af5", "9.999999999999997e+22"],
    ["44b52d02c7e14af6", "1e+23"],
    ["44b52d02c7e14af7", "1.0000000000000001e+23"],
    ["444b1ae4d6e2ef4e", "999999999999999700000"],
    ["444b1ae4d6e2ef4f", "999999999999999900000"],
    ["444b1ae4d6e2ef50", "1e+21"],
    ["3eb0c6f7a0b5ed8c", "9.999999999999997e-7"],
    ["3eb0c6f7a0b5ed8d", "0.000001"],
    ["41b3de4355555553", "333333333.3333332"],
    ["41b3de4355555554", "333333333.33333325"],
    ["41b3de4355555555", "333333333.3333333"],
    ["41b3de4355555556", "333333333.3333334"],
    ["41b3de4355555557", "333333333.33333343"],
    ["becbf647612f3696", "-0.0000033333333333333333"],
    ["43143ff3c1cb0959", "1424953923781206.2"],
  ])("writes the number %s as %s", (bits, text) => expect(canonicalJson(Buffer.from(bits, "hex").readDoubleBE())).toBe(text));

  // Appendix B and section 3.2.2: these are no JSON.
  it.each([
    ["NaN", Number.NaN],
    ["Infinity", Number.POSITIVE_INFINITY],
    ["half a surrogate pair", "\ud800"],
    ["nothing", undefined],
  ])("refuses %s", (_, value) => expect(() => canonicalJson(value)).toThrow());

  it("says the same of a value whatever the order of its keys", () =>
    fc.assert(
      fc.property(fc.dictionary(fc.string(), fc.jsonValue()), (record) => {
        const turned = Object.fromEntries(Object.entries(record).reverse());
        expect(canonicalJson(turned)).toBe(canonicalJson(record));
        expect(JSON.parse(canonicalJson(record))).toEqual(JSON.parse(JSON.stringify(record)));
      }),
      { seed: 20251018, numRuns: 300 },
    ));
});

it("a fingerprint is the SHA-256 of those bytes", () => {
  // The SHA-256 of the two characters {}, a value that many tools print.
  expect(fingerprint({})).toBe("sha256:44136fa355b3678a1146ad16f7e8649e94fb4fc21fe77e8310c060f61caaff8a");
  expect(fingerprint({ left: undefined })).toBe(fingerprint({}));
});
