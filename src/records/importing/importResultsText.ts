import { isDeepStrictEqual } from "node:util";
import type { YAMLMap } from "yaml";
import { isMap, isScalar, isSeq, parse, parseDocument } from "yaml";
import type { Splice } from "../yaml/splices.ts";
import { below, endOf, inBraces, indentOf, pairOf, spliced, valueOf } from "../yaml/splices.ts";
import type { CorrectedResult, NewResult } from "./importResultsRow.ts";
import type { Statement } from "./importStatements.ts";
import { statementIds, statementPlaces } from "./importStatements.ts";

/** Results to add to one bag of a sampling file; `index` is the bag's place under `composites`, from 0. */
export interface BagResults {
  readonly index: number;
  readonly added: readonly Pick<NewResult, "analyte" | "value" | "digits" | "qualifier">[];
  /** Results to correct, and the label by which a correction names its bag. */
  readonly corrected?: readonly Pick<CorrectedResult, "analyte" | "was" | "value">[];
  readonly label?: string;
}

/** Why results are corrected, and on which day. */
export interface Correcting {
  readonly reason: string;
  readonly date: string;
}

/**
 * The text of a sampling file with results and corrections added, and nothing else changed: comments, order, quotes, line ends and a byte
 * order mark stay as they are, since new text is only put between old. `undefined` where the file is written in a way that
 * cannot be added to safely: what was written is read again, and must be the old record and the new results.
 */
export const withResults = (text: string, bags: readonly BagResults[], why?: Correcting, said: Statement = {}): string | undefined => {
  const { contents } = parseDocument(text, { version: "1.2", schema: "core" });
  const composites = isMap(contents) ? valueOf(contents, "composites") : undefined;
  if (!isMap(contents) || !isSeq(composites)) return undefined;
  const style = usesFlow(composites.items) ? "flow" : "block";
  const splices: Splice[] = [];
  for (const { index, added } of bags) {
    if (added.length === 0) continue;
    const composite = composites.items[index];
    const splice = isMap(composite) ? spliceFor(text, composite, added, style) : undefined;
    if (!splice) return undefined;
    splices.push(splice);
  }
  const corrections = correctionsOf(bags, why);
  if (corrections.length > 0) splices.push(correcting(text, contents, corrections));
  splices.push(...stating(text, contents, said));
  const written = spliced(text, splices);
  return holds(written, text, bags, corrections, said) ? written : undefined;
};

type Parts = Map<string, Record<string, string>>;

/** By the key of the record under which they stand. */
const partsOf = (said: Statement): Parts => {
  const parts: Parts = new Map();
  for (const id of statementIds) {
    const [part, key] = statementPlaces[id];
    if (said[id] !== undefined) parts.set(part, { ...parts.get(part), [key]: said[id] });
  }
  return parts;
};

/** A day stands as it is written everywhere; what the laboratory calls its report may look like a number. */
const stated = (values: Record<string, string>): string[] =>
  Object.entries(values).map(([key, text]) => `${key}: ${key === "number" ? JSON.stringify(text) : text}`);

/** What is stated joins what stands under its key; the first of a file stands below the depth, which every sampling has. */
const stating = (text: string, record: YAMLMap, said: Statement): Splice[] => {
  const fresh: string[] = [];
  const splices = [...partsOf(said)].flatMap(([part, values]): Splice[] => {
    const map = valueOf(record, part);
    const last = isMap(map) ? map.items.at(-1) : undefined;
    if (isMap(map) && last)
      return map.flow
        ? [
            {
              at: endOf(last),
              over: 0,
              put: stated(values)
                .map((each) => `, ${each}`)
                .join(""),
            },
          ]
        : [
            below(
              text,
              endOf(last),
              stated(values).map((each) => `${indentOf(text, last)}${each}`),
            ),
          ];
    if (isMap(map)) return [{ at: map.range![0] + 1, over: 0, put: ` ${stated(values).join(", ")} ` }];
    fresh.push(`${part}: { ${stated(values).join(", ")} }`);
    return [];
  });
  return fresh.length > 0 ? [below(text, endOf(pairOf(record, "depth")), fresh), ...splices] : splices;
};

type Correction = Readonly<Record<"composite" | "analyte" | "reason" | "date", string> & Record<"was" | "now", number>>;

const correctionsOf = (bags: readonly BagResults[], why: Correcting | undefined): Correction[] =>
  bags.flatMap(({ label = "", corrected = [] }) =>
    corrected.map(({ analyte, was, value }) => ({ composite: label, analyte, was, now: value, ...why! })),
  );

/** Corrections stand below those that there are; the first of a file, below its bags. */
const correcting = (text: string, record: YAMLMap, corrections: readonly Correction[]): Splice => {
  const words = corrections.map(inBraces);
  const pair = pairOf(record, "corrections");
  const list = pair?.value;
  if (!isSeq(list)) return below(text, endOf(pairOf(record, "composites")), ["corrections:", ...words.map((each) => `  - ${each}`)]);
  const last = list.items.at(-1);
  if (list.flow && last) return { at: endOf(last), over: 0, put: words.map((each) => `, ${each}`).join("") };
  if (list.flow) return { at: list.range![0] + 1, over: 0, put: words.join(", ") };
  const [start] = (last as YAMLMap).range!;
  const dash = text.slice(text.lastIndexOf("\n", start - 1) + 1, start);
  return below(
    text,
    endOf(last),
    words.map((each) => `${dash.slice(0, dash.indexOf("-"))}- ${each}`),
  );
};

type Added = BagResults["added"];

/** Whether the file's results, as far as there are any, stand in braces. */
const usesFlow = (items: readonly unknown[]): boolean => {
  const styles = items.flatMap((item) => {
    const results = isMap(item) ? valueOf(item, "results") : undefined;
    return isMap(results) && results.items.length > 0 ? [results.flow === true] : [];
  });
  return styles[0] ?? false;
};

const written = ({ digits, qualifier }: Added[number]): string =>
  qualifier === undefined ? digits : `{ value: ${digits}, qualifier: "${qualifier}" }`;
const resultsInBraces = (added: Added): string => added.map((r) => `${r.analyte}: ${written(r)}`).join(", ");

const spliceFor = (text: string, composite: YAMLMap, added: Added, style: "flow" | "block"): Splice | undefined => {
  const results = pairOf(composite, "results");
  const value = results?.value;
  if (!results) {
    const last = [...composite.items]
      .reverse()
      .find((pair) => isScalar(pair.key) && ["label", "zone", "cores"].includes(String(pair.key.value)));
    if (!last) return undefined;
    if (composite.flow) return { at: endOf(last), over: 0, put: `, results: { ${resultsInBraces(added)} }` };
    const indent = indentOf(text, last);
    return below(
      text,
      endOf(last),
      style === "flow" ? [`${indent}results: { ${resultsInBraces(added)} }`] : [`${indent}results:`, ...lines(added, `${indent}  `)],
    );
  }
  if (isMap(value) && value.items.length > 0) {
    const last = value.items.at(-1)!;
    return value.flow
      ? { at: endOf(last), over: 0, put: `, ${resultsInBraces(added)}` }
      : below(text, endOf(last), lines(added, indentOf(text, last)));
  }
  if (!isMap(value)) return undefined;
  const [start, end] = value.range!;
  if (composite.flow || style === "flow" || !/^\{\s*\}$/.test(text.slice(start, end)))
    return { at: start + 1, over: 0, put: ` ${resultsInBraces(added)}${text.charAt(start + 1) === "}" ? " " : ""}` };
  // `results: {}` becomes a block of lines below its key; a comment after the braces stays where it is.
  const { at, put } = below(text, end, lines(added, `${indentOf(text, results)}  `));
  const from = text.charAt(start - 1) === " " ? start - 1 : start;
  return { at: from, over: at - from, put: text.slice(end, at) + put };
};

const lines = (added: Added, indent: string): string[] => added.map((r) => `${indent}${r.analyte}: ${written(r)}`);

interface Plain {
  readonly composites: { results?: Record<string, unknown> | null }[];
  corrections?: unknown[];
  [part: string]: unknown;
}

const holds = (
  after: string,
  before: string,
  bags: readonly BagResults[],
  corrections: readonly Correction[],
  said: Statement,
): boolean => {
  const expected = parse(before) as Plain;
  for (const [part, values] of partsOf(said)) expected[part] = { ...(expected[part] as object | undefined), ...values };
  if (corrections.length > 0) expected.corrections = [...(expected.corrections ?? []), ...corrections];
  for (const { index, added } of bags) {
    if (added.length === 0) continue;
    const bag = expected.composites[index]!;
    bag.results = {
      ...bag.results,
      ...Object.fromEntries(
        added.map(({ analyte, value, qualifier }) => [analyte, qualifier === undefined ? value : { value, qualifier }]),
      ),
    };
  }
  try {
    return isDeepStrictEqual(parse(after), expected);
  } catch {
    return false;
  }
};
