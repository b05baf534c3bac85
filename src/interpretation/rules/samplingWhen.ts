import * as z from "zod";
import { monthNames } from "../days.ts";
import { list } from "../list.ts";
import type { CropId, PurposeId, SoilCategoryId } from "../vocabulary.ts";
import { cropIds, crops, soilCategories, soilCategoryIds } from "../vocabulary.ts";
import type { Amount } from "../units.ts";

/** How the ground is worked. */
const tillages = { tilled: "tilled ground", noTill: "no-till", sod: "sod, hay or pasture" } as const;
export const tillageIds = Object.keys(tillages) as [TillageId, ...TillageId[]];
export type TillageId = keyof typeof tillages;

/** What one composite is to stand for. */
export const extents = {
  field: "a whole field",
  zone: "a zone",
  cell: "a grid cell, cores spread over it",
  point: "a grid point, cores close around it",
} as const;
export type ExtentId = keyof typeof extents;

/** lb/ac of nitrogen as anhydrous ammonia above which ground counts as banded (Iowa's late-spring test). */
export const bandedAbove = 50;

const words = {
  terrain: { level: "level, uniform ground", rolling: "hilly or rolling ground" },
  fertility: {
    responsive: "where crops still respond to fertilizer",
    nonResponsive: "where crops no longer respond to fertilizer",
    optimum: "at optimum fertility",
  },
  bandedAmmonia: {
    yes: `more than ${bandedAbove} lb N an acre banded as anhydrous ammonia`,
    no: "little or no nitrogen banded as anhydrous ammonia",
  },
} as const;
const keysOf = <T extends object>(of: T): [keyof T & string, ...(keyof T & string)[]] =>
  Object.keys(of) as [keyof T & string, ...(keyof T & string)[]];

/** What a publication lets a number of its sampling rules depend on. A list means any of its entries. */
export const samplingWhen = z.strictObject({
  tillage: z.array(z.enum(tillageIds)).min(1).optional(),
  crops: z.array(z.enum(cropIds)).min(1).optional(),
  extent: z
    .array(z.enum(keysOf(extents)))
    .min(1)
    .optional(),
  terrain: z.enum(keysOf(words.terrain)).optional(),
  fertility: z
    .array(z.enum(keysOf(words.fertility)))
    .min(1)
    .optional(),
  bandedAmmonia: z.enum(keysOf(words.bandedAmmonia)).optional(),
  soils: z.array(z.enum(soilCategoryIds)).min(1).optional().describe("the soil's category; a soil without one is of none of them"),
  months: z.array(z.number().int().min(1).max(12)).min(1).optional().describe("in which it was taken; a plan is for none of them"),
  yearsSinceTest: z.strictObject({ upTo: z.number().positive().optional(), above: z.number().positive().optional() }).optional(),
});
export type SamplingWhen = z.infer<typeof samplingWhen>;

/** What is asked: a purpose and an area, and what is known of the place. */
export interface SamplingQuestion {
  readonly purpose: PurposeId;
  readonly area?: Amount<"acre" | "ha" | "sq m"> | undefined;
  readonly tillage?: TillageId | undefined;
  readonly crop?: CropId | undefined;
  readonly extent?: ExtentId | undefined;
  readonly terrain?: keyof typeof words.terrain | undefined;
  readonly fertility?: keyof typeof words.fertility | undefined;
  readonly bandedAmmonia?: keyof typeof words.bandedAmmonia | undefined;
  readonly soil?: SoilCategoryId | undefined;
  readonly yearsSinceTest?: number | undefined;
  /** Of a sampling that was taken; absent for one that is planned. */
  readonly month?: number | undefined;
}

/** What a person would have to say, in their words. */
export const samplingFactLabels: Record<string, string> = {
  tillage: "how the ground is worked",
  crops: "the crop",
  extent: "what one composite stands for",
  terrain: "whether the ground is level or rolling",
  fertility: "whether crops still respond to fertilizer",
  bandedAmmonia: "whether anhydrous ammonia was banded",
  soils: "the soil's category",
  months: "when it was taken",
  yearsSinceTest: "how long ago the field was tested",
};

const asked = (q: SamplingQuestion): Record<keyof SamplingWhen, string | number | undefined> => ({
  ...q,
  tillage: q.tillage,
  crops: q.crop,
  extent: q.extent,
  terrain: q.terrain,
  fertility: q.fertility,
  bandedAmmonia: q.bandedAmmonia,
  yearsSinceTest: q.yearsSinceTest,
  // A row for some soils is an exception: a soil of no known category is not asked for it.
  soils: q.soil ?? "",
  // No month is the month of a plan, and no row for some months is meant for it.
  months: q.month ?? 0,
});

const allows = (condition: NonNullable<SamplingWhen[keyof SamplingWhen]>, value: string | number): boolean => {
  if (Array.isArray(condition)) return (condition as readonly (string | number)[]).includes(value);
  if (typeof condition === "string") return condition === value;
  const { upTo = Infinity, above = -Infinity } = condition;
  return typeof value === "number" && value <= upTo && value > above;
};

/**
 * The first row whose condition the question meets; `missing` names the fact that kept a row which fits otherwise from being
 * decided. A row that a known fact rules out never asks for another.
 */
export const firstRow = <T extends { when?: SamplingWhen | undefined }>(
  rows: readonly T[],
  question: SamplingQuestion,
): { found?: T; missing?: string } => {
  const facts = asked(question);
  for (const row of rows) {
    const conditions = Object.entries(row.when ?? {}) as [keyof SamplingWhen, NonNullable<SamplingWhen[keyof SamplingWhen]>][];
    if (conditions.some(([fact, condition]) => facts[fact] !== undefined && !allows(condition, facts[fact]))) continue;
    const unknown = conditions.find(([fact]) => facts[fact] === undefined);
    return unknown ? { missing: unknown[0] } : { found: row };
  }
  return {};
};

/** "no-till or sod, hay or pasture; level, uniform ground" */
export const samplingWhenLabel = (when: SamplingWhen | undefined): string => {
  if (!when) return "";
  const { tillage, extent, terrain, fertility, bandedAmmonia, soils, months, yearsSinceTest: years } = when;
  return [
    tillage?.map((t) => tillages[t]).join(" or "),
    when.crops?.map((c) => crops[c].label).join(" or "),
    extent?.map((e) => extents[e]).join(" or "),
    terrain && words.terrain[terrain],
    fertility?.map((f) => words.fertility[f]).join(" or "),
    bandedAmmonia && words.bandedAmmonia[bandedAmmonia],
    soils &&
      `${list(
        soils.map((s) => soilCategories[s]),
        "or",
      )} soil`,
    months &&
      `in ${list(
        months.map((m) => monthNames[m - 1]!),
        "or",
      )}`,
    years?.upTo !== undefined && `tested within ${years.upTo} years`,
    years?.above !== undefined && `not tested for more than ${years.above} years`,
  ]
    .filter(Boolean)
    .join("; ");
};
