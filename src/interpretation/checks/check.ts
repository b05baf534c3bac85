import * as z from "zod";
import type { Guideline, Section, SectionKind } from "../guideline.ts";
import { section } from "../guideline.ts";
import type { Outcome } from "../outcome.ts";
import { evidenceGrades } from "../outcome.ts";
import { soilClassIds, strawIds, textureIds, cropIds } from "../vocabulary.ts";

/** What every check value says of itself: where it was published and how well that is known. */
export const published = z.strictObject({
  case: z.string().min(1),
  from: z.strictObject({ source: z.string().min(12), at: z.string().min(3) }),
  evidence: z.enum(evidenceGrades),
  note: z.string().optional(),
  tolerance: z.number().positive().optional(),
});
export type Published = z.infer<typeof published>;

/** The facts of a place, as a check value states them. */
export const facts = z.strictObject({
  crop: z.enum(cropIds).optional(),
  rotation: z.array(z.enum(cropIds)).optional(),
  texture: z.enum(textureIds).optional(),
  cec: z.number().optional(),
  organicMatter: z.number().optional(),
  subsoilPh: z.number().optional(),
  soilPh: z.number().optional(),
  sodium: z.number().optional(),
  sodiumByVolume: z.number().optional(),
  calciumSaturation: z.number().optional(),
  straw: z.enum(strawIds).optional(),
  soilClass: z.enum(soilClassIds).optional(),
});

/** Where a check value finds the rule it is about. */
export interface Shelf {
  pack(id: string): Guideline;
  /** A rule by the name a case gives it: `guideline/section`, or one of the rules that stand in the case's own file; of one of these kinds. */
  rule<K extends SectionKind>(name: string, ...kinds: [K, ...K[]]): Extract<Section, { kind: K }>;
}

/** A value that was worked out, beside the published one. */
export interface Verdict {
  readonly what: string;
  readonly got: number | string | undefined;
  readonly wanted: number | string;
  readonly ok: boolean;
}

/** One kind of check value: how it is written, and how it is worked out. One list of a file of cases. */
export interface CheckKind<C extends Published = Published> {
  /** The file's name without its ending. */
  readonly file: string;
  readonly list: string;
  readonly title: string;
  readonly shape: z.ZodType<C>;
  run(check: C, shelf: Shelf): Verdict[];
}

/** How far a sum may be from the printed number: what the publication rounded away, else only the computer's own dust. */
export const toleranceOf = (c: Pick<Published, "tolerance">): number => c.tolerance ?? 1e-9;

export const near = (what: string, got: number | undefined, wanted: number, c: Pick<Published, "tolerance">): Verdict => ({
  what,
  got,
  wanted,
  ok: got !== undefined && Math.abs(got - wanted) <= toleranceOf(c),
});

export const same = (what: string, got: number | string | undefined, wanted: number | string): Verdict => ({
  what,
  got,
  wanted,
  ok: got === wanted,
});

/** The value, or the refusal as a verdict that failed. */
export const valueOf = <T>(outcome: Outcome<T>, of: (value: T) => Verdict[]): Verdict[] =>
  outcome.kind === "answer"
    ? of(outcome.value)
    : [{ what: "an answer", got: `none, because ${outcome.because}`, wanted: "an answer", ok: false }];

const ofKind = <K extends SectionKind>(found: Section | undefined, name: string, kinds: readonly K[]): Extract<Section, { kind: K }> => {
  if (!kinds.some((kind) => kind === found?.kind)) throw new Error(`${name} is not a ${kinds.join(" or ")} rule`);
  return found as Extract<Section, { kind: K }>;
};

/** The guidelines that are installed, and a case file's own rules beside them. */
export const shelfOf = (packs: { get(id: string): Guideline | undefined }, own: Readonly<Record<string, Section>>): Shelf => {
  const pack = (id: string): Guideline => {
    const found = packs.get(id);
    if (!found) throw new Error(`a check value names the guideline ${id}, which is not installed`);
    return found;
  };
  return {
    pack,
    rule: (name, ...kinds) => {
      const [id, sectionId] = name.split("/");
      return sectionId === undefined
        ? ofKind(own[name], name, kinds)
        : ofKind(
            pack(id!).sections.find((s) => s.id === sectionId),
            name,
            kinds,
          );
    },
  };
};

/** The rules that stand in a file of cases, each through its own schema. */
export const ownRules = (raw: Readonly<Record<string, unknown>>): Record<string, Section> =>
  z.record(z.string(), section).parse(raw["rules"] ?? {});
