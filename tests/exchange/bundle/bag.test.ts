import { createHash } from "node:crypto";
import { describe, expect, it } from "vitest";
import type { BagFile } from "../../../src/exchange/bundle/bag.ts";
import { bag, bagInfoValue, textFile } from "../../../src/exchange/bundle/bag.ts";
import { bagReadme } from "../../../src/exchange/bundle/bagReadme.ts";

const sha512 = (bytes: Uint8Array): string => createHash("sha512").update(bytes).digest("hex");
const label = { farm: "Tiny\nFarm", about: " two\n lines\nof text ", today: "2025-10-27", software: "a program", readme: "read me\n" };
const textOf = (files: readonly BagFile[], path: string): string => new TextDecoder().decode(files.find((f) => f.path === path)!.bytes);

describe("a bag", () => {
  // FIPS 180-4, the example of a one-block message: SHA-512 of "abc".
  const abc = "ddaf35a193617abacc417349ae20413112e6fa4e89a97ea20a9eeee64b55d39a2192992a274fc1a836ba3c23a3feebbd454d4423643ce80e2a9ac94fa54ca49f";

  it("lists its payload as sha512sum reads it, and its own tags in a second list", () => {
    const files = bag([textFile("data/b.txt", "abc"), textFile("data/a é.txt", "abc")], label, sha512);
    expect(files.map((f) => f.path)).toEqual(["README.txt", "bag-info.txt", "bagit.txt", "data/a é.txt", "data/b.txt", "manifest-sha512.txt", "tagmanifest-sha512.txt"]);
    expect(textOf(files, "manifest-sha512.txt")).toBe(`${abc}  data/a é.txt\n${abc}  data/b.txt\n`);
    expect(textOf(files, "bagit.txt")).toBe("BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n");
    expect(textOf(files, "tagmanifest-sha512.txt").match(/ {2}\S+/g)).toEqual(["  README.txt", "  bag-info.txt", "  bagit.txt", "  manifest-sha512.txt"]);
  });

  it("says whose it is on one line a value, and the number of octets and files", () => {
    const info = textOf(bag([textFile("data/b.txt", "abc"), textFile("data/c.txt", "é")], label, sha512), "bag-info.txt");
    expect(info).toBe("Source-Organization: Tiny Farm\nExternal-Description: two lines of text\nBagging-Date: 2025-10-27\nPayload-Oxum: 5.2\nBag-Software-Agent: a program\n");
    expect(bagInfoValue(info, "Source-Organization")).toBe("Tiny Farm");
    expect(bagInfoValue(info, "Source")).toBeUndefined();
  });

  it.each(["a.txt", "data/../a", "data//a", "data/a\nb", "data/50%", "data/a\\b", "data/./a", "data/"])("refuses %j, which a manifest cannot say plainly", (path) =>
    expect(() => bag([textFile(path, "")], label, sha512)).toThrow("cannot stand in a bag"));
});

describe("the README of a bundle", () => {
  const facts = { farm: "Tiny Farm", about: "an invented farm ".repeat(12).trim(), today: "2025-10-27", years: ["2024", "2025"] as const, fields: ["North Field"] };

  it("fits a plain text window", () => expect(Math.max(...bagReadme(facts).split("\n").map((line) => line.length))).toBeLessThanOrEqual(80));

  it("breaks a line before its 77th character, and not before", () =>
    expect(bagReadme({ ...facts, about: `${"a".repeat(38)} ${"b".repeat(37)} ${"c".repeat(38)} ${"d".repeat(38)}` })).toContain(`\n${"a".repeat(38)} ${"b".repeat(37)}\n${"c".repeat(38)}\n${"d".repeat(38)}\n`));

  it("says what it is, of when, how to open it and how to check it", () => {
    const text = bagReadme(facts).replace(/\s+/g, " ");
    for (const said of ["soil samplings from 2024 to 2025 of 1 field (North Field)", "how things stood on 2025-10-27", "data/site/index.html in any web browser", "sha512sum -c manifest-sha512.txt", "not a permit"]) expect(text).toContain(said);
  });

  it("names a single year once", () => expect(bagReadme({ ...facts, years: ["2024", "2024"] })).toContain("soil samplings of 2024 of 1 field"));

  it("sends a reader to the records only where the bundle holds them", () => {
    const whole = bagReadme(facts);
    expect(whole).toContain("data/records/own/ ");
    expect(whole).toContain("Records: YAML 1.2 and GeoJSON (RFC\n  7946). All text is UTF-8.\n");
    const excerpt = bagReadme({ ...facts, excerpt: "An excerpt: costs are left out.", fields: ["North Field", "South Field"] });
    expect(excerpt).toContain("\n\nAn excerpt: costs are left out.\n\nThis folder holds soil samplings from 2024 to 2025 of 2 fields (North Field,\nSouth Field), and ");
    expect(excerpt).not.toMatch(/records\/|YAML/);
    // Of an excerpt without nitrate tests and costs neither would be true.
    expect(excerpt).not.toMatch(/every\s+laboratory\s+result|advice,\s+prices/);
  });

  it("claims no sampling where there is none", () => expect(bagReadme({ ...facts, years: undefined, about: undefined })).toContain("This folder holds the records of 1 field"));
});
