import * as z from "zod";
import { rateByIndex } from "../rules/indexClasses.ts";
import { rateByIndexOfftake } from "../rules/indexOfftake.ts";
import { oxidePerElement } from "../units.ts";
import { cropIds, strawIds } from "../vocabulary.ts";
import type { CheckKind } from "./check.ts";
import { near, published, same, valueOf } from "./check.ts";
import { measuredFor } from "./measured.ts";

const shape = published.extend({
  rule: z.string(),
  input: z.strictObject({
    value: z.number(),
    crop: z.enum(cropIds).optional(),
    yieldGoal: z.number().optional(),
    straw: z.enum(strawIds).optional(),
    soilPh: z.number().optional(),
    sodium: z.number().optional(),
    sodiumByVolume: z.number().optional(),
  }),
  expect: z.strictObject({
    rate: z.number().optional(),
    pounds: z.number().optional(),
    class: z.string().optional(),
    doubt: z.string().optional(),
    dose: z.strictObject({ when: z.string(), rate: z.number() }).optional(),
  }),
});

/** Ontario prints pounds an acre at nine tenths of the kilograms a hectare. */
const poundsPrinted = 0.9;

export const indexOfftakeCheck: CheckKind<z.infer<typeof shape>> = {
  file: "indexOfftake",
  list: "cases",
  title: "A rate by index and yield",
  shape,
  run: (c, shelf) => {
    const rule = shelf.rule(c.rule, "indexOfftake");
    const { value, yieldGoal, ...facts } = c.input;
    const { class: band, rate, pounds, dose, doubt } = c.expect;
    const m = measuredFor(rule.limits, rule.analyte, value);
    const place = {
      facts,
      yieldGoal: yieldGoal === undefined ? undefined : ({ value: yieldGoal, unit: "t/ha" } as const),
      removal: undefined,
      pack: "the publication",
    };
    return [
      ...(band === undefined ? [] : valueOf(rateByIndex(rule, m, facts, "the publication"), (got) => [same("class", got.band, band)])),
      ...(rate === undefined && !dose
        ? []
        : valueOf(rateByIndexOfftake(rule, m, place), (got) => [
            same("unit", got.rate.unit, "kg/ha"),
            ...(rate === undefined ? [] : [near("rate, kg/ha", got.rate.value, rate, c)]),
            ...(pounds === undefined ? [] : [near("rate, lb/ac", got.rate.value * poundsPrinted, pounds, c)]),
            ...(dose ? [same(dose.when, got.doses?.find((d) => d.when === dose.when)?.value ?? 0, dose.rate)] : []),
            {
              what: "doubt",
              got: got.doubt ?? "none",
              wanted: doubt ?? "none",
              ok: doubt === undefined ? got.doubt === undefined : new RegExp(doubt).test(got.doubt ?? ""),
            },
          ])),
    ];
  },
};

const conversionShape = published.extend({
  input: z.union([z.strictObject({ oxide: z.enum(["P2O5", "K2O"]), element: z.number() }), z.strictObject({ unitsPerAcre: z.number() })]),
  expect: z.number(),
});

export const indexConversionsCheck: CheckKind<z.infer<typeof conversionShape>> = {
  file: "indexOfftake",
  list: "conversions",
  title: "Conversions of the index systems",
  shape: conversionShape,
  run: (c) => [
    near("value", "oxide" in c.input ? c.input.element * oxidePerElement[c.input.oxide] : c.input.unitsPerAcre * 0.8, c.expect, c),
  ],
};
