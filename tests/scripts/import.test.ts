import { cpSync, mkdirSync, readFileSync, truncateSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { installation } from "../../scripts/options.ts";
import { answeredSampling, awaitingFarm, awaitingSampling, usualFile } from "../support/awaitingFarm.ts";
import { ranApart, ranHere } from "../support/command.ts";
import { FarmFolder, temporaryFolder } from "../support/farmFolder.ts";
import { paths } from "../support/tinyFarm.ts";

/** Run the command in a farm's folder, as a person would. */
const run = (farm: FarmFolder, ...args: string[]) => ranHere("import", [...args, "--content", farm.path], { from: farm.path });
const withFile = (bytes: string | Uint8Array = usualFile): FarmFolder => awaitingFarm().write("results.txt", bytes);
const sampling = (farm: FarmFolder): string => readFileSync(join(farm.path, paths.sampling), "utf8");
const usual = ["results.txt", "--lab", "north-lab"];

const table = `Field  Sampled     Zone  Label    Results now      Added
north  2025-10-18  west  0021     awaited      ->  pH 6.2, bufferPh 6.70, P <3, K 104
north  2025-10-18  east  0022     awaited      ->  pH 6.5, K 128
north  2025-10-18  east  B, east  awaited      ->  pH 6.0, P 21.5, K 96
north  2025-10-18  west  =1+1     awaited      ->  pH 5.9, K >400
11 results for 4 bags in 1 sampling file.
`;

describe("npm run import", { timeout: 60_000 }, () => {
  it("shows what it would write, writes it when told to, and then has nothing to do", async () => {
    const farm = withFile();
    expect(await run(farm, ...usual)).toEqual({ status: 0, stdout: `${table}Nothing was written. The same command with --write writes it.\n`, stderr: "" });
    expect(sampling(farm)).toBe(awaitingSampling);
    expect(await run(farm, ...usual, "--write")).toEqual({ status: 0, stdout: `${table}Written to 1 file: ${paths.sampling}.\n`, stderr: "" });
    expect(sampling(farm)).toBe(answeredSampling);
    expect(await run(farm, ...usual, "--write")).toEqual({ status: 0, stdout: "11 results of the file are in the records already.\nNothing to do.\n", stderr: "" });
    expect(sampling(farm)).toBe(answeredSampling);
    expect(farm.lines()).toEqual([]);
  });

  it("corrects what a sheet that was issued anew says otherwise, and nothing else, where it is told why and when", async () => {
    const farm = withFile();
    await run(farm, ...usual, "--write");
    const anew = usualFile.replace(",104", ",69").replace("6.5,,,128", "6.6,,24,128");
    farm.write("anew.txt", anew);
    const again = ["anew.txt", "--lab", "north-lab"];
    const refused = await run(farm, ...again, "--write");
    expect([refused.status, refused.stderr.match(/or let --correct do so/g)]).toEqual([1, ["or let --correct do so", "or let --correct do so"]]);
    expect(sampling(farm)).toBe(answeredSampling);
    const correct = [...again, "--correct", " the laboratory reissued its sheet ", "--date", "2025-11-03"];
    const shown = `Field  Sampled     Zone  Label  Results now               Added
north  2025-10-18  west  0021   pH, bufferPh, P, K    ->  K 104 corrected to 69
north  2025-10-18  east  0022   pH, K                 ->  P 24, pH 6.5 corrected to 6.6
1 result for 1 bag in 1 sampling file.
2 corrections for 2 bags in 1 sampling file.
9 results of the file are in the records already.
`;
    const plain = (text: string): string => text.replace(/ +/g, " ");
    const first = await run(farm, ...correct);
    expect([first.status, first.stderr, plain(first.stdout)]).toEqual([0, "", plain(`${shown}Nothing was written. The same command with --write writes it.\n`)]);
    expect(sampling(farm)).toBe(answeredSampling);
    expect(plain((await run(farm, ...correct, "--write")).stdout)).toBe(plain(`${shown}Written to 1 file: ${paths.sampling}.\n`));
    expect(sampling(farm)).toBe(
      answeredSampling.replace("      K: 128\n", "      K: 128\n      P: 24\n").replace(
        '      K: { value: 400, qualifier: ">" }\n',
        `      K: { value: 400, qualifier: ">" }
corrections:
  - { composite: "0021", analyte: K, was: 104, now: 69, reason: the laboratory reissued its sheet, date: 2025-11-03 }
  - { composite: "0022", analyte: pH, was: 6.5, now: 6.6, reason: the laboratory reissued its sheet, date: 2025-11-03 }
`,
      ),
    );
    expect(farm.lines()).toEqual([]);
    expect(farm.read().farm!.fields[0]!.samplings.at(-1)!.composites[0]!.measurements.find((m) => m.analyte === "K")).toMatchObject({ value: 69, correction: { was: 104, date: "2025-11-03" } });
    expect((await run(farm, ...correct, "--write")).stdout).toBe("12 results of the file are in the records already.\nNothing to do.\n");
    // The sheet before says what stood there first, and is no mistake.
    expect((await run(farm, ...usual)).stdout).toContain("Nothing to do.");
  });

  it.each([
    ["a day without a reason", ["--date", "2025-11-03"], "--date is the day of corrections; say with --correct why results are corrected\n"],
    ["a reason without a day", ["--correct", "read again"], "--correct also needs --date, the day on which the results were put right\n"],
    ["an empty reason", ["--correct", " ", "--date", "2025-11-03"], '--correct needs a reason, such as "the laboratory reissued its sheet"\n'],
    ["no calendar day", ["--correct", "read again", "--date", "3 November"], '--date must be a calendar day written YYYY-MM-DD, not "3 November"\n'],
  ])("does not correct with %s", async (_, args, stderr) => {
    expect(await run(withFile(), ...usual, ...args)).toEqual({ status: 1, stdout: "", stderr });
  });

  it.each([[], ["--write"]])("writes nothing where a correction may not be of that day, and says so before it is asked to", async (...write: string[]) => {
    const farm = withFile();
    await run(farm, ...usual, "--write");
    farm.write("anew.txt", usualFile.replace(",104", ",69"));
    const { status, stderr } = await run(farm, "anew.txt", "--lab", "north-lab", "--correct", "read again", "--date", "2025-10-17", ...write);
    expect([status, stderr]).toEqual([1, "fields/north/samplings/2025-10-18.yaml:30:83: corrections[1].date: is before the sampling, 2025-10-18\n\nNothing was written. Lines are counted with the change in place.\n"]);
    expect(sampling(farm)).toBe(answeredSampling);
  });

  it("says what is still awaited, and warns without refusing", async () => {
    const farm = withFile("Label,pH\n0021,63\n");
    const { status, stdout, stderr } = await run(farm, ...usual, "--write", "--sampling", "north/2025-10-18");
    expect([status, stderr]).toEqual([0, "results.txt:2:6: pH: warning: 63 is outside what soil shows (3 to 10.5); check the sheet\n"]);
    expect(stdout).toContain("north  2025-10-18  west  0021   awaited      ->  pH 63\n");
    expect(stdout).toContain("1 result for 1 bag in 1 sampling file.\nStill awaited: 0022 (north/2025-10-18), B, east (north/2025-10-18), =1+1 (north/2025-10-18).\n");
  });

  it.each([[], ["--write"]])("says what the records would doubt, before and when it writes: a result far from the others of its zone", async (...write: string[]) => {
    const earlier = (day: string) => `date: ${day}\npurpose: routine\nlab: north-lab\npackage: basic\ndepth: { from: 0, to: 8, unit: in }\ncomposites:\n  - { label: "${day}", zone: west, results: { K: 98 } }\n`;
    const farm = withFile(usualFile.replace("104", "10.4"));
    // Doubted already, and not told again.
    farm.change(paths.season, "{ value: 100, unit: lb/ac }", "{ value: 100, unit: ton/ac }");
    farm.write("fields/north/samplings/2020-10-14.yaml", earlier("2020-10-14")).write("fields/north/samplings/2022-10-14.yaml", earlier("2022-10-14"));
    const { status, stderr } = await run(farm, ...usual, ...write);
    expect(status).toBe(0);
    expect(stderr).toMatch(/^fields\/north\/samplings\/2025-10-18\.yaml:\d+:\d+: composites\[1\]\.results\.K: warning: 10\.4 ppm is far from the other 3 results of this zone, mostly 98 ppm; is it a slip\?\n$/);
  });

  it.each([
    ["a value that is no number", usualFile.replace("128", "a lot"), 'results.txt:3:12: K (ppm): "a lot" is not a number; a word for no result is listed under missing: in the laboratory\'s resultFile\n'],
    ["another encoding", Buffer.from(usualFile.replace("Label", "Étiquette"), "latin1"), "results.txt:1:1: file: is not UTF-8 text from here on; save it as UTF-8, or state the laboratory's encoding, such as windows-1252\n"],
    ["a file that is no text", Buffer.from([0x50, 0x4b, 3, 4, 0, 0]), "results.txt:1:1: file: is a spreadsheet or another packed file, not text; save it as CSV\n"],
  ])("refuses %s and writes nothing", async (_, bytes, message) => {
    const farm = withFile(bytes);
    expect(await run(farm, ...usual, "--write")).toEqual({ status: 1, stdout: "", stderr: `${message}\nNothing was written.\n` });
    expect(sampling(farm)).toBe(awaitingSampling);
  });

  it("refuses a farm that does not read, before it looks at the file", async () => {
    const farm = withFile().change(paths.farm, "currency: USD", "currency: dollars");
    expect(await run(farm, ...usual, "--write")).toEqual({ status: 1, stdout: "", stderr: "farm.yaml:3:11: currency: must be a three-letter ISO 4217 code, such as USD\n\nNothing was written.\n" });
  });

  it("refuses 50 MB by its size, unread, and 5 GB as soon; nothing is written", async () => {
    const farm = withFile();
    for (const [bytes, size] of [[50_000_000, "50.0"], [5_000_000_000, "5000.0"]] as const) {
      truncateSync(join(farm.path, "results.txt"), bytes);
      expect(await run(farm, ...usual, "--write")).toEqual({ status: 1, stdout: "", stderr: `results.txt has ${size} MB; a result file may have at most 5 MB\n` });
    }
    expect(sampling(farm)).toBe(awaitingSampling);
  });

  it.each([
    ["no file", ["--lab", "north-lab"], "give one result file, such as results.csv\n"],
    ["two files", ["a.csv", ...usual], "give one result file, such as results.csv, not 2 files\n"],
    ["no laboratory", ["results.txt"], "say whose file it is with --lab, by the name of the laboratory's file in labs\n"],
    ["a laboratory that is not there", ["results.txt", "--lab", "nort-lab"], 'there is no laboratory "nort-lab"; did you mean north-lab?\n'],
    ["a file that is not there", ["result.txt", "--lab", "north-lab"], "there is no file result.txt\n"],
    ["a folder", ["fields", "--lab", "north-lab"], "fields is not a file\n"],
    ["a field that is not there", [...usual, "--sampling", "nort/2025-10-18"], 'there is no field "nort"; did you mean north?\n'],
    ["a sampling that is not there", [...usual, "--sampling", "north/2025-10-81"], 'field "north" has no sampling "2025-10-81"; did you mean 2025-10-18?\n'],
    ["half a sampling", [...usual, "--sampling", "north"], '--sampling is given as <field>/<day>, such as north/2025-10-18, not "north"\n'],
    ["an option it does not know", [...usual, "--force"], "Unknown option '--force'. Options: --lab, --write, --sampling, --correct, --date, --content, --help\n"],
  ])("is told about %s in one line", async (_, args, message) => {
    expect(await run(withFile(), ...args)).toEqual({ status: 1, stdout: "", stderr: message });
  });

  it("explains itself", async () => {
    const { status, stdout } = await run(withFile(), "--help");
    expect(status).toBe(0);
    for (const option of ["--lab", "--write", "--sampling", "--content", "--help"]) expect(stdout).toContain(`\n  ${option} `);
  });
});

describe("the README's own result file", { timeout: 60_000 }, () => {
  const readme = readFileSync(join(installation, "README.md"), "utf8");
  const section = readme.slice(readme.indexOf("### Bring in a lab's results"), readme.indexOf("### One sample without a farm"));
  const block = (kind: string): string => new RegExp(`\`\`\`${kind}\n(.*?)\`\`\``, "s").exec(section)![1]!;
  const at = "fields/causeway/samplings/2025-10-18.yaml";

  const withoutResults = (text: string): string => text.replace(/^ {4}results:\n(?: {6}.*\n)+/gm, "");

  /** The demo farm before the newest results of its first field had come, with the README's mapping and file. */
  const demo = (): FarmFolder => {
    const path = temporaryFolder();
    for (const part of ["farm.yaml", "references.yaml", "labs", "reports", "fields"]) cpSync(join(installation, "content", part), join(path, part), { recursive: true });
    const lab = join(path, "labs", "fulmar-soil-laboratory.yaml");
    writeFileSync(lab, `${readFileSync(lab, "utf8").replace(/^resultFile:\n(?:[ ].*\n)*/m, "")}${block("yaml")}`);
    const text = readFileSync(join(path, at), "utf8");
    mkdirSync(join(path, ".given"));
    writeFileSync(join(path, ".given", "results.csv"), block("csv"));
    writeFileSync(join(path, at), withoutResults(text).replace("  reportedOn: 2025-10-28\n", "").replace('number: "F25-10418", ', ""));
    return new FarmFolder(path);
  };

  it("is shown and written as the README says", async () => {
    const farm = demo();
    const before = readFileSync(join(farm.path, at), "utf8");
    const args = [join(".given", "results.csv"), "--lab", "fulmar-soil-laboratory"];
    expect(ranApart("import", [...args, "--content", "."], { from: farm.path })).toEqual({ status: 0, stdout: block("text"), stderr: "" });
    expect((await run(farm, ...args, "--write")).status).toBe(0);
    const after = readFileSync(join(farm.path, at), "utf8");
    expect(withoutResults(after)).toBe(before.replace(/( {2}receivedOn: .*\n)/, "$1  reportedOn: 2025-10-28\n").replace("2025-10-28.csv }", '2025-10-28.csv, number: "F25-10418" }'));
    expect(after).toContain('      P: { value: 3, qualifier: "<" }\n      K: 92\n      organicMatter: 1.8\n');
    expect((await run(farm, ...args, "--write")).stdout).toMatch(/\nNothing to do\.\n$/);
  });

  it("gives the day as the README writes it", async () => {
    const farm = demo();
    farm.write(".given/results.csv", block("csv").replace("6,5;", "acid;"));
    expect((await run(farm, join(".given", "results.csv"), "--lab", "fulmar-soil-laboratory")).stderr).toBe(`${join(".given", "results.csv")}:3:44: pH: "acid" is not a number; a word for no result is listed under missing: in the laboratory's resultFile\n\nNothing was written.\n`);
  });
});
