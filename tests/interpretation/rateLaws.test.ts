import * as fc from "fast-check";
import { readdirSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { sectionsOf } from "../../src/interpretation/guideline.ts";
import { rateByRule } from "../../src/interpretation/nutrientRates.ts";
import type { CropId } from "../../src/interpretation/vocabulary.ts";
import { crops, cropIds, textureIds } from "../../src/interpretation/vocabulary.ts";
import { measuredFor } from "../support/measured.ts";
import { installedPacks } from "../support/packs.ts";
import { always, between } from "../support/repeatable.ts";

const folder = new URL("../../content/guidelines/", import.meta.url);
const packs = readdirSync(folder).map((name) => installedPacks.get(name.replace(/\.yaml$/, "")));
const rules = packs.flatMap((pack) =>
  (["buildMaintain", "bandRates", "linearYield"] as const).flatMap((kind) => sectionsOf(pack, kind).map((rule) => ({ name: `${pack.id}/${rule.id}`, pack, rule }))),
);

/** Yields up to which a printed rate for low soils is still above what the optimum class replaces (see the gaps of Iowa 2013). */
const most: Partial<Record<CropId, number>> = { corn: 230, soybean: 72 };
const widest = { "bu/ac": 120, "ton/ac": 12, "t/ha": 20, "lb/ac": 5000, "kg/ha": 5000 } as const;

describe.each(rules)("$name", ({ pack, rule }) => {
  const removal = sectionsOf(pack, "removal")[0];
  const asked = rule.limits.crops ?? cropIds;

  it("never gives a higher test a higher rate, nor a rate below zero or none at all", () => {
    let answers = 0;
    always(
      [between(0, 600), between(0, 600), fc.constantFrom(...asked), fc.constantFrom(...textureIds), between(1, 60), between(0.01, 1), between(4.5, 8.5), between(10, 99)],
      (a, b, crop, texture, cec, share, soilPh, calciumSaturation) => {
        const yieldGoal = { value: share * (most[crop] ?? widest[crops[crop].yieldUnit]), unit: crops[crop].yieldUnit };
        const at = (test: number) =>
          rateByRule(rule, measuredFor(rule.limits, rule.analyte, test), { facts: { crop, texture, cec, soilPh, calciumSaturation, organicMatter: cec / 2 }, yieldGoal, removal, pack: pack.short });
        const [low, high] = [at(Math.min(a, b)), at(Math.max(a, b))];
        for (const each of [low, high]) {
          if (each.kind === "noAnswer") continue;
          answers += 1;
          expect(each.value.rate.value).toBeGreaterThanOrEqual(0);
          expect(Number.isFinite(each.value.rate.value)).toBe(true);
          if (each.value.to !== undefined) expect(each.value.to).toBeGreaterThan(each.value.rate.value);
        }
        if (low.kind === "noAnswer" || high.kind === "noAnswer") return;
        expect(high.value.rate.value).toBeLessThanOrEqual(low.value.rate.value + 1e-9);
        expect(high.value.to ?? high.value.rate.value).toBeLessThanOrEqual((low.value.to ?? low.value.rate.value) + 1e-9);
      },
    );
    expect(answers).toBeGreaterThan(0);
  });
});
