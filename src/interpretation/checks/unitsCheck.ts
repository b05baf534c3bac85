import * as z from "zod";
import type { Unit } from "../units.ts";
import { convert, nitrogenInNitrate, oxidePerElement } from "../units.ts";
import type { CheckKind } from "./check.ts";
import { near, published } from "./check.ts";

export const checkedUnits = [
  "lb/ac",
  "kg/ha",
  "ton/ac",
  "t/ha",
  "lb/1000 sq ft",
  "bu/ac",
  "in",
  "cm",
  "ft",
  "m",
  "acre",
  "ha",
  "sq m",
  "sq ft",
  "1000 sq ft",
  "lb",
  "kg",
  "ton",
  "t",
  "gal",
  "l",
  "m3",
  "lb/gal",
  "kg/l",
  "lb/1000 gal",
  "kg/m3",
  "lb/ton",
  "kg/t",
  "gal/ac",
  "1000 gal/ac",
  "l/ha",
  "m3/ha",
  "gal/1000 sq ft",
] as const satisfies readonly Unit[];
const unit = z.enum(checkedUnits);
const one = z.strictObject({ value: z.number() });
const unitShape = published.extend({ input: one.extend({ from: unit, to: unit }), expect: one });

export const unitsCheck: CheckKind<z.infer<typeof unitShape>> = {
  file: "units",
  list: "cases",
  title: "Units",
  shape: unitShape,
  run: (c) => [near(c.input.to, convert(c.input.value, c.input.from, c.input.to), c.expect.value, c)],
};

const sumShape = published.extend({
  input: z.strictObject({ times: z.array(z.number()).min(1), over: z.array(z.number().positive()).default([]) }),
  expect: z.strictObject({ value: z.number(), unit: z.string() }),
});

/** Sums that are done before a sheet is printed, or beside it: what is multiplied, over what it is divided by. */
export const sumsCheck: CheckKind<z.infer<typeof sumShape>> = {
  file: "units",
  list: "sums",
  title: "Printed sums outside the rules",
  shape: sumShape,
  run: (c) => [near(c.expect.unit, c.input.times.reduce((a, b) => a * b, 1) / c.input.over.reduce((a, b) => a * b, 1), c.expect.value, c)],
};

const perElement = { ...oxidePerElement, NO3: 1 / nitrogenInNitrate };

const oxideShape = published.extend({
  input: one.extend({ oxide: z.enum(["P2O5", "K2O", "MgO", "SO3", "NO3"]) }),
  expect: z.union([z.strictObject({ oxide: z.number() }), z.strictObject({ element: z.number() })]),
});

export const oxidesCheck: CheckKind<z.infer<typeof oxideShape>> = {
  file: "units",
  list: "oxides",
  title: "Oxides and elements",
  shape: oxideShape,
  run: (c) => {
    const factor = perElement[c.input.oxide];
    return "oxide" in c.expect
      ? [near("oxide", c.input.value * factor, c.expect.oxide, c)]
      : [near("element", c.input.value / factor, c.expect.element, c)];
  },
};
