import * as z from "zod";
import type { Outcome } from "../outcome.ts";
import { samplingBySpec } from "../rules/samplingParts.ts";
import { samplingBounds } from "../rules/samplingSpec.ts";
import { extents, tillageIds } from "../rules/samplingWhen.ts";
import { cropIds, purposeIds, soilCategoryIds } from "../vocabulary.ts";
import type { CheckKind, Verdict } from "./check.ts";
import { near, published, same } from "./check.ts";

const span = z.strictObject({ least: z.number().optional(), most: z.number().optional() });
const shape = published.extend({
  rule: z.string(),
  input: z.strictObject({
    purpose: z.enum(purposeIds),
    acres: z.number().optional(),
    tillage: z.enum(tillageIds).optional(),
    crop: z.enum(cropIds).optional(),
    extent: z.enum(Object.keys(extents) as [keyof typeof extents, ...(keyof typeof extents)[]]).optional(),
    terrain: z.enum(["level", "rolling"]).optional(),
    fertility: z.enum(["responsive", "nonResponsive", "optimum"]).optional(),
    bandedAmmonia: z.enum(["yes", "no"]).optional(),
    yearsSinceTest: z.number().optional(),
    soil: z.enum(soilCategoryIds).optional(),
    month: z.number().optional(),
  }),
  expect: z.strictObject({
    cores: span.optional(),
    depth: z.strictObject({ from: z.number().default(0), to: z.number(), toMost: z.number().optional() }).optional(),
    composites: z.union([z.number(), span]).optional(),
    years: span.optional(),
    bounds: z
      .partialRecord(z.enum(Object.keys(samplingBounds) as [keyof typeof samplingBounds, ...(keyof typeof samplingBounds)[]]), z.number())
      .optional(),
    sameCrop: z.literal(true).optional(),
    distances: z.record(z.string(), z.number()).optional(),
    none: z
      .array(z.enum(["cores", "depth", "composites", "interval", "sameCrop"]))
      .optional()
      .describe("the parts that must have no answer"),
  }),
});

const valueOf = <T>(outcome: Outcome<T>): T | undefined => (outcome.kind === "answer" ? outcome.value : undefined);

export const samplingSpecCheck: CheckKind<z.infer<typeof shape>> = {
  file: "samplingSpec",
  list: "cases",
  title: "How to take a sample",
  shape,
  run: (c, shelf) => {
    const { acres, ...rest } = c.input;
    const parts = samplingBySpec(
      shelf.rule(c.rule, "samplingSpec"),
      { ...rest, area: acres === undefined ? undefined : { value: acres, unit: "acre" } },
      "the publication",
    );
    const { cores, depth, years, sameCrop, bounds = {}, distances = {}, none = [] } = c.expect;
    const composites =
      typeof c.expect.composites === "number" ? { least: c.expect.composites, most: c.expect.composites } : c.expect.composites;
    const ends = (
      what: string,
      got: Record<string, unknown> | undefined,
      wanted: Record<string, number | undefined> | undefined,
    ): Verdict[] =>
      Object.entries(wanted ?? {}).map(([end, value]) => near(`${what}, ${end}`, got?.[end] as number | undefined, value!, c));
    const handling = valueOf(parts.handling);
    return [
      ...ends("cores", valueOf(parts.cores) as Record<string, unknown> | undefined, cores),
      ...ends("depth", valueOf(parts.depth) as Record<string, unknown> | undefined, depth),
      ...ends("composites", valueOf(parts.composites), composites),
      ...ends("years", valueOf(parts.interval) as Record<string, unknown> | undefined, years),
      ...Object.entries(bounds).map(([what, wanted]) => near(what, handling?.bounds.find((l) => l.what === what)?.value, wanted, c)),
      ...Object.entries(distances).map(([from, wanted]) =>
        near(`distance from ${from}, ft`, handling?.distances.find((d) => d.from === from)?.value, wanted, c),
      ),
      ...(sameCrop ? [same("after the same crop: an answer", parts.sameCrop.kind, "answer")] : []),
      ...none.map((part) => same(`${part}: an answer`, parts[part].kind, "noAnswer")),
    ];
  },
};
