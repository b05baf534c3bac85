import { describe, expect, it } from "vitest";
import { allowedWords, nearMiss } from "../../src/records/nearMiss.ts";

describe("a near miss", () => {
  it.each([
    ["bufferPH", "bufferPh"],
    ["bufferph", "bufferPh"],
    ["buferPh", "bufferPh"],
    ["ufbferPh", "bufferPh"],
    ["k", "K"],
  ])("%s is meant for %s", (written, meant) => {
    expect(nearMiss(written, ["pH", "bufferPh", "K"])).toBe(meant);
  });

  it.each(["", "x", "zinc", "buffer pH of the soil", "k".repeat(200)])("%j is meant for nothing", (written) => {
    expect(nearMiss(written, ["pH", "bufferPh", "Zn", "<"])).toBeUndefined();
  });
});

describe("the words allowed", () => {
  it("are listed where nothing is close, twenty at most", () => {
    const many = Array.from({ length: 23 }, (_, i) => `word-${i}`);
    expect(allowedWords("x", ["a", "b"])).toBe("allowed: a, b");
    expect(allowedWords("x", many)).toBe(`allowed: ${many.slice(0, 20).join(", ")} and 3 more`);
    expect(allowedWords("x", [])).toBe("there are none yet");
  });
});
