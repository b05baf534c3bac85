import type { Guideline } from "../../interpretation/guideline.ts";
import { guideline } from "../../interpretation/guideline.ts";
import { extendGuidelines } from "./extendGuidelines.ts";
import type { Folder } from "../folder.ts";
import { yamlRecord } from "../judges.ts";
import type { Reference } from "../model.ts";
import { allowedWords } from "../nearMiss.ts";
import { fieldName } from "../place.ts";
import type { Problems } from "../problem.ts";
import { references } from "../schemas/references.ts";
import type { Parsed } from "../yaml/yamlFile.ts";
import { parseRecord } from "../yaml/yamlFile.ts";

export interface Library {
  readonly guidelines: Map<string, Guideline>;
  readonly references: Map<string, Reference>;
  /** Ids of guideline files that are there but could not be used: named elsewhere, they are not "unknown". */
  readonly broken: Set<string>;
  /** Ids of the guidelines of the last folder, where there is one before it. */
  readonly own: Set<string>;
}

/**
 * Read guidelines and references from folders in order; a later folder's record replaces an earlier one of the same id,
 * so a farm can keep its own edition of a pack beside the installed ones. One that extends another takes its sections over. Every `reference` must name a publication.
 */
export const readLibrary = (folders: readonly Folder[], problems: Problems): Library => {
  const library: Library = { guidelines: new Map(), references: new Map(), broken: new Set(), own: new Set() };
  const packs: Parsed<Guideline>[] = [];
  // A references.yaml that cannot be read would make every reference of every pack "unknown".
  let referencesKnown = true;
  for (const folder of folders) {
    if (folder.has("references.yaml")) {
      const text = folder.read("references.yaml");
      const parsed = text === undefined ? undefined : parseRecord(text, folder.name("references.yaml"), references, problems);
      if (!parsed) referencesKnown = false;
      for (const [id, record] of Object.entries(parsed?.value ?? {})) library.references.set(id, { id, ...record });
    }
    for (const name of folder.list("guidelines", yamlRecord)) {
      const path = `guidelines/${name}`;
      const id = name.replace(/\.yaml$/, "");
      const text = folder.read(path);
      const pack = text === undefined ? undefined : parseGuideline(text, folder.name(path), id, problems);
      if (!pack) {
        library.broken.add(id);
        continue;
      }
      library.guidelines.set(id, pack.value);
      if (folders.length > 1 && folder === folders.at(-1)) library.own.add(id);
      packs.push(pack);
    }
  }
  extendGuidelines(library, packs, problems);
  if (referencesKnown) for (const pack of packs) checkReferences(pack, library.references, problems);
  return library;
};

const readBefore = new Map<string, { readonly text: string; readonly pack: Parsed<Guideline> }>();

/**
 * A text of which nothing was to be told is not read twice: whoever reads a farm again in one process, such as the server after each
 * change, would check every installed guideline anew, which takes longer than the farm itself.
 */
const parseGuideline = (text: string, file: string, id: string, problems: Problems): Parsed<Guideline> | undefined => {
  const before = readBefore.get(file);
  if (before?.text === text) return before.pack;
  const told = problems.all.length;
  const parsed = parseRecord(text, file, guideline, problems);
  if (!parsed) return undefined;
  const pack = { ...parsed, value: { id, ...parsed.value } };
  if (problems.all.length === told) readBefore.set(file, { text, pack });
  return pack;
};

const checkReferences = (pack: Parsed<Guideline>, known: ReadonlyMap<string, Reference>, problems: Problems): void => {
  const check = (id: string, path: (string | number)[]): void => {
    if (!known.has(id))
      problems.error(
        pack.file,
        pack.at(path),
        fieldName(path),
        `reference "${id}" is not in references.yaml; ${allowedWords(id, [...known.keys()])}`,
      );
  };
  check(pack.value.publication, ["publication"]);
  const walk = (value: unknown, path: (string | number)[]): void => {
    if (Array.isArray(value)) value.forEach((each, i) => walk(each, [...path, i]));
    else if (typeof value === "object" && value !== null)
      for (const [key, each] of Object.entries(value)) {
        if (key === "reference" && typeof each === "string") check(each, [...path, key]);
        else walk(each, [...path, key]);
      }
  };
  walk(pack.value, []);
};
