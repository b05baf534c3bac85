import { mkdirSync, readdirSync, renameSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { pdfName, printedPages } from "../../scripts/pdfPages.ts";
import { ranApart, ranHere } from "../support/command.ts";
import { farmFolder, temporaryFolder } from "../support/farmFolder.ts";
import { paths, tinyFarm } from "../support/tinyFarm.ts";

const pdf = (home: string, args: string[], browser: string) => ranHere("pdf", args, { from: home, env: { CHROMIUM_PATH: browser } });

describe("npm run pdf", () => {
  it("says in one sentence what to install when there is no Chromium, and writes nothing", async () => {
    const home = temporaryFolder();
    const { status, stdout, stderr } = await pdf(home, [], join(home, "no-browser"));
    expect([status, stdout, stderr]).toEqual([1, "", "Printing needs Chromium: install it (Debian: apt-get install chromium) or set CHROMIUM_PATH to its program.\n"]);
    expect(readdirSync(home)).toEqual([]);
  });

  it("does not begin with a program that is no Chromium", async () => {
    const home = temporaryFolder();
    const { status, stdout, stderr } = await pdf(home, ["--content", farmFolder().path], process.execPath);
    expect([status, stdout]).toEqual([1, ""]);
    expect(stderr).toMatch(/^\S+ did not start as Chromium does \(.+\); set CHROMIUM_PATH to Chromium's program\n$/);
    expect(readdirSync(home)).toEqual([]);
    // A folder is no program, though it may be entered.
    expect((await pdf(home, [], home)).stderr).toMatch(/^Printing needs Chromium/);
  });

  it("says so where no folder can be made to work in, and leaves none where the browser does not start", { timeout: 120_000 }, () => {
    const home = temporaryFolder();
    const apart = (temporary: string) => ranApart("pdf", ["--content", farmFolder().path, "--out", join(home, "pdf")], { env: { CHROMIUM_PATH: process.execPath, TMPDIR: temporary } });
    const { status, stderr } = apart(join(home, "nowhere"));
    expect([status, stderr]).toEqual([1, `${join(home, "nowhere", "field-history-pdf-XXXXXX")} could not be read or written: no folder can be made there. Nothing was left half-written.\n`]);
    expect(apart(home).stderr).toMatch(/did not start as Chromium does/);
    expect(readdirSync(home)).toEqual([]);
  });

  it.each([
    ["a sheet it does not know", ["--paper", "A5"], /--paper must be A4 or Letter, not "A5"/],
    ["a day that is none", ["--today", "2025-02-30"], /must be a calendar day/],
    ["an option that is none", ["--pages"], /Options: --content, --out, --paper, --today, --audience, --help/],
    ["a folder of other files", ["--out", "."], /holds files that are not PDF files/],
    ["no folder", ["--out", ""], /^--out needs a folder$/m],
    ["a file", ["--out", "letter.txt"], /is not a folder/],
  ])("refuses %s in one line", async (_, args, says) => {
    const home = temporaryFolder();
    writeFileSync(join(home, "letter.txt"), "keep me");
    const { status, stderr } = await pdf(home, args, process.execPath);
    expect(status).toBe(1);
    expect(stderr).toMatch(says);
    expect(stderr.trimEnd().split("\n")).toHaveLength(1);
    expect(readdirSync(home)).toEqual(["letter.txt"]);
  });
});

describe("the folder of an earlier printing", () => {
  const printed = (home: string, ...names: string[]): void => {
    mkdirSync(join(home, "pdf"));
    for (const name of names) writeFileSync(join(home, "pdf", name), "printed");
  };

  it("may hold what a killed printing has left, and what a computer leaves in a folder that was looked at", async () => {
    const home = temporaryFolder();
    printed(home, "index.pdf", ".fields_north.pdf.unfinished-4711", ".DS_Store");
    const farm = farmFolder().change(paths.farm, "currency: USD", "currency: dollars");
    // The folder is judged before the records are.
    expect((await pdf(home, ["--content", farm.path], process.execPath)).stderr).toContain("farm.yaml:3:11: currency: must be");
  });

  it("is another one for a reader than for the owner", async () => {
    const home = temporaryFolder();
    printed(home, "notes.txt");
    const forReader = async () => (await pdf(home, ["--audience", "landlord", "--content", farmFolder().path], process.execPath)).stderr;
    expect(await forReader()).toBe('--audience "landlord" is not in farm.yaml; it names no audience yet\n');
    renameSync(join(home, "pdf"), join(home, "pdf-for-landlord"));
    expect(await forReader()).toBe(`--out ${join(home, "pdf-for-landlord")} holds files that are not PDF files; choose an empty or new folder\n`);
  });

  it("is not taken for a reader where it holds a page that he is not shown", async () => {
    const farm = farmFolder().write(paths.farm, `${tinyFarm[paths.farm]!}audiences:\n  landlord: { name: the landlord, leaveOut: [positions] }\n`);
    const home = temporaryFolder();
    printed(home, "index.pdf", ".index.pdf.unfinished-4711", "fields_north_plan.pdf");
    const { status, stderr } = await pdf(home, ["--content", farm.path, "--audience", "landlord", "--out", "pdf"], process.execPath);
    expect([status, stderr]).toEqual([1, `--out ${join(home, "pdf")} holds fields_north_plan.pdf, which is none of the files for landlord; choose an empty or new folder\n`]);
  });
});

describe("which pages are printed", () => {
  const site = ["assets/site.css", "checks.html", "checks/bands.html", "compare.html", "data/north-results.csv", "fields-by-need.html", "fields-by-oldest-test-2.html", "fields.html", "fields/north.html", "fields/north/plan.html", "fields/north/samplings/2025-10-18.html", "fields/north/timeline.html", "guidelines/small.html", "index.html", "methods.html", "references.html", "search.html", "seasons/2026.html"];

  it("the farm, its fields and what is worked out of them, by names that hold no folder", () =>
    expect(printedPages(site).map(pdfName)).toEqual(["fields_north.pdf", "fields_north_plan.pdf", "fields_north_timeline.pdf", "index.pdf", "seasons_2026.pdf"]));

  it("a field with a telling id keeps its own name", () =>
    expect(new Set(["fields/north-timeline.html", "fields/north/timeline.html", "fields/guidelines.html"].map(pdfName)).size).toBe(3));
});
