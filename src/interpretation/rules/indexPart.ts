import type * as z from "zod";
import type { NoAnswer, Outcome, Step } from "../outcome.ts";
import { noAnswer } from "../outcome.ts";
import { plain } from "../show.ts";
import type { RateUnit } from "../units.ts";
import type { CropId, NutrientId } from "../vocabulary.ts";
import { crops, nutrients } from "../vocabulary.ts";
import type { evidence, provenance, sourcedNumber } from "./sourced.ts";
import type { IndexPart } from "./indexRule.ts";

interface ClassName {
  readonly name: string;
  readonly of?: string | undefined;
}

/** What one part of a crop's rate may ask: its class, its crop's row, the rule it is part of, and the yield in t/ha. */
export interface PartPlace {
  readonly classes: readonly ClassName[];
  readonly at: ClassName;
  readonly row: {
    readonly condition?: string | undefined;
    readonly tableYield?: z.infer<typeof sourcedNumber> | undefined;
    readonly correction?:
      { readonly perTonne: z.infer<typeof sourcedNumber>; readonly upTo: string; readonly note?: string | undefined } | undefined;
    readonly source: z.infer<typeof provenance.source>;
    readonly evidence?: z.infer<typeof evidence> | undefined;
    readonly note?: string | undefined;
  };
  readonly rule: { readonly nutrient: NutrientId; readonly unit: RateUnit; readonly indexName: string };
  readonly crop: CropId;
  readonly yieldTonnes: Outcome<{ value: number; step: Step }>;
  readonly pack: string;
}

/** In the rule's unit; `doubt` says why a printed cell may be a slip of the press. */
export interface PartRate {
  readonly rate: number;
  readonly doubt?: string | undefined;
}

/** What a table holds for a class: under its own name, else under the whole class it is half of. */
export const cell = (rates: Readonly<Record<string, number>> | undefined, at: ClassName): number | undefined =>
  rates?.[at.name] ?? (at.of === undefined ? undefined : rates?.[at.of]);

/** Is the class named, itself or the whole class it is half of? */
export const isAt = (name: string, at: ClassName): boolean => name === at.name || name === at.of;

/** Where a part's rate comes from: its own source, else its crop's; a doubtful cell says so in the note. */
export const provenanceOf = (part: IndexPart, place: PartPlace, doubt?: { note: string; evidence?: PartPlace["row"]["evidence"] }) => {
  const note = doubt ? `doubtful: ${doubt.note}` : (part.note ?? place.row.note);
  return { source: part.source ?? place.row.source, evidence: doubt?.evidence ?? part.evidence ?? place.row.evidence, note };
};

/** "80 kg/ha P₂O₅" */
export const amount = (value: number, place: PartPlace): string =>
  `${plain(value, 1)} ${place.rule.unit} ${nutrients[place.rule.nutrient].symbol}`;

/** The cell of a table, as a line of the sum. */
export const tableStep = (
  part: IndexPart,
  place: PartPlace,
  rate: number,
  doubt: { note: string; evidence?: PartPlace["row"]["evidence"] } | undefined,
): Step => {
  const { row, rule, at, crop } = place;
  const detail = [row.condition, row.tableYield && `${plain(row.tableYield.value)} t/ha`].filter(Boolean);
  const what = `Table for ${crops[crop].label}${detail.length > 0 ? ` (${detail.join(", ")})` : ""} at ${rule.indexName} ${at.name}`;
  return { what: part.dose ? `${what}, ${part.dose}` : what, result: amount(rate, place), ...provenanceOf(part, place, doubt) };
};

/** The refusal where a publication's table has an empty cell. */
export const noCell = ({ pack, rule, crop, at }: PartPlace): NoAnswer => {
  const rate = `${nutrients[rule.nutrient].label.toLowerCase()} rate`;
  return noAnswer(`${pack} gives no ${rate} for ${crops[crop].label} at ${rule.indexName} ${at.name}`, [
    `a ${rate} at ${rule.indexName} ${at.name}`,
  ]);
};
