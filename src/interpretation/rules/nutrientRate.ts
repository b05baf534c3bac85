import type { Amount, RateUnit, YieldUnit } from "../units.ts";
import type { Rating } from "./bands.ts";
import type { Facts } from "./conditions.ts";
import type { RemovalRule } from "./removal.ts";

/** What a rate rule answers. */
export interface NutrientRate {
  readonly rate: Amount<RateUnit>;
  /** The class the result fell in, where the rule has classes. */
  readonly rating?: Rating | undefined;
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
