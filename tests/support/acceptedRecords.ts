import { editorSchemas } from "../../src/records/editorSchemas.ts";

/** A part of a JSON Schema, as far as zod writes it. */
interface Part {
  readonly type?: string;
  readonly const?: unknown;
  readonly enum?: readonly unknown[];
  readonly properties?: Readonly<Record<string, Part>>;
  readonly required?: readonly string[];
  readonly items?: Part | readonly Part[];
  readonly additionalProperties?: Part | boolean;
  readonly anyOf?: readonly Part[];
  readonly oneOf?: readonly Part[];
  readonly allOf?: readonly Part[];
}

/** What a key of the records may hold: any value of a type, or the values listed. */
export interface Accepted {
  readonly optional: boolean;
  readonly values: readonly string[];
}

const branches = (part: Part): readonly Part[] => {
  const alternatives = [...(part.anyOf ?? []), ...(part.oneOf ?? []), ...(part.allOf ?? [])];
  return alternatives.length > 0 ? alternatives.flatMap(branches) : [part];
};

const written = (part: Part): string[] => {
  if (part.const !== undefined) return [JSON.stringify(part.const)];
  if (part.enum) return part.enum.map((value) => JSON.stringify(value));
  return part.type === undefined ? ["anything"] : [`any ${part.type}`];
};

const walk = (parts: readonly Part[], path: string, optional: boolean, found: Map<string, Accepted>): void => {
  const all = parts.flatMap(branches);
  found.set(path, { optional, values: [...new Set(all.flatMap(written))].sort() });
  const keys = [...new Set(all.flatMap((p) => Object.keys(p.properties ?? {})))];
  const objects = all.filter((p) => p.properties);
  for (const key of keys)
    walk(objects.flatMap((p) => p.properties![key] ?? []), `${path}.${key}`, !objects.every((p) => p.required?.includes(key)), found);
  const items = all.flatMap((p) => p.items ?? []);
  if (items.length > 0) walk(items, `${path}[]`, true, found);
  const others = all.flatMap((p) => (typeof p.additionalProperties === "object" ? [p.additionalProperties] : []));
  if (others.length > 0) walk(others, `${path}.*`, true, found);
};

/** Every key that the records of a farm may have, by its path, and what it may hold. Guidelines excepted: those that are shipped show their keys at work. */
export const acceptedRecords = (): Map<string, Accepted> => {
  const found = new Map<string, Accepted>();
  for (const [name, text] of editorSchemas()) if (name !== "guideline.json") walk([JSON.parse(text) as Part], name.replace(".json", ""), false, found);
  return found;
};

/** One line a key, in the order of their paths; `?` where it may be absent. */
export const acceptedText = (accepted: ReadonlyMap<string, Accepted>): string =>
  [...accepted]
    .map(([path, { optional, values }]) => `${path}${optional ? "?" : ""}: ${values.join(" | ")}\n`)
    .sort()
    .join("");

export const acceptedOf = (text: string): Map<string, Accepted> =>
  new Map(
    text
      .trim()
      .split("\n")
      .map((line) => {
        const [, path, mark, values] = /^(.*?)(\??): (.*)$/.exec(line)!;
        return [path!, { optional: mark === "?", values: values!.split(" | ") }] as const;
      }),
  );

/** What the records of `before` could say and those of `now` cannot, and what they must say now and needed not. */
export const noLongerAccepted = (before: ReadonlyMap<string, Accepted>, now: ReadonlyMap<string, Accepted>): string[] => [
  ...[...before].flatMap(([path, old]) => {
    const today = now.get(path);
    if (!today) return [`${path} is no key any more`];
    const open = today.values.includes("any string") || today.values.includes("anything");
    const lost = old.values.filter((value) => !today.values.includes(value) && !(open && value.startsWith('"')));
    return [...(lost.length > 0 ? [`${path} may not be ${lost.join(", ")} any more`] : []), ...(old.optional && !today.optional ? [`${path} may not be absent any more`] : [])];
  }),
  ...[...now].flatMap(([path, { optional }]) => (optional || before.has(path) || !before.has(path.slice(0, path.lastIndexOf("."))) ? [] : [`${path} is new and may not be absent`])),
];
