import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { printPages } from "../../scripts/printPages.ts";
import { ranOn } from "../support/command.ts";
import { readPdf } from "../support/pdfText.ts";
import { secrets, writeSecretFarm } from "../support/secretFarm.ts";
import { connect } from "./open.ts";

/** Of a printed page: what can be read on it and beside it, line by line, and the file to the last byte with its streams opened. */
interface Sheet {
  readonly name: string;
  readonly words: string;
  readonly everything: string;
}

let home: string;
const command = async (name: string, args: readonly string[]): Promise<void> => {
  const { status, stderr } = await ranOn(name, ["--content", join(home, "farm"), ...args]);
  if (status !== 0) throw new Error(stderr);
};
const sheetOf = (name: string, bytes: Buffer): Sheet => {
  const { runs, strings, everything } = readPdf(bytes);
  // Numbers of money and yields stand with a comma of thousands in some places and not in others.
  return { name, words: [...runs.flat(), ...strings].join("\n").replace(/(\d),(?=\d{3})/g, "$1").toLowerCase(), everything: everything.toLowerCase() };
};

/** A secret word anywhere in the file; a secret number where it can be read, since a drawing is full of numbers. */
const leaks = (sheets: readonly Sheet[], hidden: readonly string[]): string[] =>
  sheets.flatMap(({ name, words, everything }) => hidden.map((h) => h.toLowerCase()).filter((h) => name.includes(h) || words.includes(h) || (h.includes("zq") && everything.includes(h))).map((h) => `${h} in ${name}`));

/** Pages of the owner's own site that hold secrets of every kind, and all that `npm run pdf` prints for the trust. */
const whole: Sheet[] = [];
let trust: Sheet[];
beforeAll(async () => {
  home = mkdtempSync(join(tmpdir(), "field-history-pdf-leak-"));
  writeSecretFarm(join(home, "farm"));
  await command("build", ["--out", join(home, "site")]);
  for await (const [path, bytes] of printPages(await connect(), join(home, "site"), ["index.html", "fields/quay.html", "fields/quay/timeline.html", "calendar.html", "season.html", "summary.html", "fields/zqcove/timeline.html"], "A4")) whole.push(sheetOf(path, Buffer.from(bytes)));
  await command("pdf", ["--audience", "trust", "--out", join(home, "trust")]);
  trust = readdirSync(join(home, "trust")).map((name) => sheetOf(name, readFileSync(join(home, "trust", name))));
}, 300_000);
afterAll(() => rmSync(home, { recursive: true, force: true }));

describe("what a reader gets on paper", () => {
  it("is searched by a search that finds: the owner's sheets hold secrets of every kind, drawn and in titles", () => {
    for (const [part, hidden] of Object.entries(secrets)) expect(hidden.filter((secret) => leaks(whole, [secret]).length > 0).length, part).toBeGreaterThan(0);
    expect(whole.find(({ name }) => name === "index.html")!.words).toContain("quillback farm: field history");
  });

  it("holds no hidden word or number, on its sheets, in titles, outlines and links, or in any byte", () => {
    expect(trust.length).toBeGreaterThan(4);
    expect(leaks(trust, Object.values(secrets).flat())).toEqual([]);
  });

  it("says on every sheet file whose excerpt it is", () => {
    for (const { name, words } of trust) expect(words.replace(/\s+/g, ""), name).toContain("madefor:thereadingtrust");
  });
});
