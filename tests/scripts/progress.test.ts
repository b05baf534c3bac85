import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { progressLine, showProgress, summary } from "../../scripts/progress.ts";
import { temporaryFolder } from "../support/farmFolder.ts";

describe("the line of a running build", () => {
  it.each([
    [{ done: 0, total: 96, seconds: 0.2 }, 80, "Writing the site: 0 of 96 files, 0 s"],
    [{ done: 812, total: 2206, seconds: 14.9 }, 80, "Writing the site: 812 of 2,206 files, 14 s"],
    [{ done: 1_234_567, total: 1_234_567, seconds: 3600 }, 80, "Writing the site: 1,234,567 of 1,234,567 files, 3600 s"],
    [{ done: 812, total: 2206, seconds: 14 }, 20, "Writing the site: 81"],
    [{ done: 812, total: 2206, seconds: 14 }, 0, ""],
  ])("%j in %i columns", (rendered, width, line) => expect(progressLine(rendered, width)).toBe(line));
});

describe("the summary", () => {
  const built = { farm: "Skerry Farm", fields: 4, samplings: 23, warnings: 0, files: 102, seconds: 5.26, folder: "/home/site", first: "/home/site/index.html" };

  it("says how much, how long, where, and how to open it", () =>
    expect(summary(built)).toBe("Skerry Farm: 4 fields, 23 samplings, no warnings.\n102 files in 5.3 s, in /home/site\nOpen /home/site/index.html with any browser."));

  it("counts one as one, and thousands readably", () =>
    expect(summary({ ...built, fields: 1, samplings: 1, warnings: 1, files: 2206 }).split("\n").slice(0, 2)).toEqual(["Skerry Farm: 1 field, 1 sampling, 1 warning.", "2,206 files in 5.3 s, in /home/site"]));
});

describe("where the line is shown", () => {
  const stream = (isTTY: boolean) => {
    const written: string[] = [];
    return { written, it: { isTTY, columns: 60, write: (text: string) => written.push(text) > 0 } as unknown as NodeJS.WriteStream };
  };

  const planned = new Map(["index.html", "fields/north.html", "fields/south.html"].map((path) => [path, "a record"]));

  it("on a terminal: in place, counting the farm's files at any depth, and cleared at the end", () => {
    const folder = temporaryFolder();
    mkdirSync(join(folder, "fields"));
    writeFileSync(join(folder, "index.html"), "");
    writeFileSync(join(folder, "fields", "north.html"), "");
    writeFileSync(join(folder, "renderer.mjs"), "");
    const { written, it: terminal } = stream(true);
    showProgress(folder, planned, terminal, {})();
    expect(written).toEqual(["\r\u001b[2KWriting the site: 2 of 3 files, 0 s", "\r\u001b[2K"]);
  });

  it("before the folder is there, as nothing yet", () => {
    const { written, it: terminal } = stream(true);
    showProgress(join(temporaryFolder(), "later"), planned, terminal, {})();
    expect(written[0]).toContain("0 of 3 files");
  });

  it.each([
    ["no terminal", false, {}],
    ["a CI", true, { CI: "true" }],
    ["a terminal that cannot go back", true, { TERM: "dumb" }],
  ])("never on %s", (_, isTTY, env) => {
    const { written, it: silent } = stream(isTTY);
    showProgress(temporaryFolder(), planned, silent, env)();
    expect(written).toEqual([]);
  });
});
