import type { Document, Node, Scalar, YAMLMap } from "yaml";
import { isAlias, isCollection, isMap, isPair, isScalar, isSeq, visit } from "yaml";
import type { Place } from "../place.ts";
import { fieldName } from "../place.ts";
import type { Problems } from "../problem.ts";
import { tagWords } from "./syntaxWords.ts";

/** Control characters, marks that turn the direction of writing, and halves of characters, that a quoted text can spell with an escape. */
const unshown = /[\0-\x08\x0b-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069]|\p{Surrogate}/u;

/**
 * Refuse YAML that a record has no use for and that harms: a second key hides the first, anchors multiply, tags and figures of
 * another base change what a value is, `__proto__` vanishes, a list as a key has no name. True when there was any.
 */
export const refuseOdd = (document: Document, place: (node: Node) => Place, file: string, problems: Problems): boolean => {
  const refused = new Set<string>();
  const refuse = (node: Node, message: string): void => {
    // Once a file: a file of aliases holds thousands.
    if (!refused.has(message)) problems.error(file, place(node), "", message);
    refused.add(message);
  };
  let doubled = false;
  const listed = new Set<unknown>();
  const open: unknown[] = [document.contents];
  while (open.length > 0) {
    const node = open.pop();
    if (isPair(node)) {
      if (!isScalar(node.key) || node.key.value === null)
        refuse(nodeOf(node.key) ?? nodeOf(node.value) ?? document.contents!, "a key must be a word");
      else if (node.key.value === "__proto__") refuse(node.key, "__proto__ is not a key known here");
      open.push(node.value, node.key);
      continue;
    }
    if (isAlias(node) || ((isScalar(node) || isCollection(node)) && node.anchor !== undefined))
      refuse(node, "anchors (&) and aliases (*) are not allowed in a record; write the value out");
    if ((isScalar(node) || isCollection(node)) && node.tag !== undefined) refuse(node, tagWords);
    if (isScalar(node) && typeof node.value === "string" && unshown.test(node.value))
      refuse(node, "has a character that no page can show; leave it out");
    if (isScalar(node) && (node.format === "HEX" || node.format === "OCT"))
      refuse(node, `${node.source} is read as the number ${String(node.value)}; write that, or put it in quotes where it is a text`);
    const twice = isMap(node) ? doubledKeys(node) : [];
    doubled ||= twice.length > 0;
    const names = twice.map((key) => fieldName([String(key.value)]));
    if (twice.length > 1 && listed.has(node))
      // Two entries of a list that ran into one: one slip, however many keys they have.
      problems.error(
        file,
        place(twice[0]!),
        "",
        `the keys ${names.join(", ")} stand twice in one entry; is the hyphen of the next one missing?`,
      );
    else twice.forEach((key, i) => problems.error(file, place(key), "", `the key ${names[i]!} stands twice in one block; keep one`));
    if (isSeq(node)) for (const item of node.items) listed.add(item);
    if (isCollection(node)) for (let i = node.items.length - 1; i >= 0; i--) open.push(node.items[i]);
  }
  return doubled || refused.size > 0;
};

/** Sums of larger numbers would end in infinity, or in more digits than a table has room for. */
const largest = 1e12;

/** Refuse numbers that fit a record and count nothing there is. True when there was any. */
export const refuseTooLarge = (document: Document, place: (node: Node) => Place, file: string, problems: Problems): boolean => {
  let any = false;
  visit(document, {
    Scalar: (_, node) => {
      if (typeof node.value !== "number" || !Number.isFinite(node.value) || Math.abs(node.value) <= largest) return;
      any = true;
      problems.error(file, place(node), "", `${(node.source ?? "").slice(0, 40)} is larger than anything that a record counts; check it`);
    },
  });
  return any;
};

/** The parser's own check compares each key with every other one, too slow for a block of thousands. */
const doubledKeys = (map: YAMLMap): Scalar[] => {
  const seen = new Set<string>();
  return map.items.flatMap(({ key }) => {
    if (!isScalar(key)) return [];
    const name = String(key.value);
    if (seen.has(name)) return [key];
    seen.add(name);
    return [];
  });
};

/** The node, for what may also be nothing. */
export const nodeOf = (value: unknown): Node | undefined => (isAlias(value) || isScalar(value) || isCollection(value) ? value : undefined);
