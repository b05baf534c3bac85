import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { withResults } from "../../../src/records/importing/importResultsText.ts";
import { answeredSampling, awaitingSampling } from "../../support/awaitingFarm.ts";

const number = (analyte: "K" | "pH", digits: string, qualifier?: "<" | ">") => ({ analyte, value: Number(digits), digits, qualifier });
const k = number("K", "104");

describe("results put into a sampling file", () => {
  it("are never put where they stand already", () => {
    expect(withResults(answeredSampling, [{ index: 0, added: [k] }])).toBeUndefined();
  });

  it.each([
    ["after the last of a block", 'composites:\n  - label: "1"\n    zone: a\n    results:\n        pH: 6 # read twice\n\n# end\n', "        pH: 6 # read twice\n        K: 104\n\n# end\n"],
    ["within braces", "composites:\n  - label: a\n    zone: a\n    results: {pH: 6.30 , } # ok\n", "    results: {pH: 6.30, K: 104 , } # ok\n"],
    ["within braces over several lines", "composites:\n  - label: a\n    zone: a\n    results: {\n      pH: 6, # one\n    }\n", "      pH: 6, K: 104, # one\n"],
    ["within empty braces that hold a comment", "composites:\n  - label: a\n    zone: a\n    results: { # awaited\n    }\n", "    results: { K: 104 # awaited\n    }\n"],
    ["in place of empty braces", "composites:\n  - label: a\n    zone: a\n    results: {}   # awaited\n    note: x\n", "    results:   # awaited\n      K: 104\n    note: x\n"],
    ["below a file's last line", "composites:\n  - label: a\n    zone: a", "    zone: a\n    results:\n      K: 104"],
    ["below a line that ends as on Windows", "composites:\r\n  - label: a\r\n    zone: a\r\n", "    zone: a\r\n    results:\r\n      K: 104\r\n"],
    ["as the other bags have them", "composites:\n  - label: b\n    zone: a\n  - label: a\n    zone: a\n    results: { pH: 6 }\n", "    zone: a\n    results: { K: 104 }\n  - label: a\n"],
    ["in place of empty braces behind the dash of their bag", "composites:\n  - results: {}\n    label: a\n    zone: a\n", "  - results:\n      K: 104\n    label: a\n"],
    ["within empty braces, as the other bags have them", "composites:\n  - label: b\n    zone: a\n    results: {}\n  - label: a\n    zone: a\n    results: { pH: 6 }\n", "    results: { K: 104 }\n  - label: a\n"],
    ["within empty braces of a bag on one line", "composites: [{ label: a, zone: b, results: {} }]\n", "results: { K: 104 } }]\n"],
    ["into a bag on one line", "composites: [{ label: a, zone: b }]\n", "composites: [{ label: a, zone: b, results: { K: 104 } }]\n"],
    ["before a note of many lines", "composites:\n- zone: b\n  label: a\n  note: >-\n    many\n\n    lines\n", "  label: a\n  results:\n    K: 104\n  note: >-\n"],
  ])("stand %s", (_, before, part) => {
    const after = withResults(before, [{ index: 0, added: [k] }]);
    expect(after).toContain(part);
  });

  it.each([
    ["below the bags", "composites:\n  - label: a\n    zone: a\n    results: { K: 96 }\n\n# end\n", "    results: { K: 96 }\ncorrections:\n  - { composite: a, analyte: K, was: 96, now: 69, reason: \"read again, twice\", date: 2025-11-03 }\n\n# end\n"],
    ["below the last one", "corrections:\n- composite: b\n  now: 5 # five\ncomposites: [{ label: a, zone: a, results: { K: 96 } }]\n", "  now: 5 # five\n- { composite: a, analyte: K, was: 96, now: 69, reason: \"read again, twice\", date: 2025-11-03 }\ncomposites"],
    ["as deep as the last one", "composites: [{ label: a, zone: a, results: { K: 96 } }]\r\ncorrections:\r\n    - { composite: b }", "    - { composite: b }\r\n    - { composite: a, analyte: K, was: 96, now: 69, reason: \"read again, twice\", date: 2025-11-03 }"],
    ["within brackets", "composites: [{ label: a, zone: a, results: { K: 96 } }]\ncorrections: [{ composite: b }]\n", "[{ composite: b }, { composite: a, analyte: K, was: 96, now: 69, reason: \"read again, twice\", date: 2025-11-03 }]\n"],
    ["within empty brackets", "corrections: []\ncomposites: [{ label: a, zone: a, results: { K: 96 } }]\n", "corrections: [{ composite: a, analyte: K, was: 96, now: 69, reason: \"read again, twice\", date: 2025-11-03 }]\n"],
  ])("leave results to correct alone, and corrections stand %s", (_, before, part) => {
    const bag = { index: 0, label: "a", added: [], corrected: [{ analyte: "K" as const, was: 96, value: 69 }] };
    const after = withResults(before, [bag], { reason: "read again, twice", date: "2025-11-03" });
    expect(after).toContain(part);
    expect(after).toContain("K: 96");
  });

  it.each([
    ["below the depth, where the record has none", "depth: { from: 0, to: 8, unit: in } # as ever\ncomposites: []\n", 'unit: in } # as ever\nhandling: { receivedOn: 2025-10-21, reportedOn: 2025-10-28 }\nreport: { number: "104" }\ncomposites'],
    ["below the last line of a block", "depth:\n  from: 0\n  to: 8\nhandling:\n    pail: plastic # new\n\ncomposites: []\n", 'to: 8\nreport: { number: "104" }\nhandling:\n    pail: plastic # new\n    receivedOn: 2025-10-21\n    reportedOn: 2025-10-28\n\ncomposites'],
    ["below a text of several lines", "depth: {from: 0}\nreport: {file: a.pdf}\nhandling:\n  pail: plastic\n  tool: >-\n    tube\n    probe\ncomposites: []\n", "    probe\n  receivedOn: 2025-10-21\n  reportedOn: 2025-10-28\ncomposites"],
    ["within braces", "depth: {from: 0}\nreport: {file: a.pdf}\nhandling: { pail: metal, }\ncomposites: []\n", 'report: {file: a.pdf, number: "104"}\nhandling: { pail: metal, receivedOn: 2025-10-21, reportedOn: 2025-10-28, }\n'],
    ["within empty braces", "handling: {}\nreport: {file: a.pdf}\ndepth: {from: 0}\ncomposites: []\n", "handling: { receivedOn: 2025-10-21, reportedOn: 2025-10-28 }\n"],
    ["below a line that ends as on Windows", "depth: {from: 0}\r\ncomposites: []\r\n", 'depth: {from: 0}\r\nhandling: { receivedOn: 2025-10-21, reportedOn: 2025-10-28 }\r\nreport: { number: "104" }\r\n'],
  ])("what the laboratory says of its own work stands %s", (_, before, part) => {
    const said = { receivedOn: "2025-10-21", reportedOn: "2025-10-28", number: "104" };
    expect(withResults(before, [], undefined, said)).toContain(part);
  });

  it("a day is put beside results of the same file, and a number of the report is a text whatever it looks like", () => {
    const after = withResults(awaitingSampling, [{ index: 0, added: [k] }], undefined, { number: "0x1F \"a\"" })!;
    expect(after).toBe(awaitingSampling.replace("unit: in }\n", 'unit: in }\nreport: { number: "0x1F \\"a\\"" }\n').replace("    cores: 20\n", "    cores: 20\n    results:\n      K: 104\n"));
    expect((parse(after) as { report: unknown }).report).toEqual({ number: '0x1F "a"' });
  });

  it("keep a byte order mark", () => {
    expect(withResults(`\ufeff${awaitingSampling}`, [{ index: 0, added: [k] }])).toBe(`\ufeff${awaitingSampling.replace("    cores: 20\n", "    cores: 20\n    results:\n      K: 104\n")}`);
  });

  it.each([
    ["no list of bags", "composites: none\n"],
    ["a result that was given no value", "composites:\n  - label: a\n    zone: a\n    results: ~\n"],
    ["keys with question marks", "composites:\n  - ? label\n    : a\n    ? zone\n    : b\n"],
  ])("are refused where there is %s, rather than put in somewhere", (_, before) => {
    expect(withResults(before, [{ index: 0, added: [k] }])).toBeUndefined();
  });
});

/** Bags as many hands write them: keys in any order, comments, quotes, braces and spaces. */
const comment = fc.constantFrom("", "", " # a comment: with [marks]", "   # \"quoted\"");
const label = fc.constantFrom('"0021"', "'it''s'", '"B, east"', '"=1+1"', '"a # b"', "plain");
const present = fc.constantFrom<"none" | "empty" | "braces" | "block">("none", "empty", "braces", "block");
const bag = fc.record({ label, present, comment, blank: fc.boolean(), flow: fc.boolean(), zoneFirst: fc.boolean(), note: fc.boolean(), wide: fc.boolean(), get: fc.boolean() });
type Bag = typeof bag extends fc.Arbitrary<infer T> ? T : never;

const bagLines = (b: Bag, n: number): string[] => {
  const name = b.label.replace(/(.)$/, (end) => (/['"]/.test(end) ? `${n}${end}` : `${end}${n}`));
  if (b.flow) return [`  - { label: ${name}, zone: west${b.present === "none" ? "" : b.present === "empty" ? ", results: {}" : ", results: { pH: 6.30 }"} }${b.comment}`];
  const pad = b.wide ? "     " : "    ";
  const keys = [`label: ${name}${b.comment}`, `zone:   west`];
  if (b.zoneFirst) keys.reverse();
  const first = `  -${pad.slice(3)}${keys[0]!}`;
  const results = { none: [], empty: [`${pad}results: {}${b.comment}`], braces: [`${pad}results: { pH: 6.30 }${b.comment}`], block: [`${pad}results:${b.comment}`, `${pad}   pH: 6.30`] }[b.present];
  return [first, `${pad}${keys[1]!}`, ...(b.blank ? ["", "    # between"] : []), ...results, ...(b.note ? [`${pad}note: >-`, `${pad}  two: words`, "", `${pad}  more`] : [])];
};

/** How many lines two texts have in common, in one order: the longest common subsequence. */
const inCommon = (a: readonly string[], b: readonly string[]): number => {
  let above = Array<number>(b.length + 1).fill(0);
  for (const line of a) {
    const row = [0];
    b.forEach((other, at) => row.push(line === other ? above[at]! + 1 : Math.max(above[at + 1]!, row[at]!)));
    above = row;
  }
  return above[b.length]!;
};

/** `FUZZ_RUNS=10000` for a longer hunt. */
const numRuns = Number(process.env["FUZZ_RUNS"] ?? 300);

it("a line that is not added to stays as it was, to the byte, and all that is new is the results", { timeout: 30_000 + numRuns * 100 }, () => {
  let changedLines = 0;
  let runs = 0;
  fc.assert(
    fc.property(fc.array(bag, { minLength: 1, maxLength: 5 }), fc.constantFrom("\n", "\r\n"), fc.boolean(), fc.constantFrom("", "\ufeff"), (bags, end, lastEnd, mark) => {
      const lines = ["# top", "date:  2025-10-18 # day", "composites:", ...bags.flatMap(bagLines), "# after", "note: 'x'"];
      const before = mark + lines.join(end) + (lastEnd ? end : "");
      const wanted = bags.flatMap((b, index) => (b.get ? [{ index, added: [number("K", "104.0"), ...(b.present === "none" || b.present === "empty" ? [number("pH", "5", "<")] : [])] }] : []));
      const after = withResults(before, wanted)!;
      expect(after).toBeDefined();
      // New text is only put between old; at most the braces of `results: {}` give way.
      const old = before.split("\n");
      const touched = old.length - inCommon(old, after.split("\n"));
      const may = wanted.filter(({ index }) => bags[index]!.flow || bags[index]!.present === "empty" || bags[index]!.present === "braces").length;
      // The file's last line gets an ending where lines come below it; here a comment and a note always stand last.
      expect(touched).toBeLessThanOrEqual(may);
      expect(after.endsWith(end)).toBe(lastEnd);
      expect(after.replace(/\r\n/g, "\n").includes("\r")).toBe(false);
      const read = parse(after.replace(/^\ufeff/, "")) as { composites: { results?: unknown }[] };
      for (const { index } of wanted) expect(read.composites[index]!.results).toMatchObject({ K: 104 });
      changedLines += touched;
      runs += 1;
    }),
    { seed: 20251018, numRuns },
  );
  expect(runs).toBeGreaterThan(0);
  expect(changedLines).toBeGreaterThan(0);
});
