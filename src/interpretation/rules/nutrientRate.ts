import type { Amount, RateUnit, YieldUnit } from "../units.ts";
import type { Rating } from "./bands.ts";
import type { RemovalRule } from "./removal.ts";
import type { Facts } from "./facts.ts";

/** A part of a rate with its own time, such as "in the autumn before"; in the rate's unit. */
export interface Dose {
  readonly when: string;
  readonly value: number;
}

/** What a rate rule answers. */
export interface NutrientRate {
  /** The rate; where the publication prints a range, its lower end, which sums and products are worked with. */
  readonly rate: Amount<RateUnit>;
  /** The upper end, in the rate's unit, where the publication prints a range. */
  readonly to?: number | undefined;
  /** The rate is the most that a law allows, not a dose that is advised. */
  readonly atMost?: boolean | undefined;
  /** The parts the publication splits the rate into; they sum to it. */
  readonly doses?: readonly Dose[] | undefined;
  /** What the rate was read at, where that is not the result itself: "a supply of 140 kg/ha, index 4". */
  readonly level?: string | undefined;
  /** Why the printed figure is doubtful, where it looks like a slip of the press. */
  readonly doubt?: string | undefined;
  /** The class the result fell in, where the rule has classes. */
  readonly rating?: Rating | undefined;
}

/** What it takes to bring a soil test up into the range to keep it in, beside what the crops remove. */
export interface BuildUp {
  /** Of the nutrient, in the form its rate has. */
  readonly amount: Amount<RateUnit>;
  /** `each year`: the publication gives a yearly amount and does not say for how many years. */
  readonly over: "all years" | "each year";
  /** Over how many years the publication spreads the whole. */
  readonly years?: number | undefined;
}

/** What a rate rule may ask beside the soil test. */
export interface RatePlace {
  readonly facts: Facts;
  readonly yieldGoal: Amount<YieldUnit> | undefined;
  /** The pack's removal table. */
  readonly removal: RemovalRule | undefined;
  /** The pack's short name. */
  readonly pack: string;
}
