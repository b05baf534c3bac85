import type { Guideline } from "../../interpretation/guideline.ts";
import type { Farm } from "../../records/model.ts";
import { count } from "../words.ts";

/** Where one section of a guideline that extends another comes from. */
export interface SectionOrigin {
  /** "Taken over unchanged from" or "Stands in place of the rule in". */
  readonly words: string;
  readonly guideline: { readonly id: string; readonly short: string };
}

export interface InheritedView {
  readonly base: { readonly id: string; readonly short: string };
  /** "Two of its rules are taken over, one is replaced and one added." */
  readonly words: string;
  readonly of: (section: string) => SectionOrigin | undefined;
}

const named = (farm: Farm, id: string): { id: string; short: string } => ({ id, short: farm.allGuidelines.get(id)?.short ?? id });

/** What a guideline took over from the one it extends; `undefined` for one that extends none. */
export const inheritedView = (farm: Farm, pack: Guideline): InheritedView | undefined => {
  const { inherited, extends: baseId } = pack;
  if (!inherited || baseId === undefined) return undefined;
  const { from, replaced } = inherited;
  const added = pack.sections.length - from.size - replaced.length;
  return {
    base: named(farm, baseId),
    words:
      `${count(from.size, "rule")} taken over unchanged with ${from.size === 1 ? "its" : "their"} own sources, ${count(replaced.length, "rule")} replaced, ${count(added, "rule")} added.`.replace(
        /^./,
        (c) => c.toUpperCase(),
      ),
    of: (section) => {
      const origin = from.get(section);
      if (origin !== undefined) return { words: "Taken over unchanged from", guideline: named(farm, origin) };
      return replaced.includes(section) ? { words: "Stands in place of the rule in", guideline: named(farm, baseId) } : undefined;
    },
  };
};

/** A guideline and all that it is built on, nearest first. */
export const withBases = (farm: Farm, pack: Guideline): Guideline[] => {
  const base = pack.extends === undefined ? undefined : farm.allGuidelines.get(pack.extends);
  return base ? [pack, ...withBases(farm, base)] : [pack];
};
