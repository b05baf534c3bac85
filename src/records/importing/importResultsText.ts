import { isDeepStrictEqual } from "node:util";
import type { YAMLMap } from "yaml";
import { isMap, isScalar, isSeq, parse, parseDocument } from "yaml";
import type { Splice } from "../yaml/splices.ts";
import { below, endOf, indentOf, pairOf, spliced, valueOf } from "../yaml/splices.ts";
import type { NewResult } from "./importResultsRow.ts";

/** Results to add to one bag of a sampling file; `index` is the bag's place under `composites`, from 0. */
export interface BagResults {
  readonly index: number;
  readonly added: readonly Pick<NewResult, "analyte" | "value" | "digits" | "qualifier">[];
}

/**
 * The text of a sampling file with results added, and nothing else changed: comments, order, quotes, line ends and a byte
 * order mark stay as they are, since new text is only put between old. `undefined` where the file is written in a way that
 * cannot be added to safely: what was written is read again, and must be the old record and the new results.
 */
export const withResults = (text: string, bags: readonly BagResults[]): string | undefined => {
  const mark = text.startsWith("\ufeff") ? "\ufeff" : "";
  const body = text.slice(mark.length);
  const composites = parseDocument(body, { version: "1.2", schema: "core" }).get("composites");
  if (!isSeq(composites)) return undefined;
  const style = usesFlow(composites.items) ? "flow" : "block";
  const splices: Splice[] = [];
  for (const { index, added } of bags) {
    const composite = composites.items[index];
    const splice = isMap(composite) ? spliceFor(body, composite, added, style) : undefined;
    if (!splice) return undefined;
    splices.push(splice);
  }
  const written = spliced(body, splices);
  return holds(written, body, bags) ? mark + written : undefined;
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
const inBraces = (added: Added): string => added.map((r) => `${r.analyte}: ${written(r)}`).join(", ");

const spliceFor = (text: string, composite: YAMLMap, added: Added, style: "flow" | "block"): Splice | undefined => {
  const results = pairOf(composite, "results");
  const value = results?.value;
  if (!results) {
    const last = [...composite.items]
      .reverse()
      .find((pair) => isScalar(pair.key) && ["label", "zone", "cores"].includes(String(pair.key.value)));
    if (!last) return undefined;
    if (composite.flow) return { at: endOf(last), over: 0, put: `, results: { ${inBraces(added)} }` };
    const indent = indentOf(text, last);
    return below(
      text,
      endOf(last),
      style === "flow" ? [`${indent}results: { ${inBraces(added)} }`] : [`${indent}results:`, ...lines(added, `${indent}  `)],
    );
  }
  if (isMap(value) && value.items.length > 0) {
    const last = value.items.at(-1)!;
    return value.flow
      ? { at: endOf(last), over: 0, put: `, ${inBraces(added)}` }
      : below(text, endOf(last), lines(added, indentOf(text, last)));
  }
  if (!isMap(value)) return undefined;
  const [start, end] = value.range!;
  if (composite.flow || style === "flow" || !/^\{\s*\}$/.test(text.slice(start, end)))
    return { at: start + 1, over: 0, put: ` ${inBraces(added)}${text.charAt(start + 1) === "}" ? " " : ""}` };
  // `results: {}` becomes a block of lines below its key; a comment after the braces stays where it is.
  const { at, put } = below(text, end, lines(added, `${indentOf(text, results)}  `));
  const from = text.charAt(start - 1) === " " ? start - 1 : start;
  return { at: from, over: at - from, put: text.slice(end, at) + put };
};

const lines = (added: Added, indent: string): string[] => added.map((r) => `${indent}${r.analyte}: ${written(r)}`);

interface Plain {
  readonly composites: { results?: Record<string, unknown> | null }[];
}

const holds = (after: string, before: string, bags: readonly BagResults[]): boolean => {
  const expected = parse(before) as Plain;
  for (const { index, added } of bags) {
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
