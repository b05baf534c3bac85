import type { Guideline } from "./guideline.ts";

/**
 * `own` with the sections of `base` that it does not replace. A section with the id of one of `base` stands in its place, so
 * the order in which rules are asked stays; the others follow. Everything else is `own`'s, but for environmental limits that it
 * does not set itself: to lose them would silence a caution.
 * The two must agree on the kind of every section they both name; whoever reads the records has seen to that.
 */
export const extendGuideline = (own: Guideline, base: Guideline): Guideline => {
  const mine = new Map(own.sections.map((s) => [s.id, s]));
  const theirs = new Set(base.sections.map((s) => s.id));
  return {
    ...own,
    environmentalLimits: own.environmentalLimits ?? base.environmentalLimits,
    sections: [...base.sections.map((s) => mine.get(s.id) ?? s), ...own.sections.filter((s) => !theirs.has(s.id))],
    inherited: {
      from: new Map(base.sections.filter((s) => !mine.has(s.id)).map((s) => [s.id, base.inherited?.from.get(s.id) ?? base.id])),
      replaced: own.sections.filter((s) => theirs.has(s.id)).map((s) => s.id),
    },
  };
};
