import type { Guideline } from "../../interpretation/guideline.ts";
import { fingerprint } from "./canonicalJson.ts";
import type { GuidelinePrint } from "../schemas/recommendation.ts";

/** What a guideline says of itself, its sections aside. Where a section was taken over from is no content of its own. */
const headOf = (pack: Guideline): object => ({ ...pack, sections: undefined, inherited: undefined });

/** A guideline as an archive names it: what it is, and a fingerprint of all of it, of each section, and of the rest. */
export const packPrint = (pack: Guideline): GuidelinePrint => {
  const known = printed.get(pack);
  if (known) return known;
  const sections = Object.fromEntries(pack.sections.map((s) => [s.id, fingerprint(s)]));
  const rest = fingerprint(headOf(pack));
  const print: GuidelinePrint = {
    id: pack.id,
    short: pack.short,
    title: pack.title,
    publication: pack.publication,
    ...(pack.edition !== undefined && { edition: pack.edition }),
    fingerprint: fingerprint({ ...headOf(pack), sections: pack.sections }),
    rest,
    sections,
  };
  printed.set(pack, print);
  return print;
};

/** Every archive of a farm asks for the same guidelines. */
const printed = new WeakMap<Guideline, GuidelinePrint>();

/** What became of a guideline since an archive named it. */
export interface PackSince {
  readonly id: string;
  readonly short: string;
  readonly state: "same" | "edited" | "gone";
  /** Ids of sections that are otherwise now, that are new, and that are no longer there. */
  readonly edited: readonly string[];
  readonly added: readonly string[];
  readonly removed: readonly string[];
  /** Its description was edited: title, status, gaps or the like, and no rule. */
  readonly restEdited: boolean;
}

/** Compare a guideline as it was named with what stands in the records now; `undefined`: it is not there any more. */
export const packSince = (then: GuidelinePrint, pack: Guideline | undefined): PackSince => {
  const named = { id: then.id, short: then.short };
  if (!pack) return { ...named, state: "gone", edited: [], added: [], removed: [], restEdited: false };
  const now = packPrint(pack);
  const was = Object.keys(then.sections);
  return {
    ...named,
    state: now.fingerprint === then.fingerprint ? "same" : "edited",
    edited: was.filter((id) => now.sections[id] !== undefined && now.sections[id] !== then.sections[id]),
    added: Object.keys(now.sections).filter((id) => then.sections[id] === undefined),
    removed: was.filter((id) => now.sections[id] === undefined),
    restEdited: now.rest !== then.rest,
  };
};
