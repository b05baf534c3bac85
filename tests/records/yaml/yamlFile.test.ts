import { describe, expect, it } from "vitest";
import { farmFolder, linesAfter } from "../../support/farmFolder.ts";
import { paths, tinyFarm } from "../../support/tinyFarm.ts";

const { sampling } = paths;
const whole = tinyFarm[sampling]!;
const linesOf = (text: string | Uint8Array): string[] => farmFolder().write(sampling, text).lines();

describe("a slip of YAML is told at its place", () => {
  it.each([
    ["a key twice", "      K: 104", "      K: 104\n      K: 105", "15:7: file: the key K stands twice in one block; keep one"],
    ["a tab", "      K: 104", "\tK: 104", "14:1: file: a tab cannot indent; use spaces"],
    ["a tab before the first entry of a list, and not again further down", '  - label: "0021"', '\t- label: "0021"', "8:1: file: a tab cannot indent; use spaces"],
    ["an odd indent", "      K: 104", "     K: 104", "14:1: file: this line is indented differently from its neighbors"],
    ["two records", "purpose: routine", "purpose: routine\n---\nlab: x", "3:1: file: holds more than one document (---); one record a file"],
    ["no colon", "purpose: routine", "purpose routine", "2:1: file: this line is no key and value; is a colon missing, or the space after it?"],
    ["no space after a colon", "purpose: routine", "purpose:routine", "2:1: file: this line is no key and value; is a colon missing, or the space after it?"],
    ["a second colon", "purpose: routine", "purpose: a: b", "2:10: file: a second colon on one line, or a line below that is indented too far; put text that holds a colon in quotes"],
    ["a line indented too far", "purpose: routine", "  purpose: routine", "1:7: file: a second colon on one line, or a line below that is indented too far; put text that holds a colon in quotes"],
    ["a line indented like nothing above it", "    zone: west", "   zone: west", "9:1: file: this line is indented neither as an entry of the list above it nor as a part of one"],
    ["a decimal comma between { and }", "results:\n      pH: 6.2\n      bufferPh: 6.7\n      P: { value: 3, qualifier: \"<\" }\n      K: 104", "results: { pH: 6,2 }", "10:22: composites[1].results.2: is not a key known here; if the comma before it is a decimal comma, write a point"],
    ["a text with a comma between { and }", "depth: { from: 0, to: 8, unit: in }", "depth: { from: 0, to: 8, unit: in, the plow layer }", "5:36: depth.the plow layer: is not a key known here; if it is the rest of the text before it, put that text in quotes: within { } a comma ends it"],
    ["no colon between two lines of a block", "K: 104", "K = 104", "14:7: file: this line is no key and value; is a colon missing, or the space after it?"],
    ["a comma left out", "from: 0, to", "from: 0 to", "5:16: file: a comma is missing between two keys of one block"],
    ["a comma twice", "from: 0,", "from: 0,,", "5:18: file: a comma too many"],
    ["a bracket twice", "unit: in }", "unit: in }}", "5:36: file: a } that closes nothing"],
    ["words after a quoted one", "The sheet says 138.", "'The sheet' says 138.", '25:25: file: something follows a text in quotes or a list that has ended; put the whole of it in " quotes'],
    ["an apostrophe in quotes", "The sheet says 138.", "'It's 138.'", '25:17: file: something follows a text in quotes or a list that has ended; put the whole of it in " quotes'],
    ["a colon in curly quotes", "The sheet says 138.", "“Sheet: 138”", '25:13: file: curly quotes do not hold a text together; put it in " quotes'],
    ["a hyphen for a result", "K: 104", "K: -", "14:10: file: a value cannot begin with a hyphen and a space; put text in quotes, and a list on the lines below"],
    ["no space after a list's hyphen", '- label: "0022"', '-label: "0022"', "15:1: file: an entry of a list begins with a hyphen and a space"],
    ["a bullet for a hyphen", '- label: "0022"', '• label: "0022"', "15:1: file: an entry of a list begins with a hyphen and a space"],
    ["a list's hyphen left out", '  - label: "0022"', '    label: "0022"', "15:5: file: the keys label, zone, results stand twice in one entry; is the hyphen of the next one missing?"],
    ["a blank of a web page", "zone: west", "zone:\u00a0west", "9:5: file: this line cannot be read; a blank in it is no plain space, as on web pages; type it anew"],
    ["such a blank that indents", "    zone: west", "\u00a0   zone: west", "9:11: file: this line cannot be read; a blank in it is no plain space, as on web pages; type it anew"],
    ["hyphens at keys, not at entries", "      pH: 6.2", "      - pH: 6.2", "12:1: file: this line is indented differently from its neighbors"],
    ["keys indented no further than their block", "      pH: 6.2", "    pH: 6.2", "11:9: file: a second colon on one line, or a line below that is indented too far; put text that holds a colon in quotes"],
    ["text that begins oddly", "purpose: routine", "purpose: @routine", "2:10: file: text cannot begin with @; put it in quotes"],
    ["a list left open", "composites:", "handled: [a\ncomposites:", "8:1: file: a list opened with [ is not closed with ], or a line in it is not indented"],
    ["a block left open", "unit: in }", "unit: in", "6:1: file: a block opened with { is not closed with }, or a line in it is not indented"],
    ["an upper bound", "K: 104", "K: >250", '14:12: file: a value cannot begin with > or |; write a bound as { value: 3, qualifier: ">" } and put text in quotes'],
    ["an upper bound with a space", "K: 104", "K: > 250", '14:12: file: a value cannot begin with > or |; write a bound as { value: 3, qualifier: ">" } and put text in quotes'],
    ["an alias", "K: 104", "K: *x", "14:10: file: anchors (&) and aliases (*) are not allowed in a record; write the value out"],
    ["an anchor", "K: 104", "K: &x 104", "14:13: file: anchors (&) and aliases (*) are not allowed in a record; write the value out"],
    ["a tag", "K: 104", "K: !big 104", "14:10: file: tags (!) are not allowed in a record; write the plain value"],
    ["a tag that every reader knows", "K: 104", "K: !!int 104", "14:16: file: tags (!) are not allowed in a record; write the plain value"],
    ["a tag that makes a day of a text", "date: 2025-10-18", "date: !!timestamp 2025-10-18", "1:19: file: tags (!) are not allowed in a record; write the plain value"],
    ["a tag at a block", "handling: {", "handling: !!map {", "6:17: file: tags (!) are not allowed in a record; write the plain value"],
    // YAML 1.2.2, 10.3.2: the core schema reads 0o7 as octal and 0x1A as hexadecimal.
    ["a hexadecimal number", "K: 104", "K: 0x68", "14:10: file: 0x68 is read as the number 104; write that, or put it in quotes where it is a text"],
    ["an octal one", "K: 104", "K: { value: 0o150, qualifier: '<' }", "14:19: file: 0o150 is read as the number 104; write that, or put it in quotes where it is a text"],
    ["a label in such figures", 'label: "0021"', "label: 0x21", "8:12: file: 0x21 is read as the number 33; write that, or put it in quotes where it is a text"],
    ["a number beyond all counting", "K: 104", "K: 1e300", "14:10: file: 1e300 is larger than anything that a record counts; check it"],
    ["one that is written out", "K: 104", "K: 1000000000001", "14:10: file: 1000000000001 is larger than anything that a record counts; check it"],
    ["one below zero", "was: 128", "was: -2e12", "23:10: file: -2e12 is larger than anything that a record counts; check it"],
    ["a directive", "date: 2025-10-18", "%YAML 1.1\n---\ndate: 2025-10-18", "1:1: file: directives (%) are not allowed in a record"],
    ["a list as a key", "package: basic", "package: basic\n? [a]\n: 1", "5:3: file: a key must be a word"],
    ["no key", "package: basic", "package: basic\n: 1", "5:1: file: a key must be a word"],
    ["__proto__ as a key", "K: 104", "__proto__: 104", "14:7: file: __proto__ is not a key known here"],
    ["a quoted control character", "The sheet says 138.", '"a\\u0007b"', "25:13: file: has a character that no page can show; leave it out"],
    // C1 controls: to some terminals \u009b opens a command, as ESC [ does (ECMA-48, from memory).
    ["a quoted control character above ASCII", "The sheet says 138.", '"a\\u009bb"', "25:13: file: has a character that no page can show; leave it out"],
    ["a quoted mark that turns the writing", "The sheet says 138.", '"a\\u202eb"', "25:13: file: has a character that no page can show; leave it out"],
    ["half a character", "The sheet says 138.", '"a\\ud83cb"', "25:13: file: has a character that no page can show; leave it out"],
  ])("%s", (_, from, to, line) => {
    expect(linesAfter(sampling, from, to)).toEqual([`${sampling}:${line}`]);
  });

  it("a character that is spelled in two halves is a whole one", () => expect(linesAfter(sampling, "The sheet says 138.", '"a \\ud83c\\udf3d"')).toEqual([]));

  it("a block between { and } whose lines begin at the margin, once and not again for every line below", () => {
    expect(linesAfter(sampling, "depth: { from: 0, to: 8, unit: in }", "depth: {\nfrom: 0,\nto: 8,\nunit: in\n}")).toEqual([
      `${sampling}:6:1: file: a block opened with { is not closed with }, or a line in it is not indented`,
    ]);
  });

  it("text that is never closed", () => {
    expect(linesOf(`${whole}note: "abc\n`)).toEqual([`${sampling}:27:7: file: text opened with " is not closed with "`]);
    expect(linesAfter(sampling, "package: basic", "package: 'basic")).toEqual([`${sampling}:4:10: file: text opened with ' is not closed with '`]);
  });

  it("every key that stands twice, each at its own place", () => {
    expect(linesOf(whole.replace("K: 104", "K: 104\n      K: 1").replace("K: 128", "K: 128\n      K: 1"))).toEqual([
      `${sampling}:15:7: file: the key K stands twice in one block; keep one`,
      `${sampling}:21:7: file: the key K stands twice in one block; keep one`,
    ]);
  });
});

describe("a file without a record", () => {
  it.each([
    ["empty", "", "is empty"],
    ["a remark", "# nothing yet\n", "is empty"],
    ["three hyphens", "---\n", "is empty"],
    ["a list", "- a\n", "must be a block of keys, not a list"],
    ["a word", "hello\n", 'must be a block of keys, not the text "hello"'],
  ])("%s", (_, text, message) => {
    expect(linesOf(text)).toEqual([`${sampling}:1:1: file: ${message}`]);
  });
});

describe("a file made to harm", () => {
  const deep = "is nested too deeply to be a record";

  it("a billion laughs", () => {
    expect(linesOf("a: &a [x, x]\nb: &b [*a, *a]\nc: &c [*b, *b]\nd: [*c, *c]\n")).toEqual([
      `${sampling}:1:7: file: anchors (&) and aliases (*) are not allowed in a record; write the value out`,
    ]);
  });

  it.each([
    ["[", `${sampling}:1:201: file: ${deep}`],
    ["{a: ", `${sampling}:1:801: file: ${deep}`],
  ])("a hundred thousand of %s", (bracket, line) => {
    expect(linesOf(bracket.repeat(100_000))).toEqual([line]);
  });

  it("brackets that close before any opens, which make no room for more", () =>
    expect(linesOf(`# ${"]".repeat(100_000)}\n${"[".repeat(100_000)}`)).toEqual([`${sampling}:2:201: file: ${deep}`]));

  it.each(["- ", "? "])("a hundred thousand of %s", (mark) => {
    const lines = linesOf(mark.repeat(100_000));
    expect(lines).toHaveLength(1);
    // Where the parser gives up depends on the machine's stack.
    expect(lines[0]).toMatch(new RegExp(`^${sampling}:1:\\d+: file: ${deep}$`));
  });

  it("brackets in a text are only text", () => {
    expect(linesAfter(sampling, "The sheet says 138.", `"${"[".repeat(100)}"`)).toEqual([]);
  });
});

it("a fault below a broken alias is told on its own line", () => {
  expect(linesOf("*a: x\n\nb: \n  {")).toEqual([`${sampling}:1:3: file: is not valid YAML: alias ending in : is ambiguous`, `${sampling}:4:4: file: a block opened with { is not closed with }`]);
});

describe("names that every object has", () => {
  it.each([
    ["farm.yaml", "  potash:", '  __proto__: { kind: fertilizer, name: x, analysis: { N: 0, P2O5: 0, K2O: 0 } }\n  potash:', "10:3"],
    ["fields/north/field.yaml", "  west:", "  __proto__: { letter: C, name: x }\n  west:", "4:3"],
    ["references.yaml", "bulletin-1:", "__proto__: { title: A, publisher: B }\nbulletin-1:", "1:1"],
  ])("__proto__ does not vanish from %s", (file, from, to, place) => {
    expect(linesAfter(file, from, to)).toEqual([`${file}:${place}: file: __proto__ is not a key known here`]);
  });

  it("constructor is an id like any other", () => {
    const farm = farmFolder();
    for (const file of [paths.lab, paths.sampling, "fields/north/samplings/2024-10-14.yaml"])
      farm.write(file, tinyFarm[file]!.replace("basic", "constructor"));
    const read = farm.read();
    expect(read.problems).toEqual([]);
    expect(read.farm?.fields[0]?.samplings.map((s) => s.packageId)).toEqual(["constructor", "constructor"]);
  });

  it("constructor is unknown where nothing is called so", () => {
    expect(linesAfter(sampling, "package: basic", "package: constructor")).toEqual([
      `${sampling}:4:10: package: package "constructor" is not offered by north-lab; allowed: basic`,
    ]);
  });
});
