import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { answeredSampling, awaitingFarm, awaitingSampling, carryOut, complaints, planned, planOf, usualColumns, usualFile } from "../../support/awaitingFarm.ts";
import { paths, tinyFarm } from "../../support/tinyFarm.ts";

const withMark = (text: string): string => `\ufeff${text}`;
const bigEndian = (text: string): Uint8Array => Buffer.from(text, "utf16le").swap16();

/** Invented files of laboratories that write the same results each in its own way: mapping and file. */
const shapes: readonly (readonly [string, string, string | Uint8Array])[] = [
  ["commas and decimal points", usualColumns, usualFile],
  [
    "semicolons, decimal commas, days first, a byte order mark and Windows line ends",
    `decimal: comma
  missing: [n.b.]
  columns:
    Probe: label
    Datum: { date: dayMonthYear }
    pH: { analyte: pH }
    Puffer-pH: { analyte: bufferPh }
    P: { analyte: P }
    K: { analyte: K }
`,
    withMark("Probe;Datum;K [mg/kg];P [mg/kg];Puffer-pH;pH\n0021;18.10.2025;104;< 3;6,70;6,2\n0022;18.10.2025;128;n.b.;N.B.;6,5\nB, east;18.10.2025;96;21,5;;6,0\n=1+1;18.10.2025;> 400;;;5,9\n").replaceAll("\n", "\r\n"),
  ],
  [
    "tabs, UTF-16, a letterhead, months first and columns that are not wanted",
    `headerLine: 4
  columns:
    Bag: label
    Job: ignore
    Sampled: { date: monthDayYear }
    Soil pH: { analyte: pH }
    Buffer pH: { analyte: bufferPh }
    Phosphorus: { analyte: P, unit: mg/kg }
    Potassium: { analyte: K, unit: ppm }
    Remarks: ignore
`,
    bigEndian(withMark('An invented laboratory\n"Its street\n\nJob\tBag\tSampled\tSoil pH\tBuffer pH\tPhosphorus\tPotassium\tRemarks\nJ1\t0021\t10/18/2025\t6.2\t6.70\t<3\t104\tÜ\nJ1\t0022\t10/18/2025\t6.5\t\t\t128\t"two\nlines"\nJ1\tB, east\t10/18/2025\t6.0\t\t21.5\t96\t\nJ1\t=1+1\t10/18/2025\t5.9\t\t\t>400\t\n')),
  ],
  [
    "a bag in each column, with units below one another",
    `bags: columns
  missing: ["-"]
  columns:
    Analysis: label
    pH: { analyte: pH }
    Buffer pH: { analyte: bufferPh }
    P: { analyte: P }
    K: { analyte: K }
    Day: { date: yearMonthDay }
`,
    'Analysis,0021,0022,"B, east",=1+1\nDay,2025-10-18,2025-10-18,2025-10-18,2025-10-18\npH,6.2,6.5,6.0,5.9\nBuffer pH,6.70,-,-,-\nP (mg/kg),<3,-,21.5,-\nK (mg/kg),104,128,96,>400\n',
  ],
  [
    "Windows-1252, every value quoted, decimal commas between commas, and values in another unit",
    `decimal: comma
  encoding: windows-1252
  delimiter: comma
  columns:
    Étiquette: label
    pH: { analyte: pH }
    pH tampon: { analyte: bufferPh }
    P (mg/100 g): { analyte: P }
    K (mg/kg): { analyte: K }
`,
    Buffer.from('"K (mg/kg)","P (mg/100 g)","pH tampon","pH","Étiquette",""\n"104","<0,3","6,70","6,2"," 0021 ",""\n"128","","","6,5","0022",""\n"96","2,15","","6,0","B, east",""\n">400","","","5,9","=1+1",""\n\n', "latin1"),
  ],
];

describe("one set of results, as five laboratories write it", () => {
  it.each(shapes)("%s: makes the same record", (_, mapping, file) => {
    const farm = awaitingFarm(mapping);
    const plan = planOf(planned(farm, file));
    expect(plan.bags.map((b) => [b.composite.label, b.added.length])).toEqual([["0021", 4], ["0022", 2], ["B, east", 3], ["=1+1", 2]]);
    expect([plan.known, plan.awaited]).toEqual([0, []]);
    carryOut(farm, plan);
    expect(readFileSync(join(farm.path, paths.sampling), "utf8")).toBe(answeredSampling);
    expect(farm.lines()).toEqual([]);
    // A second time there is nothing to do.
    expect(planOf(planned(farm, file))).toMatchObject({ bags: [], known: 11 });
  });

  // 9.6 mg in 100 g of soil are 96 in a kilogram of it, which is 96 ppm.
  it("takes a unit from the laboratory's record where no header says one", () => {
    const farm = awaitingFarm("columns: { Label: label, K: { analyte: K, unit: mg/100 g } }\n");
    expect(planOf(planned(farm, "Label,K\n0021,9.6\n")).bags.map((b) => b.added.map((r) => [r.digits, r.unit]))).toEqual([[["96", "ppm"]]]);
  });

  // By atomic weights 20 mg of P2O5 hold 8.729 mg of P, and 15 mg of K2O 12.45 mg of K.
  it("turns an oxide into its element where the laboratory's record says that the figures count it", () => {
    const farm = awaitingFarm("columns: { Label: label, P2O5: { analyte: P, as: P2O5 }, K₂O: { analyte: K, as: K2O } }\n");
    expect(planOf(planned(farm, "Label,P2O5 (mg/100 g),K₂O (mg/100 g)\n0021,20,<15\n")).bags.map((b) => b.added.map((r) => [r.digits, r.qualifier, r.unit]))).toEqual([
      [
        ["87.29", undefined, "ppm"],
        ["124.5", "<", "ppm"],
      ],
    ]);
  });

  it("takes an element as it stands under a header that names its oxide, where the laboratory's record says so", () => {
    const farm = awaitingFarm("columns: { Label: label, P (as P2O5 classes): { analyte: P, unit: ppm, as: element } }\n");
    expect(planOf(planned(farm, "Label,P (as P2O5 classes)\n0021,20\n")).bags.map((b) => b.added.map((r) => r.digits))).toEqual([["20"]]);
  });

  it.each(["P2O5", "P₂O₅", "p2o5-CAL"])("takes no %s for phosphorus without a word: it is 2.29 times as much", (header) => {
    const farm = awaitingFarm(`columns: { Label: label, ${header}: { analyte: P } }\n`);
    expect(complaints(farm, `Label,${header}\n0021,20\n`)).toEqual([
      `results.csv:1:7: ${header}: names P2O5, and P is the element alone; say { analyte: P, as: P2O5 } in labs/north-lab.yaml, or as: element where its figures are`,
    ]);
  });

  // American sheets print the unit without brackets, and twice the ppm as lb/ac: read as ppm it would hide every shortage.
  it.each(["K lb/ac", "K lbs/A", "K_lb/acre", "Potassium, lbs per acre", "K - lbs/ac", "K Index", "K mg/dm3"])("reads the unit at the end of the header %s, and takes its figures for no ppm", (header) => {
    const farm = awaitingFarm(`columns: { Label: label, ${JSON.stringify(header)}: { analyte: K } }\n`);
    const unit = header.endsWith("Index") ? "index" : header.endsWith("dm3") ? "mg/l" : "lb/ac";
    // Oklahoma calls pounds an acre an index, North Carolina a scale of its own.
    const hint = unit === "index" ? "If its figures are in ppm all the same, say { analyte: K, unit: ppm } of the column; else let" : "If that is the laboratory's unit, let";
    expect(complaints(farm, `Label;${header}\n0021;208\n`)).toEqual([
      `results.csv:1:7: ${header}: is in ${unit}, and package "basic" reports K in ppm; the two are not one by definition, so nothing is converted. ${hint} the package say unit: ${unit}, or the sampling, under measured:`,
    ]);
  });

  it("is not held up by a header that is no name of anything", () => {
    const farm = awaitingFarm("columns: { Label: label, K: { analyte: K } }\n");
    const began = performance.now();
    complaints(farm, `Label;${"a-".repeat(30_000)} \n0021;104\n`);
    expect(performance.now() - began).toBeLessThan(1_000);
  });
  it.each(["K ppm", "K_ppm", "K, mg/kg", "K (ppm)"])("finds the column K by the header %s", (header) => {
    const farm = awaitingFarm("columns: { Label: label, K: { analyte: K } }\n");
    expect(planOf(planned(farm, `Label;${header}\n0021;104\n`)).bags.map((b) => b.added.map((r) => [r.analyte, r.digits, r.unit]))).toEqual([[["K", "104", "ppm"]]]);
  });

  it("takes a last word that only looks like a unit for none where the laboratory's record says which it is", () => {
    const farm = awaitingFarm("columns: { Label: label, Potash Index: { analyte: K, unit: ppm } }\n");
    expect(planOf(planned(farm, "Label,Potash Index\n0021,104\n")).bags.map((b) => b.added.map((r) => r.digits))).toEqual([["104"]]);
  });

  // Clemson prints 782 lb/ac of K for 1 meq/100 g, which is 391 ppm ("Cation exchange capacity", Clemson University); by atomic weights 0.27 meq are 105.6 ppm.
  it("turns a cation's charge into its mass, which its atomic weight fixes", () => {
    const farm = awaitingFarm("columns: { Label: label, K: { analyte: K } }\n");
    expect(planOf(planned(farm, "Label,K (meq/100 g)\n0021,0.27\n0022,<0.10\n\"B, east\",1\n")).bags.map((b) => b.added.map((r) => [r.qualifier, r.digits, r.unit]))).toEqual([
      [[undefined, "105.6", "ppm"]],
      [["<", "39.1", "ppm"]],
      [[undefined, "391", "ppm"]],
    ]);
  });

  it("knows a header that is broken over lines, whatever stands at the break", () =>
    expect(planOf(planned(awaitingFarm(), 'Label,"Buffer \n  pH"\n0021,6.7\n')).bags.map((b) => b.added.map((r) => r.analyte))).toEqual([["bufferPh"]]));

  it("knows a header that the laboratory, and so its record, writes with two spaces", () => {
    const farm = awaitingFarm('columns: { Label: label, "Buffer  pH": { analyte: bufferPh } }\n');
    expect(planOf(planned(farm, "Label,Buffer  pH\n0021,6.7\n")).bags.map((b) => b.added.map((r) => r.analyte))).toEqual([["bufferPh"]]);
  });

  it("reads past an empty day, and past a day's column that is empty throughout", () => {
    const farm = awaitingFarm("columns: { Label: label, Day: { date: yearMonthDay }, pH: { analyte: pH } }\n");
    expect(planOf(planned(farm, "Label,Day,pH\n0021,,6.2\n0022,2025-10-18,6.5\n")).bags.map((b) => b.composite.label)).toEqual(["0021", "0022"]);
  });

  it("awaits no bag that has results, and none of a sampling that the file does not touch", () => {
    const farm = awaitingFarm(usualColumns, awaitingSampling.replace("results: {}", "results: { pH: 6.5 }"));
    farm.write(paths.sampling.replace("2025-10-18", "2025-10-19"), awaitingSampling.replace("2025-10-18", "2025-10-19").replace(/"00/g, '"01').replace("B, east", "C, east").replace("=1+1", "=2+2"));
    expect(planOf(planned(farm, file("0021,6.2,,,"))).awaited.map((a) => a.composite.label)).toEqual(["B, east", "=1+1"]);
  });

  it("leaves what is not in the file awaited, and adds it later", () => {
    const farm = awaitingFarm();
    const [head, first, ...later] = usualFile.split("\n");
    const plan = planOf(planned(farm, `${head!}\n${first!}\n`));
    expect(plan.awaited.map((a) => a.composite.label)).toEqual(["0022", "B, east", "=1+1"]);
    carryOut(farm, plan);
    carryOut(farm, planOf(planned(farm, [head, ...later].join("\n"))));
    expect(readFileSync(join(farm.path, paths.sampling), "utf8")).toBe(answeredSampling);
  });
});

const file = (...rows: string[]): string => ["Label,pH,Buffer pH,P (ppm),K (ppm)", ...rows, ""].join("\n");
const noNumber = "is not a number; a result is plain digits with at most one mark, the decimal point, and < or > before them where they only bound it";
const aWord = "is not a number; a word for no result is listed under missing: in the laboratory's resultFile";
const none = "no bag of a sampling that north-lab had is labeled";

describe("a file is refused at its line and column", () => {
  it.each<[string, string, string[]]>([
    ["a row without a bag", file("0023,6,,,90"), [`results.csv:2:1: Label: ${none} "0023"; did you mean 0021?`]],
    ["a row without a bag, beside one of the bag that it is called like", file("0023,6,,,90", "0021,6,,,90"), [`results.csv:2:1: Label: ${none} "0023"; did you mean 0022?`]],
    ["a row more than there are bags", file("0023,6,,,90", '"0011",,,,', '"0012",,,,', "0021,6,,,90", "0022,6,,,90", '"B, east",6,,,90', "=1+1,6,,,90"), [`results.csv:2:1: Label: ${none} "0023"; every bag that there is has a row of its own`]],
    // Common practice: a spreadsheet that opens a CSV takes 0021 for the number 21, and saves it so.
    ["a label that a spreadsheet cut", file("21,6,,,90"), [`results.csv:2:1: Label: ${none} "21"; did you mean 0021? A spreadsheet takes off the zeros that a label begins with: bring in the file as the laboratory sent it`]],
    ["an empty label", file(",6,,,90"), ["results.csv:2:1: Label: is empty in this row; a row finds its bag by its label"]],
    ["a label twice", file("0022,6,,,90", "0021,6,,,90", " 0022,6,,,90"), ['results.csv:4:2: Label: label "0022" stands twice in the file, first in line 2; a label names one bag']],
    ["a column nobody knows", "Label,pH,Ca\n0021,6,1\n", ["results.csv:1:10: Ca: is a column that labs/north-lab.yaml does not know; add it to resultFile.columns, as ignore if it is not wanted; allowed: Label, pH, Buffer pH, P (ppm), K (ppm)"]],
    ["a column twice", "Label,pH,pH\n0021,6,6\n", ['results.csv:1:10: pH: gives pH, as "pH" does; ignore one of them']],
    ["a column without a name that holds a value", "Label,pH,\n0021,6,\n0022,6,9\n", ["results.csv:1:10: file: is a column that labs/north-lab.yaml does not know; add it to resultFile.columns, as ignore if it is not wanted; allowed: Label, pH, Buffer pH, P (ppm), K (ppm)"]],
    ["no label", "pH,K (ppm)\n6,1\n", ["results.csv:1:1: file: has no column for the label, by which a row finds its bag"]],
    ["words for numbers", file("0021,acid,,,?"), [`results.csv:2:6: pH: "acid" ${aWord}`, `results.csv:2:13: K (ppm): "?" ${aWord}`]],
    ["a thousand with its comma", file('0021,6,,,"1,040"'), ['results.csv:2:10: K (ppm): "1,040" has a decimal comma; the laboratory\'s resultFile says decimal: point']],
    ["thousands and decimals", file('0021,,,,"1,040.5"'), ['results.csv:2:9: K (ppm): "1,040.5" marks its thousands, which could be misread; a result is written with at most one mark, the decimal point']],
    ["a decimal comma", file('0021,"6,2",,,104'), ['results.csv:2:6: pH: "6,2" has a decimal comma; the laboratory\'s resultFile says decimal: point']],
    ["a decimal comma that moves all that follows", file("0021,6,2,6.7,,104"), ["results.csv:2:14: file: has 6 values in this row and 5 in its first one"]],
    ["a value too few", file("0021,6"), ["results.csv:2:6: file: has 2 values in this row and 5 in its first one"]],
    ["below zero", file("0021,-6,,,"), [`results.csv:2:6: pH: "-6" ${noNumber}`]],
    ["a power of ten", file("0021,,,,1e3"), [`results.csv:2:9: K (ppm): "1e3" ${noNumber}`]],
    ["endless digits", file(`0021,,,,${"9".repeat(400)}`), [`results.csv:2:9: K (ppm): "${"9".repeat(40)}…" has more than 15 digits`]],
    ["only headers", file(), ["results.csv:1:1: file: has headers and no row below them"]],
    ["nothing", " \n\n", ["results.csv:1:1: file: is empty"]],
    ["a quote that never ends", file('"0021,6,,,1', "0022,6,,,2"), ["results.csv:2:1: file: has a quotation mark that is never closed, from this value on"]],
    ["a quote within a value", file('0021,6,,,1"0'), ["results.csv:2:10: file: has a quotation mark within this value; put the whole value in quotes and double the mark"]],
    ["text after a quote", file("0021,6,,,1", '0022,"6"x,,,2'), ["results.csv:3:6: file: has text after the closing quotation mark of this value; a mark within quotes is doubled"]],
    ["no header that is known", "a|b\n1|2\n", ["results.csv:1:1: file: has no header that is known, whether comma, semicolon or tab parts them; check headerLine, delimiter and columns of the laboratory's resultFile"]],
  ])("%s", (_, text, lines) => {
    expect(complaints(awaitingFarm(), text)).toEqual(lines);
  });

  it("tells every mistake of the file at once, also after a value of two lines", () => {
    expect(complaints(awaitingFarm(`${usualColumns}    Note: ignore\n`), 'Note,Label,K (ppm)\n"two\nlines",0021,x\n, 0099,1\n,0022,y\n')).toEqual([
      `results.csv:3:13: K (ppm): "x" ${aWord}`,
      `results.csv:4:3: Label: ${none} "0099"; allowed: 0011, 0012, B, east, =1+1`,
      `results.csv:5:7: K (ppm): "y" ${aWord}`,
    ]);
  });

  it.each([
    ["another unit than the package's", "K (lb/ac)", "K", "is in lb/ac, and package \"basic\" reports K in ppm; the two are not one by definition, so nothing is converted. If that is the laboratory's unit, let the package say unit: lb/ac, or the sampling, under measured:"],
    ["a unit that is none", "K (grains)", "K (grains)", '"grains" is not a unit known here; state the column\'s unit in labs/north-lab.yaml, such as { analyte: K, unit: ppm }'],
  ])("%s", (_, header, key, message) => {
    const farm = awaitingFarm(`columns:\n    Label: label\n    ${key}: { analyte: K }\n`);
    expect(complaints(farm, `Label,${header}\n0021,104\n0022,128\n`)).toEqual([`results.csv:1:7: ${header}: ${message}`]);
  });

  it("a unit that header and record tell differently", () => {
    const farm = awaitingFarm("columns:\n    Label: label\n    K: { analyte: K, unit: ppm }\n");
    expect(complaints(farm, "Label,K (lb/ac)\n0021,104\n")).toEqual(["results.csv:1:7: K (lb/ac): gives its unit as lb/ac, and labs/north-lab.yaml says ppm; one of them is wrong"]);
  });

  it("an analyte that the package does not measure", () => {
    const farm = awaitingFarm("columns: { Label: label, Mg: { analyte: Mg } }\n");
    expect(complaints(farm, "Label,Mg\n0021,\n0022,90\n")).toEqual([
      `results.csv:3:6: Mg: Mg is not in package "basic", which ${paths.sampling} names; correct the package, or say how it was measured under measured:`,
    ]);
  });

  it.each([
    ["18/10/2025", '"18/10/2025" is not a calendar day written as monthDayYear, the year in four digits'],
    ["10/18/25", '"10/18/25" is not a calendar day written as monthDayYear, the year in four digits'],
    ["2/29/2025", '"2/29/2025" is not a calendar day written as monthDayYear, the year in four digits'],
    ["10/19/2025", "is 2025-10-19, and this bag's sampling is of 2025-10-18; of a date that is not of the sampling, resultFile.columns says of: receipt or report, or ignore"],
  ])("the day %s", (day, message) => {
    const farm = awaitingFarm("columns: { Label: label, Day: { date: monthDayYear }, pH: { analyte: pH } }\n");
    expect(complaints(farm, `Label,Day,pH\n0021,${day},6\n`)).toEqual([`results.csv:2:6: Day: ${message}`]);
  });

  it("a bag that another laboratory had", () => {
    const farm = awaitingFarm().write(paths.sampling, awaitingSampling.replace("lab: north-lab", "lab: south-lab")).write("labs/south-lab.yaml", tinyFarm[paths.lab]!);
    expect(complaints(farm, file("0021,6,,,90"))).toEqual([`results.csv:2:1: Label: ${none} "0021"; did you mean 0011?`]);
  });

  it("a laboratory whose files nobody described", () => {
    const farm = awaitingFarm().write(paths.lab, tinyFarm[paths.lab]!);
    expect(complaints(farm, usualFile)).toEqual(["labs/north-lab.yaml:1:1: resultFile: is missing; it says what each column of the laboratory's file holds"]);
  });
});

describe("a label that two samplings used", () => {
  const twice = awaitingSampling.replace('"0022"', '"0012"');

  it("is refused, unless the sampling is named", () => {
    const farm = awaitingFarm(usualColumns, twice);
    expect(complaints(farm, file("0012,6.5,,,128"))).toEqual(['results.csv:2:1: Label: bags of north/2024-10-14 and north/2025-10-18 are labeled "0012"; say which with --sampling']);
    expect(planOf(planned(farm, file("0012,6.5,,,128"), "2025-10-18")).bags.map((b) => [b.sampling.id, b.index])).toEqual([["2025-10-18", 1]]);
  });

  it("is refused with each of three samplings named", () => {
    const farm = awaitingFarm(usualColumns, twice).write("fields/north/samplings/2025-11-20.yaml", twice.replaceAll("2025-10-18", "2025-11-20"));
    expect(complaints(farm, file("0012,6.5,,,128"))).toEqual(['results.csv:2:1: Label: bags of north/2024-10-14, north/2025-10-18 and north/2025-11-20 are labeled "0012"; say which with --sampling']);
  });

  it("is not guessed where a spreadsheet may have taken the zeros off two", () => {
    const both = awaitingFarm(usualColumns, awaitingSampling.replace('"0021"', '"022"'));
    expect(complaints(both, file("22,6.5,,,128"))).toEqual([expect.not.stringContaining("spreadsheet")]);
  });

  it("is looked for in the named sampling only", () => {
    expect(complaints(awaitingFarm(), file("0011,6.5,,,128"), "2025-10-18")).toEqual(['results.csv:2:1: Label: no bag of north/2025-10-18 is labeled "0011"; did you mean 0021?']);
  });
});

describe("a result that the records hold", () => {
  // The tiny farm's own sampling: bag 0021 has P below 3 and K 104; bag 0022 has K 128, corrected to 138.
  const answered = () => awaitingFarm(usualColumns, tinyFarm[paths.sampling]);

  it("is passed over where it is the same, as first written or as corrected", () => {
    expect(planOf(planned(answered(), file("0021,6.20,6.7,<3,104.0", "0022,6.5,,,128")))).toMatchObject({ bags: [], known: 6 });
    expect(planOf(planned(answered(), file("0022,6.5,,,138")))).toMatchObject({ bags: [], known: 2 });
  });

  it("is told apart from a bound of the same number that was corrected", () => {
    // The sheet said "below 3", and the laboratory put 5 in its place.
    const bounded = tinyFarm[paths.sampling]!.replace("corrections:", 'corrections:\n  - { composite: "0021", analyte: P, was: 3, now: 5, reason: read again, date: 2025-11-03 }');
    const farm = () => awaitingFarm(usualColumns, bounded);
    expect(planOf(planned(farm(), file("0021,,,<3,")))).toMatchObject({ bags: [], known: 1 });
    expect(complaints(farm(), file("0021,,,3,"))).toEqual([expect.stringContaining("says 3, and")]);
  });

  it("is never changed: a correction is proposed", () => {
    expect(complaints(answered(), file("0021,6.2,6.7,3,105", "0022,6.5,,,139"))).toEqual([
      `results.csv:2:14: P (ppm): says 3, and ${paths.sampling}:13 says <3; a result is never edited, and no correction can tell these two apart: ask the laboratory which it is, and keep it in the note:`,
      `results.csv:2:16: K (ppm): says 105, and ${paths.sampling}:14 says 104; a result is never edited: if the record is wrong, add { composite: "0021", analyte: K, was: 104, now: 105, reason: ..., date: ... } to its corrections:, or let --correct do so`,
      `results.csv:3:12: K (ppm): says 139, and ${paths.sampling}:19 says 128, corrected to 138 in line 21; a result is never edited: if the correction is wrong too, put { composite: "0022", analyte: K, was: 128, now: 139, reason: ..., date: ... } in its place`,
    ]);
  });
});

describe("a result that is to be corrected", () => {
  const answered = () => awaitingFarm(usualColumns, tinyFarm[paths.sampling]);

  it("is told with what it was, in the order of the package", () => {
    const { bags, known } = planOf(planned(answered(), "Label,K (ppm),pH,Buffer pH\n0021,105,6.2,6.8\n", undefined, true));
    expect(bags.map((b) => [b.composite.label, b.added, b.corrected.map((c) => [c.analyte, c.was, c.digits])])).toEqual([["0021", [], [["bufferPh", 6.7, "6.8"], ["K", 104, "105"]]]]);
    expect(known).toBe(1);
  });

  it("is refused as ever where it is a bound, or was corrected before", () => {
    expect(complaints(answered(), file("0021,6.2,6.7,3,<105", "0022,6.5,,,139"), undefined, true)).toEqual([
      expect.stringContaining("P (ppm): says 3, and"),
      expect.stringContaining("K (ppm): says <105, and"),
      expect.stringContaining("K (ppm): says 139, and"),
    ]);
  });
});

it("warns of what no soil shows, as the records do", () => {
  const { plan, problems } = planned(awaitingFarm(), file("0021,63,,,700"));
  expect(plan?.bags).toHaveLength(1);
  expect(problems.map((p) => [p.severity, p.file, p.line, p.column, p.field, p.message])).toEqual([
    ["warning", "results.csv", 2, 6, "pH", "63 is outside what soil shows (3 to 10.5); check the sheet"],
    ["warning", "results.csv", 2, 11, "K (ppm)", "700 ppm is unusually high; is it lb/ac, which is about twice the ppm?"],
  ]);
});
