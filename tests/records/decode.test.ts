import { describe, expect, it } from "vitest";
import { farmFolder } from "../support/farmFolder.ts";
import { paths, tinyFarm } from "../support/tinyFarm.ts";

const { sampling } = paths;
const whole = tinyFarm[sampling]!;
const linesOf = (bytes: string | Uint8Array): string[] => farmFolder().write(sampling, bytes).lines();
const notPlain = "so it is not plain text; save it as UTF-8";

describe("a file that is not plain text is refused at its line", () => {
  it.each<[string, Uint8Array, string]>([
    ["Latin-1", Buffer.from(whole.replace("The sheet", "Müller"), "latin1"), "25:1: file: is not UTF-8 text; save it as UTF-8"],
    ["UTF-16 with a mark", Buffer.from(`\ufeff${whole}`, "utf16le"), "1:1: file: is not UTF-8 text; save it as UTF-8"],
    ["UTF-16 without one", Buffer.from(whole, "utf16le"), `1:2: file: has a control character (U+0000), ${notPlain}`],
    ["a character cut in half", Buffer.concat([Buffer.from(whole), Buffer.from([0xe2, 0x82])]), "27:1: file: is not UTF-8 text; save it as UTF-8"],
    ["a zero byte", Buffer.from(whole.replace("The sheet", "The\0sheet")), `25:16: file: has a control character (U+0000), ${notPlain}`],
    ["a bell", Buffer.from(whole.replace("The sheet", "The\u0007sheet")), `25:16: file: has a control character (U+0007), ${notPlain}`],
    ["a byte order mark inside", Buffer.from(whole.replace("The sheet", "The\ufeffsheet")), `25:16: file: has a control character (U+FEFF), ${notPlain}`],
    ["a mark that turns the writing", Buffer.from(whole.replace("The sheet", "The\u202esheet")), "25:16: file: has a mark that turns the direction of writing (U+202E); leave it out"],
    ["the last of such marks", Buffer.from(whole.replace("The sheet", "The\u2069sheet")), "25:16: file: has a mark that turns the direction of writing (U+2069); leave it out"],
    [
      "lines that end in a carriage return alone",
      Buffer.from(whole.replaceAll("\n", "\r")),
      "1:17: file: has a carriage return without a line feed; save it with LF or CRLF line ends",
    ],
  ])("%s", (_, bytes, line) => {
    expect(linesOf(bytes)).toEqual([`${sampling}:${line}`]);
  });

  // Git's marks of a conflict, "How conflicts are presented" in git-merge(1): seven signs at the beginning of a line.
  const conflict = "<<<<<<< HEAD\n      K: 104\n=======\n      K: 140\n>>>>>>> from-the-adviser\n";
  const unmerged = "is between two versions that git could not merge: keep one of the two, and take the lines with <<<<<<<, ======= and >>>>>>> out";
  it.each([
    ["where it begins", whole.replace("      K: 104\n", conflict), 14],
    ["with Windows line ends", whole.replace("      K: 104\n", conflict).replaceAll("\n", "\r\n"), 14],
    ["where only its end was left", whole.replace("      K: 104\n", "      K: 104\n>>>>>>> from-the-adviser\n"), 15],
  ])("a conflict of two versions is told once, %s", (_, text, line) => {
    expect(linesOf(text)).toEqual([`${sampling}:${line}:1: file: ${unmerged}`]);
  });

  it("a conflict in the zones is told as well; signs within a text are none", () => {
    const { zones } = paths;
    expect(farmFolder().change(zones, '    { "type"', '<<<<<<< HEAD\n    { "type"').lines()).toEqual([`${zones}:4:1: file: ${unmerged}`]);
    expect(linesOf(whole.replace("The sheet says 138.", '"a <<<<<<< b"'))).toEqual([]);
  });

  it("more than a megabyte", () => {
    expect(linesOf(`${whole}#${"x".repeat(1_000_000)}`)).toEqual([`${sampling}:1:1: file: is larger than 1 MB, too large for a record`]);
  });
});

describe("ways of saving text that make no difference", () => {
  const slip = whole.replace("K: 104", "K: 10-4");
  const line = `${sampling}:14:10: composites[1].results.K: must be a number or { value, qualifier }, not the text "10-4"`;

  it("a byte order mark is accepted", () => {
    expect(linesOf(`\ufeff${whole}`)).toEqual([]);
  });

  it("and moves no column", () => {
    expect(linesOf(`\ufeff${whole.replace("date:", "dte:")}`)).toContain(`${sampling}:1:1: dte: is not a key known here; did you mean date?`);
  });

  it("Windows line ends are accepted", () => {
    expect(linesOf(whole.replaceAll("\n", "\r\n"))).toEqual([]);
  });

  it("and move no line or column", () => {
    expect(linesOf(slip)).toEqual([line]);
    expect(linesOf(slip.replaceAll("\n", "\r\n"))).toEqual([line]);
  });
});
