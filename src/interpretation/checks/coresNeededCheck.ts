import * as z from "zod";
import { coresNeeded } from "../statistics/coresNeeded.ts";
import { tQuantile } from "../statistics/distributions.ts";
import { normalQuantile } from "../statistics/normal.ts";
import { sdAt } from "../statistics/noise.ts";
import type { CheckKind } from "./check.ts";
import { published, valueOf } from "./check.ts";
import { digits, printedAll } from "./printed.ts";

const shape = published.extend({
  digits,
  off: z.number().optional(),
  input: z.strictObject({ cv: z.number(), error: z.number(), confidence: z.number(), pilot: z.number().optional() }),
  expect: z.record(z.string(), z.number()),
});

export const coresNeededCheck: CheckKind<z.infer<typeof shape>> = {
  file: "coresNeeded",
  list: "cases",
  title: "Cores needed",
  shape,
  run: ({ input, expect, off, digits: places }) => {
    const knownExact = ((normalQuantile((1 + input.confidence) / 2) * input.cv) / input.error) ** 2;
    return valueOf(coresNeeded(input), ({ cores, exact }) =>
      off === undefined
        ? printedAll({ cores, exact, knownExact, known: Math.ceil(knownExact) }, expect, places)
        : [{ what: "cores", got: cores, wanted: expect["cores"]!, ok: Math.abs(cores - expect["cores"]!) <= off }],
    );
  },
};

const precisionShape = published.extend({
  digits,
  input: z.strictObject({ cv: z.number(), cores: z.number() }),
  expect: z.record(z.string(), z.number()),
});

export const precisionCheck: CheckKind<z.infer<typeof precisionShape>> = {
  file: "coresNeeded",
  list: "precision",
  title: "How near the mean of so many cores comes",
  shape: precisionShape,
  run: ({ input: { cv, cores }, expect, digits: places }) => {
    const ofComposite = sdAt({ parts: [{ value: cv, as: "percent", over: cores }] }, 100);
    return printedAll(
      { ofComposite, halfWidthKnown: normalQuantile(0.975) * ofComposite, halfWidth: tQuantile(0.975, cores - 1) * ofComposite },
      expect,
      places,
    );
  },
};
