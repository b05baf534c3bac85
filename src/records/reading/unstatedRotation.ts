import type { Guideline, Section } from "../../interpretation/guideline.ts";
import type { When } from "../../interpretation/rules/conditions.ts";
import { list } from "../../interpretation/list.ts";
import { crops } from "../../interpretation/vocabulary.ts";
import { isReadBy, waysOfRule } from "../../interpretation/waysRead.ts";
import type { CropId } from "../../interpretation/vocabulary.ts";
import type { Farm, Field, Sampling } from "../model.ts";
import type { Problems } from "../problem.ts";

/** Crops grown longer ago say little of what is grown in turn today. */
const yearsBack = 5;

/** Every condition of a rule that asks what is grown in turn. */
const asking = (value: unknown): When[] => {
  if (typeof value !== "object" || value === null) return [];
  const { when } = value as { when?: When };
  return [...(when?.rotation ? [when] : []), ...Object.values(value).flatMap(asking)];
};

/** A guideline's rules that ask so, few of many; found once for all fields. */
const rulesAsking = (pack: Guideline): { readonly rule: Section; readonly whens: readonly When[] }[] =>
  pack.sections.map((rule) => ({ rule, whens: asking(rule) })).filter(({ whens }) => whens.length > 0);

type Measures = Sampling["measures"];

/** Is there a laboratory, or a result, that the rule can read? What reads no one analyte holds for every soil. */
const isUsed = (rule: Section, measures: readonly Measures[]): boolean => {
  if (!("analyte" in rule)) return true;
  const ways = waysOfRule(rule, rule.analyte);
  return measures.some((m) => m[rule.analyte] !== undefined && isReadBy(ways, m[rule.analyte]!));
};

/** What is planned, and what was grown in the newest years, in the order of the records. */
const grown = (field: Field, today: string): { crop: CropId; season: number; origin: Field["plan"][number]["origin"] }[] => {
  const from = Number(today.slice(0, 4)) - yearsBack;
  return [...field.plan, ...field.seasons.filter((s) => s.season >= from).flatMap((s) => s.crops.map((c) => ({ ...c, season: s.season })))];
};

/**
 * Warn, once a field, where a guideline sets levels by the rotation, the field's records show such a crop in turn with another, and its
 * record states no rotation: it would be read by the level of the one crop alone. Levels for a way of measuring that neither the farm's
 * laboratories nor the field's results know are read nowhere.
 */
export const warnOfUnstatedRotation = ({ fields, labs, today }: Pick<Farm, "fields" | "labs" | "today">, problems: Problems): void => {
  const offered = [...labs.values()].flatMap((lab) => Object.values(lab.packages).map((p) => p.measures));
  const rules = new Map<Guideline, ReturnType<typeof rulesAsking>>();
  const rulesOf = (pack: Guideline): ReturnType<typeof rulesAsking> => {
    const found = rules.get(pack) ?? rulesAsking(pack);
    rules.set(pack, found);
    return found;
  };
  for (const field of fields) {
    if (field.rotation) continue;
    const all = grown(field, today);
    const measures = [...offered, ...field.samplings.map((s) => s.measures)];
    const ids = [...new Set(all.map((c) => c.crop))];
    for (const pack of field.guidelines) {
      const when = rulesOf(pack)
        .filter(({ rule }) => isUsed(rule, measures))
        .flatMap(({ whens }) => whens)
        .find(({ crops: of }) => ids.some((id) => of?.includes(id)));
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
