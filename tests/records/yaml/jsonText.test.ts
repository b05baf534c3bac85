import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { scanJson } from "../../../src/records/yaml/jsonText.ts";

const isJson = (text: string): boolean => {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
};

describe("a scan of JSON text", () => {
  it("finds no fault in any JSON", () => {
    fc.assert(
      fc.property(fc.jsonValue(), fc.constantFrom(0, 2, "\t"), (value, indent) => scanJson(JSON.stringify(value, null, indent)).fault === undefined),
      { seed: 1 },
    );
  });

  it("finds a fault in just the texts that JSON.parse refuses", () => {
    const scraps = fc.array(fc.constantFrom("{", "}", "[", "]", ",", ":", '"a"', '"\\q"', '"\u001f"', "1", "-", "01", "1.5e3", "true", "nul", " ", "\n"), { maxLength: 8 });
    fc.assert(
      fc.property(scraps, (parts) => (scanJson(parts.join("")).fault === undefined) === isJson(parts.join(""))),
      { seed: 1, numRuns: 3000 },
    );
  });

  it("finds the place of a value by its path", () => {
    const text = '{ "a": [1, { "b": "x" }], "b": 2 }';
    const at = (path: (string | number)[]): string => text.slice(scanJson(text, path).found);
    expect(at(["b"])).toBe("2 }");
    expect(at(["a", 1, "b"])).toBe('"x" }], "b": 2 }');
    expect(at(["a", 0])).toBe('1, { "b": "x" }], "b": 2 }');
    expect(at(["a", 7, "b"])).toBe('[1, { "b": "x" }], "b": 2 }');
    expect(at([])).toBe(text);
  });

  it("finds where the value at a path ends", () => {
    const text = ' { "a": [1, { "b": "x" }] , "b": 2 } ';
    const upTo = (path: (string | number)[]): string => text.slice(0, scanJson(text, path).end);
    expect(upTo(["a", 1])).toBe(' { "a": [1, { "b": "x" }');
    expect(upTo(["a", 1, "b"])).toBe(' { "a": [1, { "b": "x"');
    expect(upTo(["a"])).toBe(' { "a": [1, { "b": "x" }]');
    expect(upTo(["b"])).toBe(' { "a": [1, { "b": "x" }] , "b": 2');
    expect(upTo([])).toBe(text.trimEnd());
    expect(scanJson('{ "a": [1', ["a"]).end).toBeUndefined();
  });
});
