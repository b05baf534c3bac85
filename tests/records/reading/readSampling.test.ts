import { describe, expect, it } from "vitest";
import { type AnalyteId, methodIds, methodMeasures } from "../../../src/interpretation/vocabulary.ts";
import { farmFolder, linesAfter } from "../../support/farmFolder.ts";
import { paths, tinyFarm } from "../../support/tinyFarm.ts";

const { sampling, lab } = paths;
const methodsFor = (analyte: AnalyteId): string => methodIds.filter((id) => methodMeasures(id, analyte)).join(", ");
const linesOf = (from: string, to: string): string[] => linesAfter(sampling, from, to);

describe("a sampling event must fit the rest of the farm", () => {
  it.each([
    ["a zone that is not there", "zone: west", "zone: wst", '9:11: composites[1].zone: zone "wst" is not in field.yaml; did you mean west?'],
    ["a laboratory without a file", "lab: north-lab", "lab: nort-lab", '3:6: lab: laboratory "nort-lab" has no file in labs; did you mean north-lab?'],
    ["a package not offered", "package: basic", "package: full", '4:10: package: package "full" is not offered by north-lab; allowed: basic'],
    [
      "an analyte outside the package",
      "K: 104",
      "Zn: 104",
      '14:7: composites[1].results.Zn: Zn is not in package "basic" of north-lab; allowed: pH, bufferPh, P, K; or say how it was measured under measured:',
    ],
    [
      "a method that cannot measure it",
      "package: basic",
      "package: basic\nmeasured: { K: { method: olsen, unit: ppm } }",
      `5:26: measured.K.method: Olsen does not measure K; allowed: ${methodsFor("K")}`,
    ],
    [
      "a unit it is not reported in",
      "package: basic",
      'package: basic\nmeasured: { K: { method: mehlich3, unit: "%" } }',
      "5:42: measured.K.unit: K is not reported in %; allowed: ppm, mg/l, lb/ac, index",
    ],
    ["another day than its name", "date: 2025-10-18", "date: 2025-10-17", "1:7: date: must be the day in the file's name, 2025-10-18"],
    ["received before it was taken", "receivedOn: 2025-10-20", "receivedOn: 2025-10-02", "6:25: handling.receivedOn: is before the sampling, 2025-10-18"],
    ["received years later", "receivedOn: 2025-10-20, reportedOn: 2025-10-27", "receivedOn: 2026-10-19", "6:25: handling.receivedOn: is more than a year after the sampling, 2025-10-18"],
    ["reported years later", "reportedOn: 2025-10-27", "reportedOn: 2026-10-27", "6:49: handling.reportedOn: is more than a year after the sampling, 2025-10-18"],
    ["reported before it was taken", "receivedOn: 2025-10-20, reportedOn: 2025-10-27", "reportedOn: 2025-10-17", "6:25: handling.reportedOn: is before 2025-10-18"],
    ["reported before it was received", "reportedOn: 2025-10-27", "reportedOn: 2025-10-19", "6:49: handling.reportedOn: is before 2025-10-20"],
  ])("%s", (_, from, to, line) => {
    expect(linesOf(from, to)).toEqual([`${sampling}:${line}`]);
  });

  it("may be taken, received and reported in one day, or a year apart", () => {
    expect(linesOf("receivedOn: 2025-10-20, reportedOn: 2025-10-27", "receivedOn: 2025-10-18, reportedOn: 2025-10-18")).toEqual([]);
    expect(linesOf("receivedOn: 2025-10-20, reportedOn: 2025-10-27", "receivedOn: 2026-10-18, reportedOn: 2026-10-18")).toEqual([]);
  });

  it("may be one of several of its day, and must be of that day", () => {
    const named = sampling.replace(".yaml", "-nitrate.yaml");
    const moved = (date: string) => farmFolder().remove(sampling).write(named, tinyFarm[sampling]!.replace("date: 2025-10-18", `date: ${date}`));
    expect(moved("2025-10-18").lines()).toEqual([]);
    expect(moved("2025-10-17").lines()).toEqual([`${named}:1:7: date: must be the day in the file's name, 2025-10-18`]);
  });

  it("says itself how a result was measured, over the laboratory's package", () => {
    const event = farmFolder().change(sampling, "package: basic", "package: basic\nmeasured: { K: { method: ammoniumAcetate, unit: lb/ac } }").read().farm!.fields[0]!.samplings[1]!;
    const own = { method: "ammoniumAcetate", unit: "lb/ac" };
    expect([event.composites[0]!.measurements.find((m) => m.analyte === "K"), event.measures.K]).toMatchObject([{ value: 104, ...own }, own]);
  });

  it.each([["2.9", true], ["3", false], ["10.5", false], ["10.6", true]])("a pH of %s is warned of: %s", (pH, warned) => {
    expect(linesOf("pH: 6.2", `pH: ${pH}`)).toEqual(warned ? [`${sampling}:11:7: composites[1].results.pH: warning: ${pH} is outside what soil shows (3 to 10.5); check the sheet`] : []);
  });

  describe("mineral nitrogen, which sums over layers", () => {
    const bags = (...zones: string[]) =>
      farmFolder()
        .write("fields/north/samplings/2026-02-20.yaml", `date: 2026-02-20
purpose: nitrate
lab: north-lab
package: basic
measured: { mineralN: { method: calciumChlorideNitrogen, unit: kg/ha } }
depth: { from: 0, to: 90, unit: cm }
composites:
${zones.map((zone, i) => `  - { label: "N${i}", zone: ${zone}, results: { mineralN: 20 } }\n`).join("")}`)
        .lines()
        .filter((line) => line.includes("mineral nitrogen"));

    it("is one bag a zone", () => expect(bags("west", "east")).toEqual([]));
    it("is warned of where its layers stand as bags, whose mean would be a third of it", () =>
      expect(bags("west", "east", "west", "west")).toEqual(
        [3, 4].map((n) => `fields/north/samplings/2026-02-20.yaml:${n + 7}:43: composites[${n}].results.mineralN: warning: zone west has mineral nitrogen from more than one bag, which are averaged as duplicates; the layers of one sample are recorded as one bag with their sum`),
      ));
  });

  it("a label names one bag", () => {
    expect(linesOf('"0022"\n    zone', '"0021"\n    zone')).toEqual([
      `${sampling}:15:12: composites[2].label: label "0021" stands twice in this event; a label names one bag`,
      `${sampling}:21:16: corrections[1].composite: no bag is labeled "0022"; did you mean 0021?`,
    ]);
  });

  it("says what else is wrong when the laboratory is unknown", () => {
    const text = tinyFarm[sampling]!.replace("lab: north-lab", "lab: x").replace("zone: west", "zone: wst").replace("was: 128", "was: 127");
    expect(farmFolder().write(sampling, text).lines()).toEqual([
      `${sampling}:3:6: lab: laboratory "x" has no file in labs; allowed: north-lab`,
      `${sampling}:9:11: composites[1].zone: zone "wst" is not in field.yaml; did you mean west?`,
      `${sampling}:23:10: corrections[1].was: the file says 128, not 127: this correction no longer fits its result`,
    ]);
  });

  it("a laboratory is held to the same methods and units", () => {
    expect(linesAfter(lab, "pH: { method: water1to1, unit: pH }", "pH: { method: mehlich3, unit: ppm }")).toEqual([
      `${lab}:7:21: packages.basic.measures.pH.method: Mehlich-3 does not measure pH; allowed: ${methodsFor("pH")}`,
      `${lab}:7:37: packages.basic.measures.pH.unit: pH is not reported in ppm; allowed: pH`,
    ]);
  });

  it("a broken laboratory file is not also called unknown", () => {
    expect(farmFolder().write(lab, "name: [\n").lines()).toEqual([`${lab}:2:1: file: a list opened with [ is not closed with ]`]);
  });
});

describe("a correction must still fit what it corrects", () => {
  it.each([
    ["stale", "was: 128", "was: 129", "23:10: corrections[1].was: the file says 128, not 129: this correction no longer fits its result"],
    ["for no bag", 'composite: "0022"', 'composite: "B-7"', '21:16: corrections[1].composite: no bag is labeled "B-7"; allowed: 0021, 0022'],
    ["for no result", "analyte: K", "analyte: P", '22:14: corrections[1].analyte: bag "0022" has no result for P; a correction needs one to correct'],
    ["of nothing", "now: 138", "now: 128", "24:10: corrections[1].now: is the same as was; a correction changes something"],
    ["below nothing", "now: 138", "now: -138", "24:10: corrections[1].now: -138 is too small; must be at least 0"],
    ["before the sampling", "date: 2025-11-01", "date: 2025-10-01", "26:11: corrections[1].date: is before the sampling, 2025-10-18"],
  ])("%s", (_, from, to, line) => {
    expect(linesOf(from, to)).toEqual([`${sampling}:${line}`]);
  });

  it("doubled", () => {
    const text = tinyFarm[sampling]!;
    expect(farmFolder().write(sampling, text + text.split("corrections:\n")[1]!).lines()).toEqual([
      `${sampling}:27:16: corrections[2].composite: K of bag "0022" is corrected twice; keep the last, with the first result as was`,
    ]);
  });

  it("puts a number in place of a bound, and keeps the bound beside it", () => {
    const event = farmFolder().change(sampling, "corrections:", 'corrections:\n  - { composite: "0021", analyte: P, was: 3, now: 5, reason: read again, date: 2025-10-18 }').read().farm!.fields[0]!.samplings[1]!;
    const phosphorus = event.composites[0]!.measurements.find((m) => m.analyte === "P")!;
    expect([phosphorus.value, phosphorus.qualifier, phosphorus.correction?.qualifier]).toEqual([5, undefined, "<"]);
    // "<3" on the first sheet, and 3 on the next one.
    expect(linesOf("corrections:", 'corrections:\n  - { composite: "0021", analyte: P, was: 3, now: 3, reason: read again, date: 2025-10-18 }')).toEqual([]);
  });

  it("keeps what the laboratory wrote beside the corrected value", () => {
    const event = farmFolder().read().farm?.fields[0]?.samplings[1];
    const potassium = event?.composites[1]?.measurements.find((m) => m.analyte === "K");
    expect(potassium).toMatchObject({ value: 138, correction: { was: 128, reason: "The sheet says 138.", date: "2025-11-01" }, origin: { file: sampling, line: 19, column: 7 } });
  });
});

describe("a result soil does not show is doubted, not refused", () => {
  it.each([
    ["a lost point", "pH: 6.2", "pH: 62", "11:7: composites[1].results.pH: warning: 62 is outside what soil shows (3 to 10.5); check the sheet"],
    ["pounds for parts", "K: 104", "K: 900", "14:7: composites[1].results.K: warning: 900 ppm is unusually high; is it lb/ac, which is about twice the ppm?"],
    ["too much for any soil", "K: 104", "K: 10400", "14:7: composites[1].results.K: warning: 10400 ppm is outside what soil shows (0 to 3000); check the sheet"],
  ])("%s", (_, from, to, line) => {
    const farm = farmFolder().change(sampling, from, to);
    expect(farm.lines()).toEqual([`${sampling}:${line}`]);
    expect(farm.read().farm).toBeDefined();
  });

  // An acre of plow layer weighs about two million pounds, a liter of tilled soil about a kilogram: common practice.
  it.each([
    ["lb/ac", "6000", undefined],
    ["lb/ac", "6001", "6001 lb/ac is outside what soil shows (0 to 6000); check the sheet"],
    // RB209 classes vegetable ground as index 5 from 601 mg/l on (table 6.7).
    ["mg/l", "900", undefined],
    ["mg/l", "1040", "1040 mg/l is unusually high; check the sheet"],
    ["mg/l", "3001", "3001 mg/l is outside what soil shows (0 to 3000); check the sheet"],
    ["index", "10400", undefined],
  ])("in %s, %s of potassium: %s", (unit, value, words) => {
    const text = tinyFarm[sampling]!.replace("package: basic", `package: basic\nmeasured: { K: { method: mehlich3, unit: ${unit} } }`);
    expect(farmFolder().write(sampling, text.replace("K: 104", `K: ${value}`)).lines()).toEqual(words ? [`${sampling}:15:7: composites[1].results.K: warning: ${words}`] : []);
  });

  // A buffer's own pH is 6.6 or more (Mehlich's, from memory), and with an acid soil it comes to lie between the two, give or take a bag.
  it.each([
    ["below the pH of acid soil", "pH: 6.2", "5.8", true],
    ["no further below it than readings stray", "pH: 6.2", "5.9", false],
    ["below a soil that is hardly acid", "pH: 6.49", "6.1", true],
    ["below a soil that the buffer may be more acid than", "pH: 6.5", "6.1", false],
    ["that is only bounded", "pH: 6.2", '{ value: 5.8, qualifier: "<" }', false],
  ])("a buffer pH %s", (_, pH, buffer, warned) => {
    const lines = farmFolder().write(sampling, tinyFarm[sampling]!.replace("pH: 6.2", pH).replace("bufferPh: 6.7", `bufferPh: ${buffer}`)).lines();
    expect(lines).toEqual(warned ? [`${sampling}:12:7: composites[1].results.bufferPh: warning: ${buffer} is below the soil pH, ${pH.slice(4)}, and a buffer raises that of acid soil; are the two exchanged, or is one a slip?`] : []);
  });

  it("of a corrected result it is the correction that is doubted", () =>
    expect(linesOf("now: 138", "now: 13800")).toEqual([`${sampling}:24:10: corrections[1].now: warning: 13800 ppm is outside what soil shows (0 to 3000); check the sheet`]));

  it("a correction settles the doubt", () => {
    expect(farmFolder().write(sampling, tinyFarm[sampling]!.replace("K: 128", "K: 1280").replace("was: 128", "was: 1280")).lines()).toEqual([]);
  });
});

it("carries method, unit, depth, day, laboratory and place with every result", () => {
  const event = farmFolder().read().farm?.fields[0]?.samplings[1];
  expect(event?.composites[0]?.measurements.find((m) => m.analyte === "P")).toEqual({
    analyte: "P",
    value: 3,
    qualifier: "<",
    unit: "ppm",
    method: "mehlich3",
    finish: "icp",
    preparation: undefined,
    depth: { from: 0, to: 8, unit: "in" },
    date: "2025-10-18",
    purpose: "routine",
    lab: "north-lab",
    origin: { file: sampling, line: 13, column: 7 },
    correction: undefined,
  });
});
