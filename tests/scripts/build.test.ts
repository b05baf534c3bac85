import { cpSync, existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { filesBelow } from "../../scripts/checkLinks.ts";
import { installation } from "../../scripts/options.ts";
import { type Ran, ranHere, ranOn } from "../support/command.ts";
import { mergedFarm } from "../support/mergedFarm.ts";

let home: string;
let content: string;
beforeAll(async () => {
  home = mkdtempSync(join(tmpdir(), "field-history-build-"));
  content = join(home, "farm");
  cpSync(join(installation, "tests", "golden", "farm"), content, { recursive: true });
  expect((await build(["--content", "farm", "--out", "site"])).status).toBe(0);
}, 120_000);
afterAll(() => rmSync(home, { recursive: true, force: true }));

const build = (args: string[]): Promise<Ran> => ranOn("build", args, { from: home });

describe("npm run build", { timeout: 60_000 }, () => {
  // In another time zone and language, in a process of its own, as a bundle: `bundle.test.ts`. Started apart: `handover.test.ts`.
  it("writes the same bytes twice, whatever the folder, also from the environment", async () => {
    expect((await ranOn("build", [], { from: home, env: { FIELD_CONTENT: content, FIELD_OUT: join(home, "two words") } })).status).toBe(0);
    const [one, two] = [join(home, "site"), join(home, "two words")];
    expect(filesBelow(two)).toEqual(filesBelow(one));
    for (const file of filesBelow(one)) expect(readFileSync(join(two, file), "utf8"), file).toBe(readFileSync(join(one, file), "utf8"));
    rmSync(two, { recursive: true });
  });

  it("replaces an older site as a whole, speaks from the day it is given, and leaves nothing beside it", async () => {
    const site = join(home, "older");
    cpSync(join(home, "site"), site, { recursive: true });
    writeFileSync(join(site, "stale.html"), "an old page");
    const before = readdirSync(home);
    expect((await build(["--content", "farm", "--out", "older", "--today", "2031-05-02"])).status).toBe(0);
    expect(existsSync(join(site, "stale.html"))).toBe(false);
    expect(readFileSync(join(site, "index.html"), "utf8")).toContain("2 May 2031");
    expect(readdirSync(home)).toEqual(before);
    rmSync(site, { recursive: true });
  });

  it("replaces no older site beside which something else stands", async () => {
    const site = join(home, "shared");
    mkdirSync(join(site, "fields"), { recursive: true });
    writeFileSync(join(site, "index.html"), '<meta name="generator" content="field-history">');
    for (const name of [".DS_Store", ".git", "photos"]) writeFileSync(join(site, name), "mine");
    const refused = async (): Promise<string> => (await ranHere("build", ["--content", "farm", "--out", "shared"], { from: home })).stderr;
    const said = (name: string): string => `--out ${site} holds ${name} beside an older site, and the folder is replaced as a whole; move it away, or choose another folder\n`;
    expect(await refused()).toBe(said(".git"));
    rmSync(join(site, ".git"));
    expect(await refused()).toBe(said("photos"));
    expect(readFileSync(join(site, "photos"), "utf8")).toBe("mine");
    rmSync(site, { recursive: true });
  });

  it("writes a field whose zones were merged: pages for each time, and every link leads somewhere", async () => {
    expect(await build(["--content", mergedFarm().path, "--out", "merged"])).toMatchObject({ status: 0, stderr: "" });
    const read = (page: string): string => readFileSync(join(home, "merged", "fields", `north${page}.html`), "utf8");
    expect(read("")).toContain("West end and East end were merged into Long piece, on 1 October 2023.");
    expect(read("/maps-2")).toContain("routine samplings, 2019 to 2021");
    expect(read("/timeline")).toContain("were merged into Long piece");
    rmSync(join(home, "merged"), { recursive: true });
  });

  it("leaves the old site as it is when a record has an error, and says where", async () => {
    const before = readFileSync(join(home, "site", "index.html"), "utf8");
    const farm = readFileSync(join(content, "farm.yaml"), "utf8");
    writeFileSync(join(content, "farm.yaml"), `${farm}colour: red\n`);
    const { status, stderr } = await build(["--content", "farm", "--out", "site"]);
    writeFileSync(join(content, "farm.yaml"), farm);
    expect(status).toBe(1);
    expect(stderr).toMatch(/^farm\.yaml:\d+:1: colour: is not a key known here/m);
    expect(stderr).toContain("Nothing was written.");
    expect(stderr).not.toContain("    at ");
    expect(readFileSync(join(home, "site", "index.html"), "utf8")).toBe(before);
  });

  it.each([
    ["the records", "farm"],
    ["a folder that holds the records", "."],
    ["a folder inside the records", "farm/site"],
    ["a folder of other files", "other"],
    ["a file", "file.txt"],
  ])("refuses to write to %s", async (_, out) => {
    mkdirSync(join(home, "other"), { recursive: true });
    writeFileSync(join(home, "other", "letter.txt"), "keep me");
    writeFileSync(join(home, "file.txt"), "keep me");
    const before = filesBelow(home);
    const { status, stderr } = await ranHere("build", ["--content", "farm", "--out", out], { from: home });
    expect(status).toBe(1);
    expect(stderr).toMatch(/^--out .*choose|is not a folder$/m);
    expect(stderr).not.toContain("    at ");
    expect(filesBelow(home)).toEqual(before);
  });
});
