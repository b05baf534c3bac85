import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { installation } from "../../scripts/options.ts";
import type { Accepted } from "../support/acceptedRecords.ts";
import { acceptedOf, acceptedRecords, acceptedText, noLongerAccepted } from "../support/acceptedRecords.ts";

const file = join(installation, "tests", "fixtures", "accepted.txt");

describe("a record that was accepted once", () => {
  it("goes on to be accepted: no key or word is taken away, and none is asked for that was not", () => {
    expect(noLongerAccepted(acceptedOf(readFileSync(file, "utf8")), acceptedRecords())).toEqual([]);
  });

  it("is written down, key by key: what is new belongs into tests/fixtures/accepted.txt", () => {
    expect(acceptedText(acceptedRecords())).toBe(readFileSync(file, "utf8"));
  });

  it.each<[string, (now: Map<string, Accepted>) => void, string[]]>([
    ["a key that is gone", (now) => now.delete("season.applications[].note"), ["season.applications[].note is no key any more"]],
    ["a word that is gone", (now) => now.set("sampling.purpose", { optional: false, values: ['"routine"', '"nitrate"'] }), ['sampling.purpose may not be "phCheck" any more']],
    ["a type that is gone", (now) => now.set("season.season", { optional: false, values: ["any string"] }), ["season.season may not be any integer any more"]],
    ["a key that is needed now", (now) => now.set("field.tillage", { ...now.get("field.tillage")!, optional: false }), ["field.tillage may not be absent any more"]],
    ["a new key that is needed", (now) => now.set("season.weather", { optional: false, values: ["any string"] }), ["season.weather is new and may not be absent"]],
    ["a new key that may be absent", (now) => now.set("season.weather", { optional: true, values: ["any string"] }), []],
    ["a new key within a new one", (now) => now.set("season.weather", { optional: true, values: ["any object"] }).set("season.weather.rain", { optional: false, values: ["any number"] }), []],
    ["words that became free", (now) => now.set("sampling.purpose", { optional: false, values: ["any string"] }), []],
  ])("is compared with care: %s", (_, change, told) => {
    const now = acceptedRecords();
    change(now);
    expect(noLongerAccepted(acceptedRecords(), now)).toEqual(told);
  });
});
