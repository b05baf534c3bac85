import * as z from "zod";
import type { ManureMeasure } from "../../interpretation/manure.ts";
import { isByVolume, manureMeasures } from "../../interpretation/manure.ts";
import { convert, oxidePerElement } from "../../interpretation/units.ts";
import { unitChoiceIds } from "../../interpretation/unitChoices.ts";
import type { SuppliedId } from "../../interpretation/vocabulary.ts";
import { manureSpeciesIds, suppliedIds } from "../../interpretation/vocabulary.ts";
import { audience } from "./audience.ts";
import { currency, date, id, longText, named, percent, text } from "./primitives.ts";
import { passing } from "./passing.ts";
import { statedIndices } from "./statedIndices.ts";

const price = z.strictObject({
  // A tonne of urea costs millions in some currencies.
  value: z.number().nonnegative().max(1_000_000_000),
  per: z.enum(["ton", "lb", "t", "kg"]).describe("ton is the US short ton, t the tonne"),
});

const volumePrice = price.extend({
  per: z.enum(["ton", "lb", "t", "kg", "gal", "l"]).describe("ton is the US short ton, t the tonne, gal the US gallon, l the liter"),
});

const density = z
  .strictObject({ value: z.number().positive(), unit: z.enum(["lb/gal", "kg/l"]) })
  .refine(({ value, unit }) => convert(value, unit, "kg/l") >= 0.5 && convert(value, unit, "kg/l") <= 2.5, {
    path: ["value"],
    error: "is lighter or heavier than any liquid that is spread, which weighs 0.5 to 2.5 kg/l, or 4 to 21 lb/gal",
  });

const common = { name: text, price: price.optional(), note: longText.optional() };

/** A share of a product. One of next to nothing would be asked for a whole rate, and make one without end of it. */
const share = percent.refine((value) => value === 0 || value >= 0.0001, "is next to nothing; write 0, or at least 0.0001");

const rest = Object.fromEntries(
  suppliedIds.flatMap((id) => (id === "N" || id === "P2O5" || id === "K2O" ? [] : [[id, percent.optional()]])),
) as Record<Exclude<SuppliedId, "N" | "P2O5" | "K2O">, z.ZodOptional<typeof share>>;

/** Phosphorus and potassium, each as oxide or as element: what is left out is not known to be none. */
const eachOnce = (a: Readonly<Partial<Record<"P2O5" | "K2O" | "P" | "K", number | undefined>>>): boolean =>
  (a.P2O5 === undefined) !== (a.P === undefined) && (a.K2O === undefined) !== (a.K === undefined);
const eachOnceWords = (on: string): string =>
  `needs P2O5 and K2O, or P and K where the ${on} states elements; write 0 for a nutrient it does not hold`;

/** As stated, and with a chloride's potassium as the element: of muriate of potash, 0-0-60 with 47 of chloride, 50 are potassium. */
const fitsInTheBag = ({ Cl = 0, ...others }: { readonly [of in SuppliedId]?: number | undefined }): boolean => {
  const stated = Object.values(others).reduce((sum, share) => sum + share, 0);
  const oxygen = (others.K2O ?? 0) * (1 - 1 / oxidePerElement.K2O);
  return stated <= 100 && stated - oxygen + Cl <= 100;
};

/** A guaranteed analysis, percent by weight: N, P2O5 and K2O, or N, P and K where the label states elements; and what else it states. */
const analysis = z
  .strictObject({ N: share, P2O5: share.optional(), K2O: share.optional(), ...rest })
  .refine(eachOnce, { error: eachOnceWords("label") })
  .refine(fitsInTheBag, { error: "adds up to more than 100 percent" });

const priceNeedsDensity = { path: ["price", "per"], error: "a price by volume needs density, such as { value: 10.67, unit: lb/gal }" };

const amount = z.number().min(0);

/** What a manure holds: P2O5 and K2O, or P and K. */
const held = z
  .strictObject({
    N: amount,
    P2O5: amount.optional(),
    K2O: amount.optional(),
    P: amount.optional(),
    K: amount.optional(),
    ammoniumN: amount.optional().describe("the part of N that is ammonium"),
  })
  .refine(eachOnce, { error: eachOnceWords("sheet") })
  .refine((p) => p.ammoniumN === undefined || p.ammoniumN <= p.N, { path: ["ammoniumN"], error: "is more than N, which it is a part of" });

/** A manure has the analysis that its laboratory printed, once, and a density where that is by volume. */
const oneAnalysis = ({ value, issues }: z.core.ParsePayload<Partial<Record<ManureMeasure | "density", unknown>>>): void => {
  // A measure with a slip in its name is told as that, not as one left out.
  if (issues.length > 0) return;
  const refuse = (path: string[], message: string): unknown => issues.push({ code: "custom", input: value, path, message });
  const given = Object.keys(value).filter((key): key is ManureMeasure => key in manureMeasures);
  const [first, ...more] = given;
  if (first === undefined) return void refuse([], "needs one of perTon, perThousandGal (lb), perTonne, perCubicMeter (kg)");
  for (const other of more) refuse([other], `stands beside ${first}; keep the one that the laboratory prints`);
  if (value.density === undefined && isByVolume(first))
    refuse(
      ["density"],
      `is missing, and ${first} needs it: weigh a bucket; slurry weighs about as much as water, ${manureMeasures[first].mass === "kg" ? "{ value: 1, unit: kg/l }" : "{ value: 8.3, unit: lb/gal }"}`,
    );
};

/** Something the farm buys and spreads. */
export const product = z.discriminatedUnion("kind", [
  z
    .strictObject({
      kind: z.literal("fertilizer"),
      ...common,
      price: volumePrice.optional(),
      analysis,
      density: density.optional().describe("of a liquid: it is then shown in gallons or liters too, and may be priced by them"),
      holdsUrea: z.boolean().optional().describe("urea must not touch the seed"),
    })
    .refine((p) => p.density !== undefined || (p.price?.per !== "gal" && p.price?.per !== "l"), priceNeedsDensity),
  z
    .strictObject({
      kind: z.literal("lime"),
      ...common,
      stated: statedIndices.optional(),
      analysis: z.strictObject({ cce: z.number().min(0.001).max(180), moisture: percent, passing }).optional(),
      brings: z
        .strictObject({ P2O5: share, K2O: share })
        .optional()
        .describe("of wood ash and other lime that feeds: its phosphate and potash, percent by weight; they count in the balance"),
    })
    .refine((p) => p.stated !== undefined || p.analysis !== undefined, {
      path: ["stated"],
      error: "a liming material needs stated, analysis or both, or no rate of it can be worked out",
    }),
  z
    .strictObject({
      kind: z.literal("manure"),
      ...common,
      price: volumePrice.optional(),
      perTon: held.optional().describe("lb per US ton as spread"),
      perThousandGal: held.optional().describe("of a liquid: lb per 1,000 US gallons as spread; needs density"),
      perTonne: held.optional().describe("kg per tonne as spread"),
      perCubicMeter: held.optional().describe("of a liquid: kg per cubic meter as spread; needs density"),
      density: density.optional().describe("of a liquid, which may then be spread and priced by gallons or liters"),
      species: z.enum(manureSpeciesIds).optional().describe("the animal; tables of nitrogen release ask for it"),
      dryMatter: percent.optional(),
    })
    .check(oneAnalysis)
    .refine((p) => p.density !== undefined || (p.price?.per !== "gal" && p.price?.per !== "l"), priceNeedsDensity),
]);

/** What a published site may give away. Nothing unless the owner says so. */
const publish = z.strictObject({
  index: z.boolean().optional().describe("true: search engines may list the site"),
  location: z
    .boolean()
    .optional()
    .describe("true: the site says where the farm lies, in positions and boundaries to download and in its description for machines"),
  reports: z
    .boolean()
    .optional()
    .describe("true: the site holds the laboratories' reports, which may bear names and addresses; no reader's excerpt ever does"),
});

/** farm.yaml: whose fields these are and what is chosen for all of them. */
export const farm = z.strictObject({
  name: text,
  units: z.enum(unitChoiceIds).describe("how rates, areas and depths are shown; garden counts by 1,000 sq ft"),
  currency,
  guidelines: z.array(named).min(1).describe("in order: the first that can answer a question answers it"),
  products: z.record(id, product).default({}),
  pricesOn: date.optional().describe("the day the prices of the products were looked up; printed beside money that is owed"),
  about: longText.optional(),
  address: text.optional(),
  publish: publish.optional(),
  audiences: z.record(id, audience).default({}).describe("readers who should not see everything; build --audience names one"),
});
export type FarmRecord = z.infer<typeof farm>;
export type Product = z.infer<typeof product>;
