import type { Farm, Reference } from "../../records/model.ts";
import { shownGuidelines } from "./comparison.ts";

export interface ReferenceView {
  readonly reference: Reference;
  /** The guidelines of this site that take values from it. */
  readonly usedBy: readonly { readonly id: string; readonly short: string }[];
}

/** Every publication that a guideline of this site takes a value from, and which guidelines do; in order of publisher and title. */
export const referencesView = (farm: Farm): ReferenceView[] => {
  const uses = new Map<string, Set<string>>();
  const shown = shownGuidelines(farm);
  for (const pack of shown.values()) {
    const seen = new Set([pack.publication]);
    collect(pack, seen);
    for (const id of seen) uses.set(id, (uses.get(id) ?? new Set()).add(pack.id));
  }
  return [...uses]
    .flatMap(([id, packs]): ReferenceView[] => {
      const reference = farm.references.get(id);
      return reference ? [{ reference, usedBy: [...packs].map((pack) => ({ id: pack, short: shown.get(pack)!.short })) }] : [];
    })
    .sort((a, b) => {
      const [left, right] = [a, b].map(({ reference: r }) => `${r.publisher} ${r.number ?? ""} ${r.title}`);
      return left! < right! ? -1 : left! > right! ? 1 : 0;
    });
};

const collect = (value: unknown, into: Set<string>): void => {
  if (Array.isArray(value)) value.forEach((each) => collect(each, into));
  else if (typeof value === "object" && value !== null)
    for (const [key, each] of Object.entries(value)) {
      if (key === "reference" && typeof each === "string") into.add(each);
      else collect(each, into);
    }
};
