import { advise } from "../../interpretation/advise.ts";
import type { Guideline } from "../../interpretation/guideline.ts";
import type { Measurement } from "../../interpretation/measurement.ts";
import type { EarlierLime } from "../../interpretation/rules/bufferAcidity.ts";
import type { Sample } from "../../interpretation/sample.ts";
import type { Starter } from "../../interpretation/starter.ts";
import type { Farm, FarmProduct, Sampling, Zone } from "../../records/model.ts";
import type { FrozenProduct, FrozenZone, RecommendationRecord } from "../../records/schemas/recommendation.ts";
import type { NextCrop } from "../advice/nextCrop.ts";
import type { ZoneAdvice } from "../advice/sample.ts";
import type { Facts } from "../../interpretation/rules/facts.ts";
import type { NitrogenQuestion } from "../../interpretation/nitrogen/nitrogenCredits.ts";

/** A crop to be advised for; its starter names a product of the list. */
type FrozenCrop = Omit<NextCrop, "starter"> & {
  readonly starter?: (Omit<Starter, "fertilizer"> & { readonly product: string }) | undefined;
};

/** All that one zone's advice is worked out from, but for the guidelines and the farm's products. */
export interface FrozenInputs {
  readonly results: readonly Measurement[];
  /** The facts of the place, those of the crop aside. */
  readonly soil: Facts;
  readonly crop?: FrozenCrop | undefined;
  readonly limeBefore?: readonly EarlierLime[] | undefined;
  readonly settings: Omit<Sample, "measurements" | "facts" | "yieldGoal" | "packs" | "nitrogen" | "earlierLime" | "materials">;
  readonly nitrogen?:
    | {
        readonly sampling?: Pick<Sampling, "id" | "date"> | undefined;
        readonly crop?: FrozenCrop | undefined;
        readonly since?: number | undefined;
        readonly question: NitrogenQuestion;
      }
    | undefined;
}

/** The inputs that an archive holds. Their seal was proved when the archive was read. */
export const inputsIn = (zone: FrozenZone): FrozenInputs => zone.inputs as unknown as FrozenInputs;

/** A value as JSON can hold it: what is `undefined` is left out. Throws for a number that JSON has no word for. */
export const asJson = <T>(value: T): T => {
  if (typeof value === "number" && !Number.isFinite(value)) throw new Error(`${value} cannot be kept in a record`);
  if (Array.isArray(value)) return value.map(asJson) as T;
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(Object.entries(value).flatMap(([key, each]) => (each === undefined ? [] : [[key, asJson(each)]]))) as T;
};

const without = <T extends object, K extends string>(value: T, ...keys: K[]): Omit<T, K> =>
  Object.fromEntries(Object.entries(value).filter(([key]) => !(keys as string[]).includes(key))) as Omit<T, K>;

const frozenCrop = (crop: NextCrop): FrozenCrop => ({
  ...without(crop, "starter"),
  ...(crop.starter && { starter: { product: crop.starter.fertilizer.id, ...without(crop.starter, "fertilizer") } }),
});

/** What a zone's advice was worked out from, in the order in which it is asked for. */
export const inputsOf = ({ sample, crop, nitrogen, nitrogenQuestion: question }: ZoneAdvice): FrozenInputs =>
  asJson({
    results: sample.measurements,
    soil: { ...without(sample.facts, "crop", "straw"), origins: without(sample.facts.origins ?? {}, "straw", "yieldGoal") },
    crop: crop && frozenCrop(crop),
    limeBefore: sample.earlierLime,
    settings: without(sample, "measurements", "facts", "yieldGoal", "packs", "nitrogen", "earlierLime", "materials"),
    nitrogen: question &&
      nitrogen && {
        sampling: nitrogen.sampling && { id: nitrogen.sampling.id, date: nitrogen.sampling.date },
        crop: nitrogen.crop && frozenCrop(nitrogen.crop),
        ...(nitrogen.since !== undefined && { since: nitrogen.since }),
        question,
      },
  });

/** The farm's fertilizers and liming materials with their prices. */
export const frozenProducts = (products: Farm["products"]): Record<string, FrozenProduct> =>
  asJson(
    Object.fromEntries(
      [...products.values()].flatMap(({ id, product, lime, fertilizer }): [string, FrozenProduct][] => {
        const listed = lime ?? fertilizer;
        if (!listed || product.kind === "manure") return [];
        return [
          [
            id,
            {
              kind: product.kind,
              name: listed.name,
              price: product.price,
              pricePerTon: listed.pricePerTon,
              content: without(listed, "id", "name", "pricePerTon"),
            },
          ],
        ];
      }),
    ),
  );

/** The list back again. Only what advice reads of a product is in it. */
const productsFrom = (frozen: Readonly<Record<string, FrozenProduct>>): Farm["products"] =>
  new Map(
    Object.entries(frozen).map(([id, { kind, name, pricePerTon, content }]) => {
      const listed = { id, name, ...content, pricePerTon };
      const product = {
        id,
        product: { kind, name },
        origin: { file: "farm.yaml", line: 1, column: 1 },
        ...(kind === "lime" ? { lime: listed } : { fertilizer: listed }),
      };
      return [id, product as unknown as FarmProduct];
    }),
  );

/** The farm as the views see it, with the units, the currency and the products of an archive. */
export const farmOf = (farm: Farm, { units, currency, products }: Pick<RecommendationRecord, "units" | "currency" | "products">): Farm => ({
  ...farm,
  units,
  currency,
  products: productsFrom(products),
});

/** A zone's advice worked out from kept inputs, by the given guidelines. Pure: the same inputs and guidelines, the same advice. */
export const adviceFrom = (
  zone: Pick<FrozenZone, "zone" | "letter" | "name" | "squareMeters">,
  inputs: FrozenInputs,
  sampling: Pick<Sampling, "id" | "date">,
  products: Farm["products"],
  packs: readonly Guideline[],
): ZoneAdvice => {
  const thawed = (crop: FrozenCrop | undefined): NextCrop | undefined => {
    if (!crop) return undefined;
    const { starter, ...rest } = crop;
    const fertilizer = starter && products.get(starter.product)?.fertilizer;
    return { ...rest, ...(starter && fertilizer && { starter: { ...starter, fertilizer } }) };
  };
  const place: Zone = { id: zone.zone, letter: zone.letter, name: zone.name, squareMeters: zone.squareMeters, soil: { origins: {} } };
  const crop = thawed(inputs.crop);
  const sample: Sample = {
    ...inputs.settings,
    measurements: inputs.results,
    facts: {
      ...inputs.soil,
      crop: crop?.crop,
      straw: crop?.straw,
      origins: { ...inputs.soil.origins, straw: crop?.source, yieldGoal: crop?.source },
    },
    yieldGoal: crop?.yieldGoal,
    packs,
    earlierLime: inputs.limeBefore,
    materials: [...products.values()].flatMap((p) => p.lime ?? []),
  };
  const { nitrogen } = inputs;
  return {
    zone: place,
    sampling,
    crop,
    sample,
    nitrogen: nitrogen && { sampling: nitrogen.sampling, crop: thawed(nitrogen.crop), since: nitrogen.since },
    advice: advise({ ...sample, nitrogen: nitrogen?.question }),
  };
};
