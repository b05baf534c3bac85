import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { installation } from "../../../scripts/options.ts";
import { allPaths } from "../../../src/views/site/routes.ts";
import { readFarm } from "../../../src/records/reading/readFarm.ts";
import { searchIndex } from "../../../src/views/search/searchIndex.ts";
import { fieldCsv } from "../../../src/views/results/rows.ts";
import { reportLink } from "../../../src/views/sampling/reports.ts";
import { samplingFacts } from "../../../src/views/sampling/samplingFacts.ts";
import { ranHere } from "../../support/command.ts";
import { farmFolder } from "../../support/farmFolder.ts";
import { paths } from "../../support/tinyFarm.ts";

/** The first bytes of each kind: ISO 32000-1, 7.5.2; ISO/IEC 15948, 5.2; ISO/IEC 10918-1, B.1.1.3 (start of image, and the marker after it). */
const files: Readonly<Record<string, Uint8Array>> = {
  pdf: Buffer.from("%PDF-1.7\n"),
  png: Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
  jpg: Buffer.from([0xff, 0xd8, 0xff, 0xe0]),
  csv: Buffer.from("Bag,pH\n0021,6.2\n"),
};
const naming = (report: string, name = "a.pdf", bytes = files["pdf"]!) => farmFolder().change(paths.sampling, "composites:", `report: ${report}\ncomposites:`).write(`reports/${name}`, bytes);

describe("a laboratory's report in the farm's folder", () => {
  it("is read in each kind that a browser shows, whatever the case of its ending", () => {
    for (const [ending, bytes] of Object.entries({ ...files, JPEG: files["jpg"]!, Pdf: files["pdf"]! })) {
      const { farm, problems } = naming(`{ file: "Report_7.a-1.${ending}" }`, `Report_7.a-1.${ending}`, bytes).read();
      expect(problems, ending).toEqual([]);
      expect([...farm!.reports].map(([name, { bytes: size }]) => [name, size]), ending).toEqual([[`Report_7.a-1.${ending}`, bytes.length]]);
    }
  });

  // ISO 32000-1, appendix H.3: a reader accepts the header anywhere within the first 1,024 bytes.
  it("may be a PDF with lines before its header, as far as readers look for it", () => {
    const after = (before: number): string[] => naming("{ file: a.pdf }", "a.pdf", Buffer.concat([Buffer.alloc(before, " "), files["pdf"]!])).lines();
    expect(after(1019)).toEqual([]);
    expect(after(1020)).toEqual([expect.stringMatching(/^reports\/a\.pdf:1:1: file: does not begin as a PDF file does; keep the file/)]);
  });

  it.each([
    ["another kind of file", "a.html", Buffer.from("<!doctype html>"), "is not a record known here; allowed: a report ending in .pdf, .png, .jpg, .jpeg or .csv, its name in letters without accents, digits, hyphens, dots and underscores"],
    ["a name with a space", "my sheet.pdf", files["pdf"]!, "is not a record known here; allowed: a report ending in .pdf, .png, .jpg, .jpeg or .csv, its name in letters without accents, digits, hyphens, dots and underscores"],
    ["a name longer than a sampling may say", `${"a".repeat(97)}.pdf`, files["pdf"]!, "is not a record known here; allowed: a report ending in .pdf, .png, .jpg, .jpeg or .csv, its name in letters without accents, digits, hyphens, dots and underscores"],
    ["a page that is called a PDF", "b.pdf", Buffer.from("<!doctype html>"), "does not begin as a PDF file does; keep the file as the laboratory sent it, with its own ending"],
    ["a PNG that is called a JPG", "b.jpg", files["png"]!, "does not begin as a JPG file does; keep the file as the laboratory sent it, with its own ending"],
    ["a PDF that is called a PNG", "b.png", files["pdf"]!, "does not begin as a PNG file does; keep the file as the laboratory sent it, with its own ending"],
    ["a file of nothing", "b.pdf", Buffer.alloc(0), "does not begin as a PDF file does; keep the file as the laboratory sent it, with its own ending"],
    ["a file beyond 20 MB", "b.pdf", Buffer.concat([files["pdf"]!, Buffer.alloc(19_999_992)]), "is larger than 20 MB, too large for a report; scan it in fewer colors or dots"],
  ])("is refused: %s", (_, name, bytes, why) => {
    const { farm, problems } = farmFolder().write(`reports/${name}`, bytes).read();
    expect(farm).toBeUndefined();
    expect(problems.map(({ file, message }) => [file, message])).toEqual([[`reports/${name}`, why]]);
  });

  it("may be as large as 20 MB", () => {
    expect(naming("{ file: a.pdf }", "a.pdf", Buffer.concat([files["pdf"]!, Buffer.alloc(19_999_991)])).lines()).toEqual([]);
  });

  it("has an address of its own on a disk that knows no capitals", () => {
    expect(naming("{ file: a.pdf }").write("reports/A.pdf", files["pdf"]!).lines()[0]).toBe("reports/a.pdf:1:1: file: has the same address as reports/A.pdf; keep one");
  });

  it("is a file within the farm's folder", () => {
    expect(farmFolder().folder("reports").link("reports/a.pdf", "/etc/hostname").lines()[0]).toBe("reports/a.pdf:1:1: file: is a link that leaves the folder of records");
    expect(farmFolder().folder("reports").link("reports/a.csv", "../farm.yaml").lines()[0]).toBe("reports/a.csv:1:1: file: is a link; put the file itself here");
    expect(farmFolder().folder("reports/a.pdf").lines()[0]).toBe("reports/a.pdf:1:1: file: must be a file");
    // It lies there, so that the sampling that names it is not told that it does not.
    expect(farmFolder().change(paths.sampling, "composites:", "report: { file: a.csv }\ncomposites:").folder("reports").link("reports/a.csv", "../farm.yaml").lines()).toEqual(["reports/a.csv:1:1: file: is a link; put the file itself here"]);
  });

  it("that no sampling names is shown nowhere, and that is told", () => {
    const { farm, problems } = farmFolder().write("reports/a.pdf", files["pdf"]!).read();
    expect(farm).toBeDefined();
    expect(problems.map((p) => [p.severity, p.file, p.message])).toEqual([["warning", "reports/a.pdf", 'is named by no sampling; its file says report: { file: "a.pdf" }']]);
  });
});

describe("a sampling's report", () => {
  it.each([
    ["a file that is not there", "{ file: b.pdf }", `${paths.sampling}:7:17: report.file: "b.pdf" is no file in the farm's reports folder; did you mean a.pdf?`],
    ["nothing at all", "{}", `${paths.sampling}:7:9: report: needs number, file or both`],
    ["a number without quotes", "{ number: 7 }", `${paths.sampling}:7:19: report.number: `],
  ])("is refused: %s", (_, report, line) => {
    expect(naming(report).lines()[0]).toContain(line);
  });

  it("is refused where the folder is missing", () => {
    expect(farmFolder().change(paths.sampling, "composites:", "report: { file: ../a.pdf }\ncomposites:").lines()[0]).toBe(`${paths.sampling}:7:17: report.file: "../a.pdf" is no file in the farm's reports folder; it holds none`);
  });

  it("is told by number, and lies in the site where the owner says so alone", () => {
    const shown = (extra: string, report = '{ number: "F-7", file: a.pdf }') => {
      const folder = naming(report);
      const { farm } = folder.change("farm.yaml", "currency: USD", `currency: USD\n${extra}`).read();
      const sampling = farm!.fields[0]!.samplings.at(-1)!;
      return { facts: samplingFacts(farm!, sampling).filter((f) => f.term === "Laboratory's report").map((f) => f.value), link: reportLink(farm!, sampling), laid: [...allPaths(farm!).keys()].filter((p) => p.startsWith("data/reports/")), csv: fieldCsv(farm!.fields[0]!, "us") };
    };
    expect(shown("publish: { reports: true }")).toMatchObject({ facts: ["F-7"], link: { path: "data/reports/a.pdf", words: "The laboratory's report as it came (PDF, 9 bytes)" }, laid: ["data/reports/a.pdf"] });
    expect(shown("publish: { location: true }")).toMatchObject({ facts: ["F-7, kept as reports/a.pdf"], link: undefined, laid: [] });
    expect(shown("publish: { reports: true }", "{ file: a.pdf }")).toMatchObject({ facts: [], laid: ["data/reports/a.pdf"] });
    const lines = shown("").csv.split("\r\n");
    expect(lines[0]).toMatch(/,correction_date,report,record$/);
    expect(lines.filter((line) => line.includes(",F-7,"))).toHaveLength(lines.filter((line) => line.includes(",2025-10-18,")).length);
  });
});

describe("the demo's report", () => {
  it("says what the records say: brought in anew, it finds nothing to do", async () => {
    const content = join(installation, "content");
    const { farm } = readFarm({ content });
    const [name] = [...farm!.reports.keys()];
    const named = farm!.fields.flatMap((f) => f.samplings.filter((s) => s.report?.file === name));
    expect(named.length).toBeGreaterThan(1);
    // It is found by the number that stands on the paper.
    expect(JSON.stringify(searchIndex(farm!).things)).toContain(`report ${named[0]!.report!.number}`);
    const results = named.flatMap((s) => s.composites.flatMap((c) => c.measurements)).length;
    expect(await ranHere("import", [join(content, "reports", name!), "--lab", "fulmar-soil-laboratory", "--content", content])).toEqual({ status: 0, stdout: `${results} results of the file are in the records already.\nNothing to do.\n`, stderr: "" });
  });
});
