import type { Area } from "../exchange/geometry.ts";
import type { Guideline } from "../interpretation/guideline.ts";
import type { Manure } from "../interpretation/manure.ts";
import type { Depth, Measurement } from "../interpretation/measurement.ts";
import type { Origin } from "../interpretation/outcome.ts";
import type { Analysis, Fertilizer } from "../interpretation/products.ts";
import type { Starter } from "../interpretation/starter.ts";
import type { Amount, LengthUnit, RateUnit, VolumeRateUnit, YieldUnit } from "../interpretation/units.ts";
import type { CropId, PurposeId, SoilCategoryId, SoilClassId, StrawId, TextureId } from "../interpretation/vocabulary.ts";
import type { PackSince } from "./sealing/packPrint.ts";
import type { RecordsPrint } from "./sealing/recordsPrint.ts";
import type { AudienceRecord, WithheldPart } from "./schemas/audience.ts";
import type { FarmRecord, Product } from "./schemas/farm.ts";
import type { FieldRecord } from "./schemas/field.ts";
import type { LabRecord } from "./schemas/lab.ts";
import type { RecommendationRecord } from "./schemas/recommendation.ts";
import type { ReferenceRecord } from "./schemas/references.ts";
import type { SamplingRecord } from "./schemas/sampling.ts";
import type { SeasonRecord } from "./schemas/season.ts";
import type { LimeMaterial } from "../interpretation/lime/limePlace.ts";

/** The records of a farm, read, checked and joined. Nothing after this is parsed, converted or looked up twice. */
export interface Farm {
  readonly name: string;
  readonly about?: string | undefined;
  readonly address?: string | undefined;
  readonly units: FarmRecord["units"];
  readonly currency: string;
  /** What the owner lets a published site give away. */
  readonly publish: { readonly index: boolean; readonly location: boolean; readonly reports: boolean };
  readonly guidelines: readonly Guideline[];
  readonly products: ReadonlyMap<string, FarmProduct>;
  /** The day the products' prices were looked up, where the record says. */
  readonly pricesOn?: string | undefined;
  readonly labs: ReadonlyMap<string, Lab>;
  /** Every guideline that the farm or one of its fields has chosen, the farm's first. */
  readonly usedGuidelines: ReadonlyMap<string, Guideline>;
  /** Every guideline that is at hand, chosen or not: the installation's and the farm's own. */
  readonly allGuidelines: ReadonlyMap<string, Guideline>;
  /** Ids of those that are the farm's own, where it is not the installation's. */
  readonly ownGuidelines: ReadonlySet<string>;
  readonly references: ReadonlyMap<string, Reference>;
  readonly fields: readonly Field[];
  /** The laboratories' own reports that the farm keeps, by file name. Empty in what a reader gets who should not see everything. */
  readonly reports: ReadonlyMap<string, Report>;
  /** Readers who should not see everything, by id. Empty in what such a reader gets. */
  readonly audiences: ReadonlyMap<string, AudienceRecord>;
  /** Present in what such a reader gets: what it does not hold. A page then says "left out", never "not recorded". */
  readonly withheld?: Withheld | undefined;
  /** The day the site speaks from: given, or the newest date in the records. */
  readonly today: string;
  readonly files: number;
  /** Of farm.yaml, the laboratories and every field. */
  readonly fingerprint: RecordsPrint;
}

/** What was taken out of a farm for one reader. It holds nothing of what was taken. */
export interface Withheld {
  /** As farm.yaml names the reader. */
  readonly reader: string;
  readonly parts: ReadonlySet<WithheldPart>;
  /** The first and last year shown, where years were left out. */
  readonly years?: { readonly from?: number | undefined; readonly to?: number | undefined } | undefined;
  /** True where the reader sees only some fields. Not how many there are. */
  readonly someFields: boolean;
}

/** A laboratory's report as it came, in the farm's reports folder. */
export interface Report {
  /** Where it lies on this machine. */
  readonly at: string;
  readonly bytes: number;
}

export interface Reference extends ReferenceRecord {
  readonly id: string;
}

export interface Lab extends LabRecord {
  readonly id: string;
}

export interface FarmProduct {
  readonly id: string;
  readonly product: Product;
  readonly origin: Origin;
  /** Present for liming materials. */
  readonly lime?: LimeMaterial | undefined;
  /** Present for fertilizers. */
  readonly fertilizer?: Fertilizer | undefined;
  /** Percent by weight of what lime brings beside its lime, such as the potash of wood ash. */
  readonly brings?: Analysis | undefined;
  /** Present for manures. */
  readonly manure?: Manure | undefined;
  /** Of a liquid whose density is recorded. */
  readonly poundsPerGallon?: number | undefined;
}

/** What is known of a zone's soil, and where the record says so. */
export interface Soil {
  readonly name?: string | undefined;
  readonly texture?: TextureId | undefined;
  readonly category?: SoilCategoryId | undefined;
  readonly cec?: number | undefined;
  readonly organicMatter?: number | undefined;
  readonly subsoilPh?: number | undefined;
  readonly soilClass?: SoilClassId | undefined;
  readonly origins: Readonly<Partial<Record<"cec" | "organicMatter" | "subsoilPh" | "soilClass", Origin>>>;
}

export interface Zone {
  readonly id: string;
  readonly letter: string;
  readonly name: string;
  readonly soil: Soil;
  /** Days from and until which it is a zone, and the zones whose ground it took over. */
  readonly since?: string | undefined;
  readonly until?: string | undefined;
  readonly formerly?: readonly string[] | undefined;
  readonly area?: Area | undefined;
  /** Measured from the polygon; absent without one. */
  readonly squareMeters?: number | undefined;
}

export interface PlannedCrop {
  readonly season: number;
  readonly crop: CropId;
  readonly yieldGoal?: Amount<YieldUnit> | undefined;
  /** A goal is on record, and the reader is not shown it. */
  readonly yieldWithheld?: boolean | undefined;
  readonly straw?: StrawId | undefined;
  readonly starter?: Starter | undefined;
  readonly zones: readonly string[];
  readonly origin: Origin;
}

export interface Composite {
  readonly label: string;
  readonly zone: string;
  readonly cores?: number | undefined;
  readonly note?: string | undefined;
  readonly measurements: readonly Measurement[];
  readonly origin: Origin;
}

export interface Sampling {
  readonly id: string;
  readonly file: string;
  readonly date: string;
  readonly purpose: PurposeId;
  readonly lab: Lab;
  readonly packageId: string;
  /** How each analyte is measured: by the package, or as this event says otherwise. */
  readonly measures: LabRecord["packages"][string]["measures"];
  readonly depth: Depth;
  readonly handling: NonNullable<SamplingRecord["handling"]>;
  readonly report?: SamplingRecord["report"];
  readonly nitrate?: (NonNullable<SamplingRecord["nitrate"]> & { readonly origin: Origin }) | undefined;
  readonly composites: readonly Composite[];
  readonly note?: string | undefined;
}

export interface GrownCrop {
  readonly crop: CropId;
  readonly zones: readonly string[];
  readonly planted?: string | undefined;
  readonly harvested?: string | undefined;
  readonly yield?: Amount<YieldUnit> | undefined;
  /** It is on record, and the reader is not shown it. */
  readonly yieldWithheld?: boolean | undefined;
  /** Percent of water in the yield as it was weighed. */
  readonly moisture?: number | undefined;
  readonly straw?: StrawId | undefined;
  readonly stand?: SeasonRecord["crops"][number]["stand"];
  readonly note?: string | undefined;
  readonly origin: Origin;
}

export interface Application {
  readonly date: string;
  readonly product: FarmProduct;
  readonly zones: readonly string[];
  /** By weight; of a liquid recorded by volume, what that weighs. */
  readonly rate: Amount<RateUnit>;
  /** A liquid's rate as it was recorded. */
  readonly volume?: Amount<VolumeRateUnit> | undefined;
  readonly incorporated?: boolean | undefined;
  readonly note?: string | undefined;
  readonly origin: Origin;
}

export interface Season {
  readonly season: number;
  /** The first of the years shown to a reader: what was spread for it the autumn before is not in it. */
  readonly part?: boolean | undefined;
  readonly file: string;
  readonly crops: readonly GrownCrop[];
  readonly applications: readonly Application[];
  readonly note?: string | undefined;
}

/** Advice as it was issued, its seal proved. */
export interface Recommendation {
  /** The day of issue. */
  readonly id: string;
  readonly file: string;
  readonly record: RecommendationRecord;
  /** Parts of it were left out for a reader: its seal can be proved only on the farm's own file. */
  readonly excerpt?: boolean | undefined;
  /** What became of the guidelines it names. */
  readonly packs: readonly PackSince[];
}

export interface Field {
  readonly id: string;
  readonly name: string;
  readonly file: string;
  readonly tenure?: FieldRecord["tenure"];
  readonly boundary?: FieldRecord["boundary"];
  readonly avoid: FieldRecord["avoid"];
  /** This field's own choice; absent: the farm's. */
  readonly units?: FieldRecord["units"];
  readonly tillage: FieldRecord["tillage"];
  readonly note?: string | undefined;
  /** The zones of today. */
  readonly zones: readonly Zone[];
  /** Zones that were merged, split or given up: they have history, and no advice. */
  readonly formerZones: readonly Zone[];
  /** Zones that begin on a day to come: only what is planned for such a day has to do with them. */
  readonly laterZones: readonly Zone[];
  /** This field's own choice, or the farm's. */
  readonly guidelines: readonly Guideline[];
  readonly targetPh?: { value: number; reason: string; origin: Origin } | undefined;
  readonly limeDepth?: { value: number; unit: LengthUnit; origin: Origin } | undefined;
  /** The crops grown in turn, where the record states them. */
  readonly rotation?: { readonly crops: readonly CropId[]; readonly origin: Origin } | undefined;
  readonly plan: readonly PlannedCrop[];
  /** Oldest first. */
  readonly samplings: readonly Sampling[];
  readonly seasons: readonly Season[];
  /** Advice as issued, oldest first. */
  readonly recommendations: readonly Recommendation[];
  /** Of every file of its folder. */
  readonly fingerprint: RecordsPrint;
}
