import type { Guideline } from "./guideline.ts";
import { sectionsOf } from "./guideline.ts";
import type { Outcome, Source, Step } from "./outcome.ts";
import { noAnswer } from "./outcome.ts";
import type { Fertilizer, Need, Supply } from "./products.ts";
import { shareOf, suppliesOf } from "./products.ts";
import type { SeedRowVerdict } from "./rules/seedRowLimit.ts";
import { checkSeedRow } from "./rules/seedRowLimit.ts";
import { broadcastLeft } from "./rules/starterShare.ts";
import { plain } from "./show.ts";
import type { UnitChoice } from "./unitChoices.ts";
import { unitChoices } from "./unitChoices.ts";
import type { Amount, LengthUnit, RateUnit } from "./units.ts";
import { convert } from "./units.ts";
import { supplied } from "./vocabulary.ts";
import type { Facts } from "./rules/facts.ts";

/** Fertilizer the planter puts down with the crop that is planned. */
export interface Starter {
  readonly fertilizer: Fertilizer;
  readonly rate: Amount<RateUnit>;
  readonly placement: "withSeed" | "band";
  readonly rowSpacing: Amount<LengthUnit>;
  /** Where the record plans it. */
  readonly source: Source;
}

export interface StarterAdvice {
  readonly supplies: readonly Supply[];
  /** What is left for broadcasting. */
  readonly left: readonly Need[];
  /** Whether the seed can bear it; absent for a band beside the row. */
  readonly seed: Outcome<SeedRowVerdict> | undefined;
  readonly steps: readonly Step[];
}

/**
 * What a planned starter brings, whether it may touch the seed, and what it leaves to broadcast. A nutrient in a band
 * counts for more where one of the guidelines says so for this crop; otherwise a pound counts as a pound. What is left is by
 * the acre, as every amount is; the lines of the sum are in `units`.
 */
export const starterAdvice = (
  starter: Starter,
  needs: readonly Need[],
  packs: readonly Guideline[],
  facts: Facts,
  units: UnitChoice = "us",
): StarterAdvice => {
  const { fertilizer, placement } = starter;
  const { rate: unit } = unitChoices[units];
  const pounds = convert(starter.rate.value, starter.rate.unit, "lb/ac");
  const shown = (perAcre: number): number => convert(perAcre, "lb/ac", unit);
  const planned: Step = {
    what: `Starter planned: ${fertilizer.name}, ${placement === "band" ? "in a band" : "with the seed"}`,
    result: `${plain(shown(pounds), 1)} ${unit}`,
    source: starter.source,
  };
  const bring = (nutrient: Need["nutrient"]): number => (pounds * shareOf(fertilizer.analysis, nutrient)) / 100;
  const left = needs.map((need): Need => {
    const given = bring(need.nutrient);
    if (given === 0) return need;
    const asked = convert(need.rate.value, need.rate.unit, "lb/ac");
    const brings: Step = {
      what: `${supplied[need.nutrient].symbol} in the starter`,
      expression: `${plain(shown(pounds), 1)} × ${plain(shareOf(fertilizer.analysis, need.nutrient), 2)} ÷ 100`,
      result: `${plain(shown(given), 1)} ${unit}`,
    };
    const banded = placement === "band" ? bandRule(need, asked, given, packs, facts, units) : undefined;
    const value = banded ? banded.value : Math.max(0, asked - given);
    const leaves: readonly Step[] = banded
      ? banded.steps
      : [{ what: `${supplied[need.nutrient].symbol} left to broadcast`, result: `${plain(shown(value), 1)} ${unit}` }];
    return { nutrient: need.nutrient, rate: { value, unit: "lb/ac" }, steps: [...need.steps, planned, brings, ...leaves] };
  });
  const seed = placement === "withSeed" ? seedRow(starter, bring("N"), bring("K2O"), packs, facts, units) : undefined;
  return {
    supplies: suppliesOf([{ fertilizer, rate: { value: pounds, unit: "lb/ac" } }], needs),
    left,
    seed,
    steps: [
      planned,
      ...(seed?.kind === "answer" ? seed.steps : []),
      ...(placement === "band" ? bandSalt(bring("N") + bring("K2O"), packs, facts, units) : []),
    ],
  };
};

const bandRule = (
  need: Need,
  asked: number,
  given: number,
  packs: readonly Guideline[],
  facts: Facts,
  units: UnitChoice,
): { value: number; steps: readonly Step[] } | undefined => {
  const { rate: unit } = unitChoices[units];
  for (const pack of packs)
    for (const rule of sectionsOf(pack, "starterShare")) {
      if (rule.nutrient !== need.nutrient) continue;
      const outcome = broadcastLeft(rule, convert(asked, "lb/ac", unit), convert(given, "lb/ac", unit), facts.crop, pack.short, unit);
      if (outcome.kind === "answer") return { value: convert(outcome.value, unit, "lb/ac"), steps: outcome.steps };
    }
  return undefined;
};

const bandSalt = (salt: number, packs: readonly Guideline[], { crop }: Facts, units: UnitChoice): Step[] => {
  const { rate: unit } = unitChoices[units];
  const shown = (perAcre: number): string => plain(convert(perAcre, "lb/ac", unit), 1);
  const most = packs
    .flatMap((pack) => sectionsOf(pack, "starterShare"))
    .find((rule) => crop !== undefined && rule.crops.includes(crop))?.mostSalt;
  if (!most) return [];
  return [
    {
      what: salt > most.value ? "More N and K₂O than the band may hold" : "Most N and K₂O the band may hold",
      expression: `${shown(salt)} against ${shown(most.value)} ${unit}`,
      result: salt > most.value ? "lower the starter" : "within the limit",
      source: most.source,
      evidence: most.evidence,
      note: most.note,
    },
  ];
};

const seedRow = (
  starter: Starter,
  nitrogen: number,
  potash: number,
  packs: readonly Guideline[],
  facts: Facts,
  units: UnitChoice,
): Outcome<SeedRowVerdict> => {
  const row = {
    spacing: convert(starter.rowSpacing.value, starter.rowSpacing.unit, "in"),
    nitrogen,
    potash,
    holdsUrea: starter.fertilizer.holdsUrea ?? false,
  };
  const tries = packs.flatMap((pack) => sectionsOf(pack, "seedRowLimit").map((rule) => checkSeedRow(rule, row, facts, pack.short, units)));
  return (
    tries.find((t) => t.kind === "answer") ??
    tries[0] ??
    noAnswer("none of the chosen guidelines sets a limit on what may touch the seed", ["a seed-row limit"])
  );
};
