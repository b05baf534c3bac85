import { describe, expect, it } from "vitest";
import { analyteIds } from "../../../src/interpretation/vocabulary.ts";
import { allowedWords } from "../../../src/records/nearMiss.ts";
import { farmFolder, linesAfter } from "../../support/farmFolder.ts";
import { paths, tinyFarm } from "../../support/tinyFarm.ts";

type Slip = readonly [what: string, from: string, to: string, ...lines: string[]];

const each = (title: string, file: string, slips: readonly Slip[]): void =>
  void describe(title, () => {
    it.each(slips)("%s", (_, from, to, ...lines) => {
      expect(linesAfter(file, from, to)).toEqual(lines.map((line) => `${file}:${line}`));
    });
  });

const results = "composites[1].results";
const notResult = "must be a number or { value, qualifier }, not";
const orNothing = 'leave the key out where it was not tested, and write a bound as { value: 3, qualifier: "<" }';
const inItsUnit = "alone, in the unit of the laboratory's package";

const result = (written: string, not: string, instead = ""): Slip => [`a result written ${written}`, "K: 104", `K: ${written}`, `14:10: ${results}.K: ${notResult} ${not}${instead && `; ${instead}`}`];
const resultText = (text: string, instead = "", written = text): Slip => result(written, `the text "${text}"`, instead);

each("keys", paths.sampling, [
  ["a capital too many", "bufferPh", "bufferPH", `12:7: ${results}.bufferPH: is not a key known here; did you mean bufferPh?`],
  ["a capital too few", "bufferPh", "bufferph", `12:7: ${results}.bufferph: is not a key known here; did you mean bufferPh?`],
  ["two letters swapped", "handling:", "hadnling:", "6:1: hadnling: is not a key known here; did you mean handling?"],
  [
    "nothing like it",
    "bufferPh: 6.7",
    "K2O: 6.7",
    `12:7: ${results}.K2O: is not a key known here; ${allowedWords("", analyteIds)}`,
  ],
  [
    "a misspelled key that is needed",
    "purpose",
    "porpose",
    "2:1: porpose: is not a key known here; did you mean purpose?",
  ],
  ["the beginning of a key that is needed", "package", "pack", "4:1: pack: is not a key known here; did you mean package?"],
  [
    "a misspelled key, and the same key left out of another block",
    'zone: west\n    results:\n      pH: 6.2\n      bufferPh: 6.7\n      P: { value: 3, qualifier: "<" }\n      K: 104\n  - label: "0022"\n    zone: east',
    'zonne: west\n    results: { }\n  - label: "0022"',
    "9:5: composites[1].zonne: is not a key known here; did you mean zone?",
    "11:5: composites[2].zone: is missing; must be text",
  ],
  ["a misspelled key beside another that is missing", "from: 0, to: 8, unit: in", "form: 0, to: 8", "5:8: depth.unit: is missing; allowed: in, cm", "5:10: depth.form: is not a key known here; did you mean from?"],
  [
    "no space after the colons of a block",
    "from: 0, to: 8, unit: in",
    "from:0, to: 8, unit:in",
    "5:10: depth.from:0: is not a key known here; write from: 0 with a space after the colon",
    "5:25: depth.unit:in: is not a key known here; write unit: in with a space after the colon",
  ],
  ["an equals sign for a colon", "to: 8", "to = 8", "5:19: depth.to = 8: is not a key known here; write to: 8 with a space after the colon"],
  ["a key left out of a bag", '  - label: "0021"\n    zone: west', "  - zone: west", "8:5: composites[1].label: is missing; must be text"],
  ["no depth", "depth: { from: 0, to: 8, unit: in }\n", "", "1:1: depth: is missing; must be { from, to, unit }"],
  ["no date", "date: 2025-10-18\n", "", "1:1: date: is missing; must be a calendar day written YYYY-MM-DD"],
]);

each("numbers and texts", paths.sampling, [
  ...["many", "ND", "n.d.", "--", "n/a", "<LOD", "below detection"].map((text) => resultText(text, orNothing)),
  ["nothing", "K: 104", "K:", `14:9: ${results}.K: ${notResult} an empty value; ${orNothing}`],
  ["a decimal comma", "pH: 6.2", "pH: 6,2", `11:11: ${results}.pH: ${notResult} the text "6,2"; write 6.2`],
  resultText("104,25", "write 104.25"),
  resultText("1040,250", "write 1040.250"),
  resultText("1,040", "leave the comma out, or write a decimal point"),
  resultText("104.25", "leave out the quotes", '"104.25"'),
  resultText("“96”", "leave out the quotes"),
  resultText("96\u00a0", "a blank in it is no plain space, as on web pages; type it anew"),
  ...["about 10,4", "10,4 ppm", "~10,4", "10.4*", "10.4 (low)", "10,4%"].map((text) => resultText(text, `write 10.4 ${inItsUnit}`)),
  resultText(".5 ppm", `write 0.5 ${inItsUnit}`),
  ...["about 1,040", "1,040 ppm"].map((text) => resultText(text, `write the number ${inItsUnit}`)),
  // Two numbers, or one that could be read in two ways: nobody but the writer knows which was meant.
  ...["104-110", "104–110", "10/4", "1 040", "1.040,5", "6.3 6.4"].map((text) => resultText(text)),
  ...["<3", "< 3", "<=3", "≤3", "<3 ppm"].map((text) => resultText(text, 'write { value: 3, qualifier: "<" }')),
  ...["<.5", "<0,5"].map((text) => resultText(text, 'write { value: 0.5, qualifier: "<" }')),
  resultText(">250", 'write { value: 250, qualifier: ">" }', '">250"'),
  resultText("≥ 250", 'write { value: 250, qualifier: ">" }'),
  resultText("<1,040", 'write { value: the number, qualifier: "<" }'),
  ["not a number", "K: 104", "K: .nan", `14:10: ${results}.K: ${notResult} NaN`],
  ["of more digits than anybody reads", "K: 104", `K: ${"1".repeat(5000)}x`, `14:10: ${results}.K: ${notResult} the text "${"1".repeat(40)}…"`],
  ["without end", "K: 104", "K: .inf", `14:10: ${results}.K: ${notResult} Infinity`],
  ["a list for a number", "K: 104", "K: [104]", `14:10: ${results}.K: ${notResult} a list`],
  ["a list for a text", "zone: west", "zone: [west]", "9:11: composites[1].zone: must be text, not a list"],
  ["a block for a text", "zone: west", "zone: { west: }", "9:11: composites[1].zone: must be text, not a block of keys"],
  ["yes or no for a text", "zone: west", "zone: true", "9:11: composites[1].zone: must be text, not true"],
  ["a number for a block", "    results:\n      pH: 6.5\n      K: 128", "    results: 128", "17:14: composites[2].results: must be a block of keys, not 128"],
  ["below nothing", "K: 104", "K: -3", `14:10: ${results}.K: -3 is too small; must be at least 0`],
  ["a bound without its sign", "K: 104", "K: { value: 3 }", `14:10: ${results}.K.qualifier: is missing; allowed: <, >; where the laboratory gave no bound, write the number by itself`],
  ["a bound whose sign stands with its number", "K: 104", "K: { value: <3, qualifier: '<' }", `14:19: ${results}.K.value: must be a number, not the text "<3"; write the number alone, and of a result qualifier: "<" beside it`],
  ["a bare > on a line of its own", "K: 104", "K:\n        value: 250\n        qualifier: >", `16:20: ${results}.K.qualifier: is empty; allowed: "<", ">", in quotes`],
  ["a whole number too large to hold", "zone: west", "zone: west\n    cores: 9007199254740993", "10:12: composites[1].cores: 9007199254740992 is too large; must be at most 200"],
  ["a word beside a count", "zone: west", "zone: west\n    cores: about 15", '10:12: composites[1].cores: must be a number, not the text "about 15"; write 15 alone'],
  ["a count of more digits than anybody reads", "zone: west", `zone: west\n    cores: about ${"1".repeat(5000)}`, `10:12: composites[1].cores: must be a number, not the text "about ${"1".repeat(34)}…"`],
  ["a label that reads as a number", 'label: "0021"', "label: 0021", "8:12: composites[1].label: must be text, not 21; put it in quotes"],
  ["an empty label", 'label: "0021"', 'label: " "', "8:12: composites[1].label: must not be empty"],
  ["a long label", 'label: "0021"', `label: "${"0".repeat(61)}"`, "8:12: composites[1].label: is too long; at most 60 characters"],
  ["half a core", "zone: west", "zone: west\n    cores: 7.5", "10:12: composites[1].cores: must be a whole number, not 7.5"],
]);

each("words from a list, days and ids", paths.sampling, [
  ["a near miss", "purpose: routine", "purpose: rutine", '2:10: purpose: the text "rutine" is not known; did you mean routine?'],
  ["no near miss", "purpose: routine", "purpose: x", '2:10: purpose: the text "x" is not known; allowed: routine, phCheck, nitrate'],
  ["nothing", "purpose: routine", "purpose:", "2:9: purpose: is empty; allowed: routine, phCheck, nitrate"],
  ["a day that is none", "receivedOn: 2025-10-20", "receivedOn: 2025-02-30", '6:25: handling.receivedOn: must be a calendar day written YYYY-MM-DD, not the text "2025-02-30"'],
  ["a year with a digit lost", "receivedOn: 2025-10-20", "receivedOn: 0205-10-20", "6:25: handling.receivedOn: must be a day of the years 1900 to 2200"],
  ["a year far ahead", "receivedOn: 2025-10-20", "receivedOn: 2201-01-01", "6:25: handling.receivedOn: must be a day of the years 1900 to 2200"],
  ["a day in another order", "date: 2025-10-18", "date: 18/10/2025", '1:7: date: must be a calendar day written YYYY-MM-DD, not the text "18/10/2025"'],
  ["a day without hyphens", "date: 2025-10-18", "date: 20251018", "1:7: date: must be a calendar day written YYYY-MM-DD, not 20251018"],
  ["an id that leaves the folder", "lab: north-lab", "lab: ../../etc/passwd", '3:6: lab: laboratory "../../etc/passwd" has no file in labs; allowed: north-lab'],
  ["a zone that leaves it", "zone: west", 'zone: "../x"', '9:11: composites[1].zone: zone "../x" is not in field.yaml; allowed: west, east'],
  ["a zone by its letter", "zone: west", "zone: A", '9:11: composites[1].zone: zone "A" is not in field.yaml; did you mean west?'],
  ["a zone by its name", "zone: west", "zone: West end", '9:11: composites[1].zone: zone "West end" is not in field.yaml; did you mean west?'],
  ["a laboratory by its name", "lab: north-lab", "lab: North Laboratory", '3:6: lab: laboratory "North Laboratory" has no file in labs; did you mean north-lab?'],
  ["a package by its name", "package: basic", "package: Basic test", '4:10: package: package "Basic test" is not offered by north-lab; did you mean basic?'],
  ["a unit in full", "unit: in", "unit: inches", '5:32: depth.unit: the text "inches" is not known; did you mean in?'],
  ["a depth of no thickness", "from: 0, to: 8", "from: 8, to: 8", "5:23: depth.to: must be deeper than from"],
  ["a depth upside down", "from: 0, to: 8", "from: 9, to: 8", "5:23: depth.to: must be deeper than from"],
]);

const avoid = (where: string): string => `avoid: [{ what: road, distance: { value: 30, unit: ft }, where: ${where} }]\nsoil:`;

each("field.yaml", paths.field, [
  [
    "a starter's product by its name",
    "crop: corn",
    "crop: corn\n    starter: { product: Muriate of Potash, rate: { value: 50, unit: lb/ac }, placement: band, rowSpacing: { value: 30, unit: in } }",
    '9:25: plan[1].starter.product: "Muriate of Potash" is not a fertilizer of farm.yaml; did you mean potash?',
  ],
  ["a number for a block of few keys, which names them", "soil:", "targetPh: 6.5\nsoil:", "2:11: targetPh: must be { value, reason }, not 6.5"],
  ["a bound as a year", "season: 2026", 'season: "<2026"', '7:13: plan[1].season: must be a number, not the text "<2026"; write the number alone, and of a result qualifier: "<" beside it'],
  ["a year in quotes", "season: 2026", 'season: "2026"', '7:13: plan[1].season: must be a number, not the text "2026"; leave out the quotes'],
  ["a place by itself", "soil:", avoid("[-37, 44]"), "2:66: avoid[1].where[1]: must be a list, not -37", "2:71: avoid[1].where[2]: must be a list, not 44"],
  ["a place without its latitude", "soil:", avoid("[[-37]]"), "2:66: avoid[1].where[1]: needs at least 2 entries"],
  ["a place with its height", "soil:", avoid("[[-37, 44, 12]]"), "2:66: avoid[1].where[1]: has too many entries; at most 2"],
]);

each("seasons", paths.season, [
  ["a product by its name", "product: potash", "product: Muriate of potash", '9:14: applications[1].product: product "Muriate of potash" is not in farm.yaml; did you mean potash?'],
  ["a list of zones by their letters", "zones: [west]", "zones: [A, B]",
    '10:13: applications[1].zones[1]: zone "A" is not in field.yaml; did you mean west?',
    '10:16: applications[1].zones[2]: zone "B" is not in field.yaml; did you mean east?',
  ],
  ["an amount written as one text", "rate: { value: 100, unit: lb/ac }", "rate: 100 lb/ac", '11:11: applications[1].rate: must be { value, unit }, not the text "100 lb/ac"'],
  ["a word for yes or no", "zones: [west]", "incorporated: yes", '10:19: applications[1].incorporated: must be true or false, not the text "yes"'],
]);

each("labs", paths.lab, [
  ["no label", "packages:", "resultFile: { columns: { Bag: ignore } }\npackages:", "2:24: resultFile.columns: needs exactly one column that holds the label"],
  [
    "a column of nothing, or of two things",
    "packages:",
    "resultFile: { columns: { Bag: label, A: { }, B: { date: dayMonthYear, analyte: K } } }\npackages:",
    "2:41: resultFile.columns.A: must be label or report or ignore or { analyte, unit, as } or { date, of }, not { }",
    "2:49: resultFile.columns.B: must be label or report or ignore or { analyte, unit, as } or { date, of }, not { date, analyte }",
  ],
  ["a column that comes close to one of them", "packages:", "resultFile: { columns: { Bag: label, A: { analyt: K }, B: { date: DMY } } }\npackages:",
    "2:43: resultFile.columns.A.analyt: is not a key known here; did you mean analyte?",
    '2:67: resultFile.columns.B.date: the text "DMY" is not known; allowed: yearMonthDay, dayMonthYear, monthDayYear',
  ],
  ["two labels", "packages:", "resultFile: { columns: { Bag: label, Sample: label } }\npackages:", "2:24: resultFile.columns: needs exactly one column that holds the label"],
]);

each("farm.yaml", paths.farm, [
  ["a product of no kind", "kind: fertilizer", "kind: fertiliser", '11:11: products.potash.kind: the text "fertiliser" is not known; did you mean fertilizer?'],
  ["a product whose kind is misspelled", "kind: fertilizer", "knid: fertilizer", "11:5: products.potash.kind: is missing, and knid is not a key known here; allowed: fertilizer, lime, manure"],
  ["a product without a kind", "    kind: fertilizer\n", "", "11:5: products.potash.kind: is missing; allowed: fertilizer, lime, manure"],
  ["a product of an empty kind", "kind: fertilizer", "kind:", "11:10: products.potash.kind: is empty; allowed: fertilizer, lime, manure"],
  ["a product with a name for an id", "  potash:", "  Muriate of potash:", "10:3: products.Muriate of potash: must be lower-case letters, digits and single hyphens, such as north-meadow"],
  ["lime without a worth", "    stated: { cce: 90 }\n", "", "7:5: products.ground-limestone.stated: a liming material needs stated, analysis or both, or no rate of it can be worked out"],
  ["a word where a list belongs", "[small-guide]", "small-guide", '4:13: guidelines: must be a list, not the text "small-guide"'],
  ["a guideline named twice", "[small-guide]", "[small-guide, small-guide]", '4:27: guidelines[2]: guideline "small-guide" stands twice; keep one'],
  ["an empty list", "[small-guide]", "[]", "4:13: guidelines: needs at least 1 entry"],
  ["a name of blanks", "name: Tiny Farm", 'name: "  "', "1:7: name: must not be empty"],
  ["a currency in small letters", "USD", "usd", "3:11: currency: must be a three-letter ISO 4217 code, such as USD"],
]);

describe("text from a record in a message", () => {
  it("never breaks the line, whatever the key", () => {
    const lines = farmFolder().write(paths.sampling, `"a\\nfarm.yaml:1:1: forged\\u2028": 1\n${tinyFarm[paths.sampling]!}`).lines();
    expect(lines).toEqual([`${paths.sampling}:1:1: a farm.yaml:1:1: forged : is not a key known here; allowed: date, purpose, lab, package, depth, handling, report, nitrate, measured, composites, corrections, note`]);
  });

  it("is cut where it is long", () => {
    expect(linesAfter(paths.sampling, "purpose: routine", `purpose: ${"x".repeat(5000)}`)).toEqual([
      `${paths.sampling}:2:10: purpose: the text "${"x".repeat(40)}…" is not known; allowed: routine, phCheck, nitrate`,
    ]);
    expect(linesAfter(paths.sampling, "purpose: routine", `purpose: routine\n${"k".repeat(1000)}: 1`)[0]).toContain(`:3:1: ${"k".repeat(60)}…: is not a key`);
  });
});
