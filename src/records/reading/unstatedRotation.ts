import type { Guideline } from "../../interpretation/guideline.ts";
import type { When } from "../../interpretation/rules/conditions.ts";
import { list } from "../../interpretation/list.ts";
import { crops } from "../../interpretation/vocabulary.ts";
import type { CropId } from "../../interpretation/vocabulary.ts";
import type { Farm, Field } from "../model.ts";
import type { Problems } from "../problem.ts";

/** Crops grown longer ago say little of what is grown in turn today. */
const yearsBack = 5;

/** Every condition of a guideline that asks what is grown in turn. */
const asking = (value: unknown): When[] => {
  if (typeof value !== "object" || value === null) return [];
  const { when } = value as { when?: When };
  return [...(when?.rotation ? [when] : []), ...Object.values(value).flatMap(asking)];
};

const known = new WeakMap<Guideline, readonly When[]>();
const askedBy = (pack: Guideline): readonly When[] => {
  const found = known.get(pack) ?? asking(pack.sections);
  known.set(pack, found);
  return found;
};

/** What is planned, and what was grown in the newest years, in the order of the records. */
const grown = (field: Field, today: string): { crop: CropId; season: number; origin: Field["plan"][number]["origin"] }[] => {
  const from = Number(today.slice(0, 4)) - yearsBack;
  return [...field.plan, ...field.seasons.filter((s) => s.season >= from).flatMap((s) => s.crops.map((c) => ({ ...c, season: s.season })))];
};

/**
 * Warn, once a field, where a guideline sets levels by the rotation, the field's records show such a crop in turn with another, and its
 * record states no rotation: it would be read by the level of the one crop alone.
 */
export const warnOfUnstatedRotation = ({ fields, today }: Pick<Farm, "fields" | "today">, problems: Problems): void => {
  for (const field of fields) {
    if (field.rotation) continue;
    const all = grown(field, today);
    const ids = [...new Set(all.map((c) => c.crop))];
    for (const pack of field.guidelines) {
      const when = askedBy(pack).find(({ crops: of }) => ids.some((id) => of?.includes(id)));
      const first = when && all.find((c) => when.rotation!.includes(c.crop));
      if (!first) continue;
      const others = ids.filter((id) => when.crops!.includes(id)).map((id) => crops[id].label);
      problems.warn(
        first.origin.file,
        first.origin,
        "crop",
        `${crops[first.crop].label} is grown in turn with ${list(others)}, and ${pack.short} sets levels by that; state it in field.yaml: rotation: [${ids.join(", ")}]`,
      );
      break;
    }
  }
};
