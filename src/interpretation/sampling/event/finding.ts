import type { Evidence, Outcome, Source, Step } from "../../outcome.ts";
import type { Amount } from "../../units.ts";
import type { Depth, Measurement } from "../../measurement.ts";
import type { AnalyteId, CropId, PurposeId } from "../../vocabulary.ts";
import type { SamplingDepth } from "../../rules/samplingParts.ts";
import type { SamplingAdvice } from "../samplingAdvice.ts";

/** From nothing to beware of to worthless; and what the record does not say, or no rule at hand judges. */
export type Severity = "fine" | "read with care" | "not fit for the purpose" | "not recorded" | "not judged";

export type FindingId =
  | "cores"
  | "depth"
  | "depthBefore"
  | "season"
  | "cropBefore"
  | "moisture"
  | "pail"
  | "bag"
  | "way"
  | "laboratory"
  | "methods"
  | "zones"
  | "area";

/** One thing that was asked of how a sampling event was taken, and what the record answers. */
export interface Finding {
  readonly id: FindingId;
  readonly severity: Severity;
  /** One or two sentences. */
  readonly words: string;
  readonly source?: Source | undefined;
  readonly evidence?: Evidence | undefined;
  /** The tests it casts doubt on. */
  readonly analytes: readonly AnalyteId[] | "all";
  /** What to say beside a result elsewhere: "taken shallower than before". Present where something must be read with care. */
  readonly brief?: string | undefined;
}

/** What a record tells of one sampling event. */
export interface SamplingEvent {
  readonly purpose: PurposeId;
  readonly date: string;
  readonly depth: Depth;
  readonly lab: { readonly id: string; readonly name: string };
  /** Of every bag. */
  readonly measurements: readonly Measurement[];
  /** `after`: the crop that the zone last bore, or bears. */
  readonly bags: readonly { readonly zone: string; readonly cores?: number | undefined; readonly after?: CropId | undefined }[];
  readonly moisture?: "dry" | "moist" | "wet" | undefined;
  readonly pail?: "plastic" | "metal" | undefined;
  readonly bag?: "paper" | "lined paper" | "cloth" | "plastic" | undefined;
  readonly keeping?: "air-dried" | "chilled" | "frozen" | "as taken" | undefined;
  readonly receivedOn?: string | undefined;
  /** From the last core to the laboratory, or to drying or chilling. */
  readonly hoursToLab?: number | undefined;
}

/** Where it was taken, and what the field's guidelines ask of such a sampling. */
export interface SampledPlace {
  readonly zones: readonly {
    readonly id: string;
    readonly name: string;
    readonly area?: Amount<"acre" | "ha" | "sq m"> | undefined;
    readonly advice: SamplingAdvice;
  }[];
  /** How deep it is sampled where no guideline asks for a depth. */
  readonly usual: Outcome<SamplingDepth>;
  /** The field's other sampling to compare it with: the newest earlier one for the same purpose from one of its zones. */
  readonly before: SamplingEvent | undefined;
}

export const testedIn = (event: SamplingEvent): AnalyteId[] => [...new Set(event.measurements.map((m) => m.analyte))];

/** The provenance of an outcome's graded step. */
export const provenanceOf = (outcome: Outcome<unknown>): Pick<Finding, "source" | "evidence"> => {
  const step: Step | undefined = outcome.kind === "answer" ? outcome.steps.find((s) => s.source !== undefined) : undefined;
  return { source: step?.source, evidence: step?.evidence };
};
