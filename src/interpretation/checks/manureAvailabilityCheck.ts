import * as z from "zod";
import { nitrogenOfManure } from "../rules/manureAvailability.ts";
import { manureSpeciesIds } from "../vocabulary.ts";
import type { CheckKind } from "./check.ts";
import { near, published, valueOf } from "./check.ts";

const spread = z.strictObject({
  yearsAgo: z.number().int().min(0),
  tons: z.number(),
  organicNitrogen: z.number(),
  species: z.enum(manureSpeciesIds),
  dryMatter: z.number().optional(),
});
const shape = published.extend({
  rule: z.string(),
  input: z.strictObject({ spread: z.array(spread).min(1) }),
  expect: z.strictObject({ nitrogen: z.number() }),
});

export const manureAvailabilityCheck: CheckKind<z.infer<typeof shape>> = {
  file: "manureAvailability",
  list: "cases",
  title: "Organic nitrogen that manure releases",
  shape,
  run: (c, shelf) =>
    valueOf(
      nitrogenOfManure(
        shelf.rule(c.rule, "manureAvailability"),
        c.input.spread.map(({ tons, dryMatter, ...s }) => ({ name: "the manure", tonsPerAcre: tons, dryMatter, ...s })),
        "the publication",
      ),
      (value) => [near("nitrogen, lb/ac", value, c.expect.nitrogen, c)],
    ),
};
