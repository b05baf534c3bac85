import { readdirSync, readFileSync } from "node:fs";
import { parse } from "yaml";
import * as z from "zod";
import { expect, it } from "vitest";
import type { CheckKind, Published } from "../../src/interpretation/checks/check.ts";
import { ownRules, shelfOf } from "../../src/interpretation/checks/check.ts";
import { installedPacks } from "./packs.ts";

export { facts, published, toleranceOf } from "../../src/interpretation/checks/check.ts";

const folder = new URL("../cases/", import.meta.url);

export const caseFiles = readdirSync(folder).filter((name) => name.endsWith(".yaml"));

const known = new Map<string, Record<string, unknown>>();

/** A file of cases as plain data, read when it is first asked for. The many cases share few sources, so the limit on aliases is lifted. */
export const rawCases = (name: string): Record<string, unknown> => {
  const raw = known.get(name) ?? (parse(readFileSync(new URL(name, folder), "utf8"), { maxAliasCount: -1 }) as Record<string, unknown>);
  known.set(name, raw);
  return raw;
};

/** The cases of one list in one file, and the rules that stand in it, each through its own schema. */
export const readCases = <C extends z.ZodType>(name: string, shape: C, list = "cases") => {
  const raw = rawCases(name);
  return {
    rules: ownRules(raw),
    cases: z.array(shape).min(1).parse(raw[list]),
  };
};

/** Work out every check value of a kind, by the runner that the site's own page of checks uses: one test a value. */
export const checkedAsPublished = <C extends Published>(kind: CheckKind<C>): void => {
  const { cases, rules } = readCases(`${kind.file}.yaml`, kind.shape, kind.list);
  const shelf = shelfOf(installedPacks, rules);
  it.each(cases)("$case", (c) => {
    const verdicts = kind.run(c, shelf);
    expect(verdicts.length).toBeGreaterThan(0);
    expect(verdicts.filter((v) => !v.ok)).toEqual([]);
  });
};
