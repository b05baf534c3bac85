import * as z from "zod";
import type { Guideline } from "../guideline.ts";
import { limeAdvice } from "../lime/lime.ts";
import type { Source } from "../outcome.ts";
import { lengthUnits } from "../units.ts";
import { cropIds, limeIndexIds, soilCategoryIds, soilClassIds } from "../vocabulary.ts";
import type { CheckKind, Shelf } from "./check.ts";
import { near, published, same, valueOf } from "./check.ts";
import { measured } from "./measured.ts";
import { ownTarget } from "./targetPhCheck.ts";
import type { LimePlace } from "../lime/limePlace.ts";

const input = z.strictObject({
  crop: z.enum(cropIds).default("corn"),
  subsoilPh: z.number().default(6.5),
  soilClass: z.enum(soilClassIds).optional(),
  soilCategory: z.enum(soilCategoryIds).optional(),
  pH: z.number(),
  medium: z.enum(["water1to1", "water1to2", "water1to2half", "potassiumChloridePh"]).default("water1to1"),
  buffer: z.enum(["sikora", "smp", "mehlichBuffer"]).optional(),
  bufferPh: z.number().optional(),
  /** meq/100 g, or meq/100 cm3 where `byVolume`, by the Mehlich buffer. */
  acidity: z.number().optional(),
  byVolume: z.boolean().default(false),
  /** ppm, by modified Morgan. */
  aluminum: z.number().optional(),
  earlier: z.array(z.strictObject({ rate: z.number(), months: z.number() })).optional(),
  own: z.number().optional(),
  depth: z.number(),
  limeDepth: z.number().optional(),
  depthUnit: z.enum(lengthUnits).default("in"),
  incorporated: z.boolean(),
  stated: z.partialRecord(z.enum(limeIndexIds), z.number()).default({}),
  analysis: z.strictObject({ cce: z.number(), moisture: z.number(), passing: z.record(z.string(), z.number()) }).optional(),
  pricePerTon: z.number().optional(),
});
const shape = published.extend({
  packs: z.array(z.string()).min(1),
  table: z.string().optional(),
  tableKind: z.enum(["bufferTable", "bufferAcidity", "acidityMultiple", "acidityTable"]).default("bufferTable"),
  input,
  expect: z.union([
    z.strictObject({ none: z.literal(true) }),
    z.strictObject({
      requirement: z.number().optional(),
      rate: z.number().optional(),
      applications: z.array(z.number()).optional(),
      costPerAcre: z.number().optional(),
    }),
  ]),
});
type LimeCase = z.infer<typeof shape>;

const record: Source = { record: { file: "farm.yaml", line: 20, column: 3 } };

const placeOf = (c: LimeCase, shelf: Shelf): LimePlace => {
  const {
    crop,
    subsoilPh,
    soilClass,
    soilCategory,
    pH,
    medium,
    buffer,
    bufferPh,
    acidity,
    byVolume,
    aluminum,
    earlier,
    own,
    depth,
    limeDepth,
    depthUnit: unit,
    incorporated,
    stated,
    analysis,
    pricePerTon,
  } = c.input;
  const sampled = { depth: { from: 0, to: depth, unit } };
  const packs = c.packs.map((id) => shelf.pack(id));
  const ownPack = (): Guideline => ({ ...packs[0]!, id: "own", short: "the publication", sections: [shelf.rule(c.table!, c.tableKind)] });
  return {
    facts: { crop, subsoilPh, soilClass, soilCategory },
    packs: c.table === undefined ? packs : [...packs, ownPack()],
    pH: measured("pH", pH, { ...sampled, method: medium }),
    buffers: bufferPh === undefined ? [] : [measured("bufferPh", bufferPh, { ...sampled, method: buffer })],
    acidities:
      acidity === undefined
        ? []
        : [measured("exchangeableAcidity", acidity, { ...sampled, method: "mehlichBuffer", unit: byVolume ? "meq/100 cm3" : "meq/100 g" })],
    aluminums: aluminum === undefined ? [] : [measured("Al", aluminum, { ...sampled, method: "modifiedMorgan" })],
    earlierLime: earlier?.map((e) => ({ ...e, source: record })),
    depth: limeDepth === undefined ? undefined : { value: limeDepth, unit, source: record },
    own: own === undefined ? undefined : ownTarget(own),
    incorporated,
    materials: [
      {
        id: "lime",
        name: "lime",
        stated: Object.fromEntries(Object.entries(stated).map(([index, value]) => [index, { value, source: record }])),
        analysis: analysis && { ...analysis, source: record },
        pricePerTon,
      },
    ],
  };
};

export const limeCheck: CheckKind<LimeCase> = {
  file: "lime",
  list: "cases",
  title: "A lime rate, from the test to the tons to spread",
  shape,
  run: (c, shelf) => {
    const { needed, rates } = limeAdvice(placeOf(c, shelf));
    const { expect } = c;
    return valueOf(needed, (need) => {
      if ("none" in expect) return [same("lime", need === "none" && rates.length === 0 ? "none" : "some", "none")];
      if (need === "none") return [same("lime", "none", "some")];
      return [
        ...(expect.requirement === undefined ? [] : [near("requirement", need.requirement.value, expect.requirement, c)]),
        ...(expect.rate === undefined
          ? []
          : valueOf(rates[0]!.outcome, ({ rate, applications, costPerAcre }) => [
              near("rate", rate.value, expect.rate!, c),
              ...(expect.applications
                ? [
                    same("number of applications", applications.length, expect.applications.length),
                    ...expect.applications.map((part, i) => near(`number ${i + 1} of them:`, applications[i]?.value, part, c)),
                  ]
                : []),
              ...(expect.costPerAcre === undefined ? [] : [near("cost an acre", costPerAcre, expect.costPerAcre, c)]),
            ])),
      ];
    });
  },
};
