import { rmSync } from "node:fs";
import fc from "fast-check";
import { expect, it } from "vitest";
import type { Farm } from "../../src/records/model.ts";
import { guidelineView } from "../../src/views/guidelines/guidelineView.ts";
import { fieldView } from "../../src/views/field/field.ts";
import { homeView } from "../../src/views/home/home.ts";
import { methodsView } from "../../src/views/site/methodsView.ts";
import { referencesView } from "../../src/views/guidelines/referencesView.ts";
import { allPaths } from "../../src/views/site/routes.ts";
import { fieldRows, resultsCsv } from "../../src/views/results/rows.ts";
import { samplingView } from "../../src/views/sampling/samplingView.ts";
import { corrupt } from "../support/corrupt.ts";
import { farmFolder } from "../support/farmFolder.ts";
import { generateFarm } from "../support/generateFarm.ts";
import { namedShelf } from "../support/namedShelf.ts";

const library = namedShelf();

/** Everything that the pages of a farm would show, as one text. */
const shown = (farm: Farm): string => {
  const seen = new Set<unknown>();
  const views = [
    homeView(farm),
    ...farm.fields.flatMap((field) => [fieldView(farm, field), ...field.samplings.map((s) => samplingView(farm, field, s)), resultsCsv(fieldRows(field), farm.units)]),
    ...[...farm.usedGuidelines.values()].map((pack) => guidelineView(farm, pack)),
    referencesView(farm),
    methodsView(farm),
    [...allPaths(farm).keys()],
  ];
  // Records hang in many views at once; each is written once.
  return JSON.stringify(views, (_, value: unknown) => {
    if (typeof value !== "object" || value === null) return value;
    if (seen.has(value)) return undefined;
    seen.add(value);
    return value;
  });
};

it("every farm that can be read can be shown, and shows no number that is none", { timeout: 120_000 }, () => {
  let built = 0;
  fc.assert(
    fc.property(fc.nat(), fc.nat(), fc.integer({ min: 0, max: 2 }), (seed, damage, howMany) => {
      const files = generateFarm({ seed, fields: 2, samplings: 4, zones: 3 });
      const folder = farmFolder(howMany === 0 ? files : corrupt(files, damage, howMany));
      const { farm, problems } = folder.read({ library });
      rmSync(folder.path, { recursive: true });
      if (!farm) {
        expect(problems.some((p) => p.severity === "error")).toBe(true);
        return;
      }
      built += 1;
      expect(shown(farm)).not.toMatch(/\bNaN\b|\bInfinity\b|\bundefined\b|\[object Object\]/);
    }),
    { seed: 20_251_018, numRuns: 60 },
  );
  expect(built).toBeGreaterThan(20);
});
