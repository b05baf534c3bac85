import type { RuleValue } from "../../interpretation/checks/coverage.ts";
import type { Guideline } from "../../interpretation/guideline.ts";
import { plain } from "../../interpretation/show.ts";
import { ruleTitle } from "./guidelineView.ts";
import { count } from "../words.ts";

/** The numbers of one rule that no check value holds. */
export interface Unchecked {
  readonly pack: string;
  readonly title: string;
  readonly rule: string;
  readonly ruleTitle: string;
  /** "Table 2; page 8": where the publication prints them, as far as the rule says. */
  readonly at: string;
  readonly held: string;
  /** What the numbers are, in words. */
  readonly free: string;
  /** The places in the guideline's file, for whoever keeps it. */
  readonly places: string;
}

const depth = ["limit of depth", "limits of depth"] as const;
const condition = ["condition", "conditions"] as const;
const most = ["most in one application", "most in one application"] as const;
const cell = ["cell of the table", "cells of the table"] as const;

/** What a number is, by the first of these names on its way in the file. */
const words: Readonly<Record<string, readonly [one: string, several: string]>> = {
  depth: depth,
  depths: depth,
  otherDepth: depth,
  requires: condition,
  when: condition,
  caps: most,
  mostAtOnce: most,
  mostOnSurface: most,
  doubtful: ["mark of a doubtful cell", "marks of doubtful cells"],
  buildUp: ["years of build-up", "years of build-up"],
  tableYield: ["yield the table is printed for", "yields the table is printed for"],
  classes: ["limit of a class", "limits of classes"],
  roundTo: ["decimals of the rounding", "decimals of the rounding"],
  material: ["strength of the material meant", "strength of the material meant"],
  split: ["rate from which it is split", "rates from which it is split"],
  cores: ["number of cores", "numbers of cores"],
  areas: ["largest area of a sample", "largest areas of a sample"],
  years: ["years between samplings", "years between samplings"],
  composites: cell,
  bounds: ["limit of time or height", "limits of time or height"],
  moisturePercent: ["moisture of a yield", "moistures of yields"],
  mostSalt: ["most salt beside the seed", "most salt beside the seed"],
  range: ["end of the range to keep", "ends of the range to keep"],
  limeBelow: ["pH to lime below", "pH values to lime below"],
  target: ["target pH", "target pH values"],
  below: cell,
  from: cell,
  least: ["smallest rate", "smallest rates"],
  poundsPerBushel: ["weight of a bushel", "weights of bushels"],
};

/** "limits of depth, two numbers; condition": a name without words here stands as it is. */
const whatOf = (values: readonly RuleValue[]): string => {
  const kinds = new Map<readonly [string, string], number>();
  for (const { path } of values) {
    const names = path.replace(/\[\d+\]/g, "").split(".");
    const last = names.findLast((name) => name !== "value")!;
    const name = names.find((each) => Object.hasOwn(words, each));
    const said = name === undefined ? ([...kinds.keys()].find(([one]) => one === last) ?? [last, last]) : words[name]!;
    kinds.set(said, (kinds.get(said) ?? 0) + 1);
  }
  return [...kinds].map(([[one, several], n]) => (n === 1 ? one : `${several}, ${count(n, "number")}`)).join("; ");
};

/** Paths that differ only in their places in lists are one: "rows[…][…]: 12 numbers". */
const placesOf = (values: readonly RuleValue[]): string => {
  const patterns = new Map<string, RuleValue[]>();
  for (const v of values) {
    const pattern = v.path.replace(/\[\d+\]/g, "[…]");
    patterns.set(pattern, [...(patterns.get(pattern) ?? []), v]);
  }
  return [...patterns]
    .map(([pattern, each]) =>
      each.length > 6
        ? `${pattern}: ${each.length} numbers, ${plain(Math.min(...each.map((v) => v.value)))} to ${plain(Math.max(...each.map((v) => v.value)))}`
        : each.map((v) => `${v.path} is ${plain(v.value)}`).join(", "),
    )
    .join("; ");
};

/** Every rule that has a number which no check value holds, in the order of the guidelines. */
export const uncheckedValues = (values: readonly RuleValue[], packs: ReadonlyMap<string, Guideline>): Unchecked[] =>
  [...Map.groupBy(values, (v) => `${v.pack}/${v.section}`).values()].flatMap((all): Unchecked[] => {
    const free = all.filter((v) => v.state !== "held");
    if (free.length === 0) return [];
    const [{ pack: id, section, state }] = free as [RuleValue];
    const pack = packs.get(id)!;
    return [
      {
        pack: id,
        title: pack.short,
        rule: section,
        ruleTitle: ruleTitle(pack.sections.find((s) => s.id === section)!),
        at: [...new Set(free.flatMap((v) => v.at ?? []))].join("; "),
        held: `${all.length - free.length} of ${all.length}`,
        free: `${state === "unrun" ? "Checked in the test run only: " : ""}${whatOf(free)}`,
        places: placesOf(free),
      },
    ];
  });
