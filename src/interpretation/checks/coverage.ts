import type { Guideline, Section } from "../guideline.ts";
import type { Source } from "../outcome.ts";
import type { CheckKind, Published, Shelf } from "./check.ts";
import { shelfOf } from "./check.ts";
import { checkKinds } from "./kinds.ts";
import type { CheckedList, RawChecks } from "./runChecks.ts";
import { runChecks } from "./runChecks.ts";

/** One number of a guideline's rule. */
export interface RuleValue {
  readonly pack: string;
  readonly section: string;
  readonly kind: Section["kind"];
  /** `levels[2].critical.value`; list items counted from 1, as a person counts. */
  readonly path: string;
  readonly value: number;
  /** The table or page it was taken from, as far as the rule names one. */
  readonly at: string | undefined;
  /** `held`: some check value would fail if the number were another. `free`: none would. `unrun`: its kind is checked in the test run only. */
  readonly state: "held" | "free" | "unrun";
}

interface Leaf {
  readonly holder: Record<string | number, unknown>;
  readonly key: string | number;
  readonly path: string;
  readonly at: string | undefined;
}

const isSource = (key: string): key is "source" => key === "source";

const placeOf = (source: unknown): string | undefined =>
  typeof source === "object" && source !== null && "at" in source && typeof source.at === "string" ? source.at : undefined;

/** Every number below a section, where it hangs, and the place of the nearest source. A source's own numbers (a page, a year) are no rule values. */
const leavesOf = (node: unknown, path = "", above?: string): Leaf[] => {
  if (typeof node !== "object" || node === null) return [];
  const at = placeOf((node as { source?: unknown }).source) ?? above;
  return Object.entries(node as Record<string, unknown>).flatMap(([key, each]): Leaf[] => {
    if (
      isSource(key) &&
      (typeof each === "string" || (typeof each === "object" && each !== null && "reference" in (each as Source & object)))
    )
      return [];
    const here = Array.isArray(node) ? `${path}[${Number(key) + 1}]` : path === "" ? key : `${path}.${key}`;
    if (typeof each === "number") return [{ holder: node as Leaf["holder"], key, path: here, at }];
    return leavesOf(each, here, at);
  });
};

interface Runnable {
  readonly kind: CheckKind;
  readonly check: Published;
  readonly shelf: Shelf;
}

/** A view of records that takes note of every number read through it. */
class Watched {
  readonly #seen = new WeakMap<object, object>();
  /** By the block or list the numbers hang in, their keys. */
  reads = new Map<object, Set<string>>();

  of<T extends object>(node: T): T {
    const known = this.#seen.get(node);
    if (known) return known as T;
    const view = new Proxy(node, {
      get: (target, key) => {
        const value: unknown = Reflect.get(target, key);
        if (typeof value === "number" && typeof key === "string") this.#note(target, key);
        return typeof value === "object" && value !== null ? this.of(value) : value;
      },
    });
    this.#seen.set(node, view);
    return view;
  }

  #note(target: object, key: string): void {
    const keys = this.reads.get(target);
    if (keys) keys.add(key);
    else this.reads.set(target, new Set([key]));
  }
}

const holds = ({ kind, check, shelf }: Runnable): boolean => {
  try {
    return kind.run(check, shelf).every((v) => v.ok);
  } catch {
    // A rule bent out of shape may not work at all: noticed all the same.
    return false;
  }
};

/** A tenth up, a tenth down, and a zero by one: would any of the check values notice? The number is put back. */
const noticed = ({ holder, key }: Leaf, cases: readonly Runnable[]): boolean => {
  const value = holder[key] as number;
  for (const other of value === 0 ? [1, -1] : [value * 1.1 + 0.01, value * 0.9 - 0.01]) {
    holder[key] = other;
    const caught = cases.some((c) => !holds(c));
    holder[key] = value;
    if (caught) return true;
  }
  return false;
};

const push = (lists: Map<string, Runnable[]>, key: string, each: Runnable): void => {
  const list = lists.get(key);
  if (list) list.push(each);
  else lists.set(key, [each]);
};

export interface Coverage {
  readonly lists: readonly CheckedList[];
  readonly values: readonly RuleValue[];
}

/**
 * Every check value worked out and, for every number of every guideline: would a check value fail if it were another? Found
 * out by changing it. The guidelines given are copied first, so nobody else sees a changed number.
 */
export const coverage = (files: readonly RawChecks[], guidelines: ReadonlyMap<string, Guideline>): Coverage => {
  const packs = structuredClone(guidelines) as Map<string, Guideline>;
  const watched = new Watched();
  const readers = new Map<object, Map<string, Runnable[]>>();
  const lists = runChecks(files, { get: (id) => packs.get(id) && watched.of(packs.get(id)!) }, ({ kind, check, own, verdicts }) => {
    const { reads } = watched;
    watched.reads = new Map();
    // A check value that does not hold can notice nothing.
    if (!verdicts.every((v) => v.ok)) return;
    const runnable: Runnable = { kind, check, shelf: shelfOf(packs, own) };
    for (const [holder, keys] of reads) {
      const byKey = readers.get(holder) ?? new Map<string, Runnable[]>();
      readers.set(holder, byKey);
      for (const key of keys) push(byKey, key, runnable);
    }
  });
  const run = new Set(checkKinds.map((k) => k.file));
  const values = [...packs.values()].flatMap((pack) =>
    pack.sections.flatMap((section) =>
      leavesOf(section).map((leaf): RuleValue => {
        const about = readers.get(leaf.holder)?.get(String(leaf.key)) ?? [];
        const base = {
          pack: pack.id,
          section: section.id,
          kind: section.kind,
          path: leaf.path,
          at: leaf.at,
          value: leaf.holder[leaf.key] as number,
        };
        return { ...base, state: noticed(leaf, about) ? "held" : run.has(section.kind) ? "free" : "unrun" };
      }),
    ),
  );
  return { lists, values };
};
