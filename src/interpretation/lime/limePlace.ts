import type { Guideline } from "../guideline.ts";
import type { Measurement } from "../measurement.ts";
import type { Source } from "../outcome.ts";
import type { EarlierLime } from "../rules/bufferAcidity.ts";
import type { LimeAnalysis } from "../rules/limeQuality.ts";
import type { OwnTarget } from "../rules/targetPh.ts";
import type { LengthUnit } from "../units.ts";
import type { LimeIndexId } from "../vocabulary.ts";
import type { Facts } from "../rules/facts.ts";

/** A liming material the farm can buy. */
export interface LimeMaterial {
  readonly id: string;
  readonly name: string;
  /** Indices the supplier states, each in its own unit (percent or lb/ton), with the place in the record that says so. */
  readonly stated: Partial<Record<LimeIndexId, { value: number; source: Source }>>;
  readonly analysis?: (LimeAnalysis & { source: Source }) | undefined;
  readonly pricePerTon?: number | undefined;
}

/** All that a lime rule may ask about one place. */
export interface LimePlace {
  readonly facts: Facts;
  readonly packs: readonly Guideline[];
  readonly pH: Measurement | undefined;
  /** Every buffer reading of the sample; a guideline uses the one it has a rule for. */
  readonly buffers: readonly Measurement[];
  /** Exchangeable acidity and aluminum, by whatever methods they were measured. */
  readonly acidities?: readonly Measurement[] | undefined;
  readonly aluminums?: readonly Measurement[] | undefined;
  /** Lime that was spread before the sample; absent where no record of applications is kept. */
  readonly earlierLime?: readonly EarlierLime[] | undefined;
  /** The depth of soil to be limed, where the field's record sets it; else the depth sampled. */
  readonly depth?: { value: number; unit: LengthUnit; source: Source } | undefined;
  readonly own?: OwnTarget | undefined;
  readonly incorporated: boolean;
  readonly materials: readonly LimeMaterial[];
}
