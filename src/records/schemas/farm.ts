import * as z from "zod";
import { limeIndexIds } from "../../interpretation/vocabulary.ts";
import { id, longText, percent, text } from "./primitives.ts";

const price = z.strictObject({
  value: z.number().nonnegative().max(1_000_000),
  per: z.enum(["ton", "lb", "t", "kg"]).describe("ton is the US short ton, t the tonne"),
});

const common = { name: text, price: price.optional(), note: longText.optional() };

/** A share of a guaranteed analysis, percent by weight. */
const analysis = z.strictObject({ N: percent, P2O5: percent, K2O: percent });

const passing = z
  .record(z.string().regex(/^\d{1,3}$/, "must be a mesh number such as 60"), percent)
  .describe("percent passing each screen, by mesh number");

/** Something the farm buys and spreads. */
export const product = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("fertilizer"), ...common, analysis }),
  z
    .strictObject({
      kind: z.literal("lime"),
      ...common,
      stated: z
        .partialRecord(z.enum(limeIndexIds), z.number().positive().max(180))
        .optional()
        .describe("what the supplier states, in percent"),
      analysis: z.strictObject({ cce: z.number().positive().max(180), moisture: percent, passing }).optional(),
    })
    .refine((p) => p.stated !== undefined || p.analysis !== undefined, {
      path: ["stated"],
      error: "a liming material needs stated, analysis or both, or no rate of it can be worked out",
    }),
  z.strictObject({
    kind: z.literal("manure"),
    ...common,
    perTon: z.strictObject({ N: z.number().min(0), P2O5: z.number().min(0), K2O: z.number().min(0) }).describe("lb per ton as spread"),
  }),
]);

/** farm.yaml: whose fields these are and what is chosen for all of them. */
export const farm = z.strictObject({
  name: text,
  units: z.enum(["us", "metric"]).describe("how rates, areas and depths are shown"),
  currency: z.string().regex(/^[A-Z]{3}$/, "must be a three-letter ISO 4217 code, such as USD"),
  guidelines: z.array(id).min(1).describe("in order: the first that can answer a question answers it"),
  products: z.record(id, product).default({}),
  about: longText.optional(),
  address: text.optional(),
});
export type FarmRecord = z.infer<typeof farm>;
export type Product = z.infer<typeof product>;
