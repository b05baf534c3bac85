import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import * as z from "zod";
import { filesBelow } from "../../../scripts/checkLinks.ts";
import { installation } from "../../../scripts/options.ts";
import { readFast } from "../../../src/records/yaml/fastYaml.ts";
import { Problems } from "../../../src/records/problem.ts";
import { explainRecord } from "../../../src/records/yaml/yamlFile.ts";
import { generateFarm } from "../../support/generateFarm.ts";

/** Every path to a value below a plain value, the value's own included. */
const pathsOf = (value: unknown, path: (string | number)[] = []): (string | number)[][] => {
  if (typeof value !== "object" || value === null) return [path];
  const inner = Array.isArray(value) ? value.map((v, i) => [i, v] as const) : Object.entries(value);
  return [path, ...inner.flatMap(([key, v]) => pathsOf(v, [...path, key]))];
};

/** The two readers must give the same value and put every key and value at the same place. */
const compare = (text: string, name: string): "fast" | "left alone" => {
  const quick = readFast(text);
  if (!quick) return "left alone";
  const problems = new Problems();
  const slow = explainRecord(text, name, z.any(), problems);
  expect(problems.all, name).toEqual([]);
  expect(quick.value, name).toEqual(slow!.value);
  for (const path of pathsOf(quick.value)) {
    expect([path, quick.keyAt(path)], name).toEqual([path, slow!.keyAt(path)]);
    // Where a key has no value at all, its place is a matter of taste; no record's message points there.
    if (path.reduce<unknown>((v, key) => (v as Record<string | number, unknown>)[key], quick.value) !== null)
      for (const to of [path, [...path, "nothing", "of it"]])
        expect([to, quick.at(to), quick.keyAt(to)], name).toEqual([to, slow!.at(to), slow!.keyAt(to)]);
  }
  return "fast";
};

it("reads every record of the demo farm, and every shipped guideline, like the explaining reader", () => {
  const root = join(installation, "content");
  const files = filesBelow(root).filter((f) => f.endsWith(".yaml"));
  expect(files.length).toBeGreaterThan(70);
  expect(files.filter((f) => compare(readFileSync(join(root, f), "utf8"), f) !== "fast")).toEqual([]);
});

it("reads made-up farms like the explaining reader, with any line ending", () => {
  for (const [path, text] of generateFarm({ seed: 7, fields: 3, samplings: 4 })) {
    if (!path.endsWith(".yaml")) continue;
    expect(compare(text, path)).toBe("fast");
    compare(text.replaceAll("\n", "\r\n"), path);
  }
});

it.each([
  "a: 0012\nb: x0x1f\nc: 0b11\nd: 1_000\ne: +12\nf: .5\ng: 5.\nh: 1e3\ni: -0\nj: 12e-2\n",
  "a: yes\nb: True\nc: TRUE\nd: on\ne: null\nf: Null\ng: ~\nh:\ni: NULL\n",
  "a: 2025-10-18\nb: 12:30:45\nc: 2001-12-14t21:59:43.10-05:00\n",
  "a: 'it''s'\nb: \"two words\"\nc: plain words # a remark\nd: 'a: b'\n",
  "a: >-\n  folded\n  text\n\n  more\nb: |\n  kept\n   as is\nc: |+\n  end\n\nd: 1\n",
  "'it''s': { 'a''b''': 1 }\n",
  "{a: 1, b: [x, y, {c: d}], 'e f': \"g\"}\n",
  "- 1\n- - 2\n  - 3\n- a: b\n  c: d\n",
  "a:\n- 1\n- 2\nb:\n    deep:\n        deeper: 1\n",
  "a: first\n  second\n  third\nb: x\n",
  "? a\n: 1\n",
  "1: one\ntrue: yes\n2.5: half\n",
  "\uFEFFa: 1\nb: é\nc: 日本\nd: 🌱\ne: 5\n",
  "a: .inf\nb: .nan\n",
  "---\na: 1\n...\n",
  "a: 12345678901234567890\nb: 0.1\nc: 1e400\n",
])("agrees on %j or leaves it alone", (text) => {
  compare(text, "odd.yaml");
});

it.each(["a: &x 1\nb: *x\n", "a: !!str 1\n", "%YAML 1.1\n---\na: 1\n", 'a: "\\u0007"\n', "__proto__: 1\n", "[a]: 1\n", ": 1\n", "~: 1\n", "a: { Null: 1 }\n", "a: 1\na: 2\n", "a: 1\n---\nb: 1\n", "", "# only a remark\n", "a: [1\n", "\ta: 1\n", "a: 0x1f\n", "[0o17]\n"])(
  "leaves %j to the explaining reader",
  (text) => {
    expect(readFast(text)).toBeUndefined();
  },
);
