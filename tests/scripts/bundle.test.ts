import { spawnSync } from "node:child_process";
import { appendFileSync, cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, readdirSync, renameSync, rmSync, utimesSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { HtmlValidate } from "html-validate";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { filesBelow } from "../../scripts/checkLinks.ts";
import { installation } from "../../scripts/options.ts";
import { type Ran, ranApart, ranOn } from "../support/command.ts";
import { tinyFarm } from "../support/tinyFarm.ts";

const bundle = (args: string[]): Promise<Ran> => ranOn("bundle", args, { from: home });
const tool = (folder: string, program: string, ...args: string[]) => spawnSync(program, args, { cwd: folder, encoding: "utf8" });
/** By whichever common tool is there: neither knows this program. */
const unzip = (zip: string, into: string): void => {
  mkdirSync(into);
  const { error, status } = tool(into, "unzip", "-q", zip);
  expect(error ? tool(into, "python3", "-m", "zipfile", "-e", zip, ".").status : status).toBe(0);
};

let home: string;
/** The unzipped bundle of the fixture farm. */
let bag: string;
beforeAll(async () => {
  home = mkdtempSync(join(tmpdir(), "field-history-bundle-test-"));
  cpSync(join(installation, "tests", "golden", "farm"), join(home, "farm"), { recursive: true });
  for (const [file, text] of Object.entries(tinyFarm)) {
    mkdirSync(join(home, "tiny", file, ".."), { recursive: true });
    writeFileSync(join(home, "tiny", file), text);
  }
  const named = join(home, "farm", "farm.yaml");
  writeFileSync(named, readFileSync(named, "utf8").replace("Croft Test", "Crofter's Test") + "publish: { reports: true }\n");
  mkdirSync(join(home, "farm", "reports"));
  writeFileSync(join(home, "farm", "reports", "sheet.csv"), "Bag;pH\n");
  appendFileSync(join(home, "farm", "fields", "croft", "samplings", "2020-10-01.yaml"), "report: { file: sheet.csv }\n");
  const { status, stderr } = await bundle(["--content", "farm", "--out", "farm.zip"]);
  if (status !== 0) throw new Error(stderr);
  unzip(join(home, "farm.zip"), join(home, "unzipped"));
  const [only, ...others] = readdirSync(join(home, "unzipped"));
  if (only === undefined || others.length > 0) throw new Error("a serialized bag is one folder");
  bag = join(home, "unzipped", only);
}, 120_000);
afterAll(() => rmSync(home, { recursive: true, force: true }));

const read = (file: string): string => readFileSync(join(bag, file), "utf8");

it("is refused while the records hold no day, unless one is named", async () => {
  cpSync(join(home, "tiny"), join(home, "bare"), { recursive: true });
  for (const folder of ["samplings", "seasons"]) rmSync(join(home, "bare", "fields", "north", folder), { recursive: true });
  expect(await bundle(["--content", "bare"])).toMatchObject({ status: 1, stderr: "the records hold no day yet; say with --today YYYY-MM-DD of which day the bundle is\n" });
});

describe("a bundle, without this program", { timeout: 60_000 }, () => {
  it("proves itself whole, and shows one changed byte", () => {
    expect(tool(bag, "sha512sum", "--strict", "-c", "manifest-sha512.txt").status).toBe(0);
    expect(tool(bag, "sha512sum", "--strict", "-c", "tagmanifest-sha512.txt").status).toBe(0);
    const spoiled = join(home, "spoiled");
    cpSync(bag, spoiled, { recursive: true });
    appendFileSync(join(spoiled, "data", "site", "index.html"), " ");
    const { status, stdout } = tool(spoiled, "sha512sum", "-c", "manifest-sha512.txt");
    expect(status).toBe(1);
    expect(stdout.split("\n").filter((line) => line.endsWith("FAILED"))).toEqual(["data/site/index.html: FAILED"]);
  });

  // RFC 8493, 2.1 to 2.2: the declaration's two lines, every payload file in the manifest, Payload-Oxum as octets.streams.
  it("is a bag by RFC 8493", () => {
    expect(read("bagit.txt")).toBe("BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n");
    const payload = filesBelow(join(bag, "data")).map((f) => `data/${f}`);
    expect(read("manifest-sha512.txt").trimEnd().split("\n").map((line) => line.slice(130))).toEqual(payload);
    const octets = payload.reduce((sum, f) => sum + readFileSync(join(bag, f)).length, 0);
    expect(read("bag-info.txt")).toContain(`\nPayload-Oxum: ${octets}.${payload.length}\n`);
    expect(read("bag-info.txt")).toMatch(/\nBagging-Date: \d{4}-\d\d-\d\d\n/);
    expect(filesBelow(bag).filter((f) => !f.startsWith("data/"))).toEqual(["README.txt", "bag-info.txt", "bagit.txt", "manifest-sha512.txt", "tagmanifest-sha512.txt"]);
  });

  it("says what every column of every table is", () => {
    const { resources } = JSON.parse(read("data/datapackage.json")) as { resources: { path: string; bytes: number; schema: { fields: { name: string; title?: string }[] } }[] };
    expect(resources.map((r) => r.path)).toEqual(filesBelow(join(bag, "data")).filter((f) => f.endsWith(".csv") && !f.includes("/reports/")));
    // A laboratory's report is no table of this site's: it lies in both places as it came.
    for (const place of ["site/data", "records/own"]) expect(read(`data/${place}/reports/sheet.csv`)).toBe("Bag;pH\n");
    expect(resources.length).toBeGreaterThan(1);
    for (const { path, bytes, schema } of resources) {
      const text = read(`data/${path}`);
      expect(Buffer.byteLength(text), path).toBe(bytes);
      expect(schema.fields.map((f) => f.name).join(","), path).toBe(text.split("\r\n")[0]);
      expect(schema.fields.filter((f) => f.title === undefined), `${path}: describe it in src/exchange/bundle/dataPackageColumns.ts`).toEqual([]);
    }
  });

  it("keeps its pages from search engines, each with one word on it, and describes itself in a valid home page", async () => {
    const pages = filesBelow(join(bag, "data", "site")).filter((f) => f.endsWith(".html"));
    for (const page of pages) expect(read(`data/site/${page}`).match(/<meta name="robots"[^>]*>/g), page).toEqual(['<meta name="robots" content="noindex">']);
    const home = read("data/site/index.html");
    const { distribution } = JSON.parse(/<script type="application\/ld\+json">(.*?)<\/script>/s.exec(home)![1]!) as { distribution: { contentUrl: string }[] };
    for (const { contentUrl } of distribution) expect(existsSync(join(bag, "data", "site", contentUrl)), contentUrl).toBe(true);
    const head = /^.*?<\/head>/s.exec(home)![0];
    const report = await new HtmlValidate({ extends: ["html-validate:standard"] }).validateString(`${head}<body></body></html>`);
    expect(report.results.flatMap((r) => r.messages.map((m) => `${m.ruleId}: ${m.message}`))).toEqual([]);
  });
});

describe("npm run bundle", { timeout: 240_000 }, () => {
  it("gives the same bytes again from the records it holds, whatever their folder, age, time zone and language; over another file only with --force", async () => {
    const copy = join(home, "a copy");
    cpSync(join(bag, "data", "records", "own"), copy, { recursive: true });
    for (const file of filesBelow(copy)) utimesSync(join(copy, file), 1e9, 1e9);
    writeFileSync(join(copy, "fields", "README.md"), "for people");
    writeFileSync(join(home, "letter.zip"), "keep me");
    const today = /Bagging-Date: (\S+)/.exec(read("bag-info.txt"))![1]!;
    const args = ["--content", "a copy", "--out", "letter.zip", "--today", today];
    const { status, stderr } = await bundle(args);
    expect([status, stderr]).toEqual([1, expect.stringMatching(/is there already and is not a bundle of .*; .*--force$/m)]);
    expect(readFileSync(join(home, "letter.zip"), "utf8")).toBe("keep me");
    expect(ranApart("bundle", [...args, "--force"], { from: home, env: { TZ: "Pacific/Auckland", LANG: "de_DE.UTF-8" } }).status).toBe(0);
    expect(readFileSync(join(home, "letter.zip")).equals(readFileSync(join(home, "farm.zip")))).toBe(true);
  });

  it("replaces an older bundle of the same farm, and not another farm's", async () => {
    // The older one lies where a bundle is written that is given no name.
    const ours = join(home, "crofters-test-2026-01-02.zip");
    cpSync(join(home, "farm.zip"), ours);
    expect((await bundle(["--content", "farm", "--today", "2026-01-02"])).status).toBe(0);
    expect(readFileSync(ours).includes("crofters-test-2026-01-02/")).toBe(true);
    const before = readFileSync(join(home, "farm.zip"));
    const { status, stderr } = await bundle(["--content", "tiny", "--out", "farm.zip"]);
    expect([status, stderr]).toEqual([1, expect.stringMatching(/is there already and is not a bundle of Tiny Farm; .*--force$/m)]);
    expect(readFileSync(join(home, "farm.zip")).equals(before)).toBe(true);
    expect(readdirSync(home).filter((f) => f.includes("unfinished"))).toEqual([]);
  });

  it("leaves the old bundle as it is when a record has an error", async () => {
    const before = readFileSync(join(home, "farm.zip"));
    const farm = join(home, "farm", "farm.yaml");
    const text = readFileSync(farm, "utf8");
    writeFileSync(farm, `${text}colour: red\n`);
    const { status, stderr } = await bundle(["--content", "farm", "--out", "farm.zip"]);
    writeFileSync(farm, text);
    expect([status, stderr]).toEqual([1, expect.stringMatching(/colour: is not a key known here[^]*Nothing was written\./)]);
    expect(readFileSync(join(home, "farm.zip")).equals(before)).toBe(true);
  });

  it.each([
    ["a name that is no zip", ["--out", "bundle.tar"], /must name a file ending in \.zip/],
    ["a place inside the records", ["--out", "tiny/bundle.zip"], /is inside the records/],
    ["a day that is none", ["--today", "2025-02-30"], /must be a calendar day/],
    ["an option that is none", ["--zip"], /Options: --content, --out, --today, --audience, --force, --help/],
  ])("refuses %s in one line", async (_, args, says) => {
    const { status, stderr } = await bundle(["--content", "tiny", ...args]);
    expect(status).toBe(1);
    expect(stderr).toMatch(says);
    expect(stderr.trimEnd().split("\n")).toHaveLength(1);
  });

  it("refuses a folder of that name, which begins with farm where the farm's own has no Latin letter", async () => {
    cpSync(join(home, "tiny"), join(home, "unnamed"), { recursive: true });
    const farm = join(home, "unnamed", "farm.yaml");
    writeFileSync(farm, readFileSync(farm, "utf8").replace("Tiny Farm", "農場"));
    mkdirSync(join(home, "farm-2025-12-01.zip"));
    expect((await bundle(["--content", "unnamed", "--today", "2025-12-01", "--force"])).stderr).toMatch(/farm-2025-12-01\.zip is not a file$/m);
    renameSync(join(home, "farm-2025-12-01.zip"), join(home, "folder"));
  });
});
