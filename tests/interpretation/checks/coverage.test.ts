import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { installation } from "../../../scripts/options.ts";
import type { RawChecks } from "../../../src/interpretation/checks/runChecks.ts";
import { coverage } from "../../../src/interpretation/checks/coverage.ts";
import { runChecks } from "../../../src/interpretation/checks/runChecks.ts";
import { readChecks } from "../../../src/records/reading/readChecks.ts";
import { checksView } from "../../../src/views/guidelines/checksView.ts";

const checks = readChecks(join(installation, "tests", "cases"), join(installation, "content"));
const before = structuredClone(checks.packs);
const { values } = coverage(checks.files, checks.packs);
const view = checksView(checks);

describe("the check values of the page", () => {
  it("all agree, each with at least one verdict", () => {
    const worked = runChecks(checks.files, checks.packs).flatMap((list) => list.checks.filter((c) => c.verdicts));
    expect(worked.length).toBeGreaterThan(500);
    expect(worked.filter((c) => c.verdicts!.length === 0 || c.verdicts!.some((v) => !v.ok)).map((c) => c.name)).toEqual([]);
  });

  it("say on the page how far apart a printed and a worked number may be, what is known of it, and no name of the program", () => {
    const rows = view.tables.flatMap((t) => t.groups.flatMap((g) => g.rows));
    // North Carolina prints 0.76 for 1.2 x 0.625, which is 0.75.
    expect(rows.find((r) => r.name.startsWith("the printed example: pH 5.0, target 6.0, acidity 1.2"))).toMatchObject({ published: "0.76", worked: "0.75", result: "agrees within 0.011", note: "1.2 times 0.625 is 0.75; the page prints 0.76" });
    expect(rows.filter((r) => r.agrees && r.published !== r.worked && r.result === "agrees").map((r) => r.name)).toEqual([]);
    expect(rows.map((r) => `${r.published} ${r.worked}`).filter((text) => text.includes("noAnswer"))).toEqual([]);
  });

  it("are every value of every file: none is left out of the totals", () => {
    const written = checks.files.flatMap(({ raw }) => Object.entries(raw).flatMap(([key, list]) => (Array.isArray(list) && key !== "sources" ? (list as unknown[]) : [])));
    expect(view.totals.reduce((sum, t) => sum + t.all, 0)).toBe(written.length);
    expect(new Set(view.tables.map((t) => t.id)).size).toBe(view.tables.length);
  });
});

/** Numbers below a section, counted in another way than the coverage counts them: every sourced number, and every cell of a table. */
const sourced = (node: unknown): number => {
  if (typeof node !== "object" || node === null) return 0;
  return Object.values(node).reduce((sum: number, each: unknown) => sum + (typeof each === "number" ? 1 : sourced(each)), 0);
};

describe("the values of the guidelines", () => {
  it("are each held by a check value or listed as unchecked", () => {
    const all = [...checks.packs.values()].reduce((sum, pack) => sum + sourced(pack.sections), 0);
    expect(values).toHaveLength(all);
    const listed = view.unchecked;
    for (const v of values.filter((each) => each.state !== "held")) {
      const row = listed.find((u) => u.pack === v.pack && u.rule === v.section);
      expect(row?.free, `${v.pack}/${v.section} ${v.path}`).toMatch(/\S/);
      expect(row!.places.includes(v.path) || row!.places.includes(v.path.replace(/\[\d+\]/g, "[…]")), `${v.pack}/${v.section} ${v.path}`).toBe(true);
    }
  });

  it("are told to a reader by the guideline's name, the rule's, and the table, in words that are no names of the file", () => {
    const listed = view.unchecked;
    // Read in the guidelines' files: Iowa 2002 marks one doubtful cell, two caps and a depth that no case tries.
    expect(listed.find((u) => u.pack === "us-iowa-lime-2002")).toMatchObject({ title: checks.packs.get("us-iowa-lime-2002")!.short, ruleTitle: "Lime by SMP buffer" });
    expect(listed.find((u) => u.pack === "us-iowa-lime-2002")!.free).toBe("limit of depth; most in one application, two numbers; marks of doubtful cells, two numbers");
    for (const { free } of listed) expect(free).not.toMatch(/[a-z][A-Z](?!H?\b)|\[|\.[a-z]/);
  });

  it("are left as they were", () => expect([...checks.packs]).toEqual([...before]));

  it("are found free where their check value is taken away, and held where it stands", () => {
    const [critical] = values.filter((v) => v.pack === "us-tristate-974-2020" && v.section === "potash" && v.path === "levels[1].critical.value");
    expect(critical!.state).toBe("held");
    const without = checks.files.map((f): RawChecks => (f.name === "buildMaintain" ? { ...f, raw: { ...f.raw, cases: [] } } : f));
    expect(coverage(without, checks.packs).values.find((v) => v.pack === critical!.pack && v.section === "potash" && v.path === critical!.path)!.state).toBe("free");
  });
});
