import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { strFromU8, unzipSync } from "fflate";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { ranOn } from "../support/command.ts";
import { secrets, writeSecretFarm } from "../support/secretFarm.ts";

/** Every byte of a ZIP and of the ZIPs in it, as one text a file: its name, then what it holds. */
const texts = (zip: Uint8Array, within = ""): Map<string, string> => {
  const found = new Map<string, string>();
  for (const [name, bytes] of Object.entries(unzipSync(zip))) {
    // One byte a letter: UTF-8 of plain letters and digits reads the same, and no byte is lost.
    found.set(`${within}${name}`, strFromU8(bytes, true));
    if (name.endsWith(".zip")) for (const inner of texts(bytes, `${within}${name}/`)) found.set(...inner);
  }
  return found;
};

let home: string;
const bundle = async (audience?: string): Promise<Map<string, string>> => {
  const out = join(home, `${audience ?? "whole"}.zip`);
  const { status, stderr } = await ranOn("bundle", ["--content", join(home, "farm"), "--out", out, ...(audience === undefined ? [] : ["--audience", audience])]);
  if (status !== 0) throw new Error(stderr);
  const zip = readFileSync(out);
  return texts(zip).set("the ZIP itself", strFromU8(zip, true));
};

/** In small letters; numbers of money and yields stand with a comma of thousands in some places and not in others. */
const plain = (text: string): string => text.replace(/(\d),(?=\d{3})/g, "$1").toLowerCase();
const leaks = (files: ReadonlyMap<string, string>, hidden: readonly string[]): string[] =>
  [...files].flatMap(([name, text]) => {
    const read = plain(text);
    return hidden.filter((secret) => name.includes(secret) || read.includes(secret.toLowerCase())).map((secret) => `${secret} in ${name}`);
  });
const siteOf = (files: ReadonlyMap<string, string>): Map<string, string> => new Map([...files].filter(([name]) => name.includes("/data/site/")));

let [whole, trust, bank]: ReadonlyMap<string, string>[] = [];
beforeAll(async () => {
  home = mkdtempSync(join(tmpdir(), "field-history-leak-"));
  writeSecretFarm(join(home, "farm"));
  [whole, trust, bank] = await Promise.all([bundle(), bundle("trust"), bundle("bank")]);
}, 300_000);
afterAll(() => rmSync(home, { recursive: true, force: true }));

describe("what a reader gets, to the last byte", () => {
  it("is searched by a search that finds: the owner's own bundle holds every secret, and his site most of each kind", () => {
    for (const [part, hidden] of Object.entries(secrets)) {
      const found = leaks(whole!, hidden);
      expect(hidden.filter((secret) => !found.some((leak) => leak.startsWith(`${secret} in `))), part).toEqual([]);
      const foundOnSite = leaks(siteOf(whole!), hidden);
      const onSite = hidden.filter((secret) => foundOnSite.some((leak) => leak.startsWith(`${secret} in `)));
      expect(onSite.length, `${part} on the owner's site: ${onSite.join(", ")}`).toBeGreaterThan(hidden.length / 2);
    }
  });

  it("holds no hidden word or number for a reader from whom everything is kept that can be", () => {
    expect(leaks(trust!, Object.values(secrets).flat())).toEqual([]);
    expect([...trust!.keys()].filter((name) => /records\/|\.geojson$|\.gpx$|plan/.test(name))).toEqual([]);
  });

  it("holds no sum of money, no outline and no amount of nitrogen for him either", () => {
    const pages = [...siteOf(trust!)].filter(([name]) => !/\/(guidelines|checks)\/|\/assets\/|references\.html|methods\.html|checks\.html/.test(name));
    expect(pages.length).toBeGreaterThan(8);
    const own = (pattern: RegExp): string[] => pages.filter(([, text]) => pattern.test(text)).map(([name]) => name);
    expect(own(/\$\s?\d/)).toEqual([]);
    expect(own(/nitrate test of|lb N\/ac|of nitrogen called for/)).toEqual([]);
    expect(own(/class="map|GeoShape|"coordinates"/)).toEqual([]);
    // The same patterns find what they look for on the owner's site.
    const owners = [...siteOf(whole!).values()].join("\n");
    for (const pattern of [/\$\s?\d/, /class="map|GeoShape|"coordinates"/]) expect(pattern.test(owners), String(pattern)).toBe(true);
  });

  it("holds the rest for a reader from whom less is kept, and not the rest of that", () => {
    expect(leaks(bank!, [...secrets.fields, ...secrets.yields, ...secrets.notes])).toEqual([]);
    for (const part of ["costs", "positions", "nitrogen", "years"] as const) expect(leaks(bank!, secrets[part]).length, part).toBeGreaterThan(0);
  });

  it("says on every page whose excerpt it is and what was left out", () => {
    const pages = [...siteOf(trust!)].filter(([name]) => name.endsWith(".html"));
    expect(pages.filter(([, text]) => !text.includes("made for: The reading trust. Only the fields named here are shown. Left out: prices, fees")).map(([name]) => name)).toEqual([]);
    expect([...siteOf(whole!).values()].some((text) => text.includes("made for:"))).toBe(false);
  });
});
