import { isNothing, area, areaUnit, nutrientRate } from "../units.ts";
import { unitChoices } from "../../interpretation/unitChoices.ts";
import { supplied } from "../../interpretation/vocabulary.ts";
import type { Farm, Field, Zone } from "../../records/model.ts";
import { leavesOut, leftOutForReader } from "../leftOut.ts";
import type { CautionView } from "../advice/cautionViews.ts";
import { cropWords } from "../advice/adviceView.ts";
import { dosedWords } from "../advice/doses.ts";
import { liquidRate, liquidVolume } from "../advice/liquid.ts";
import { costWords, spreadMass, spreadRate, sumOf } from "./seasonAmounts.ts";
import type { SpreadJob } from "./seasonJobs.ts";
import { jobCautions } from "./seasonJobs.ts";
import type { SpreadLine } from "./seasonLines.ts";
import type { SeasonZone } from "./seasonZones.ts";
import { notTakenOff } from "./whyWords.ts";
import type { EvidenceMark } from "../steps.ts";
import { capital, count, list, longDate } from "../words.ts";

export interface SeasonRow {
  readonly zone: Zone;
  readonly crop: string;
  readonly rate: string;
  readonly area: string;
  readonly mass: string;
  readonly cost: string;
  /** "In 2 applications of 1.9 ton/ac. Leave the rest for later years and test again first." */
  readonly notes: readonly string[];
  /** The advice is older than the guideline's interval. */
  readonly old: string | undefined;
  readonly already: string | undefined;
  readonly anchor: string;
  readonly packs: readonly { readonly id: string; readonly short: string }[];
  readonly evidence: EvidenceMark | undefined;
}

/** The zones of one field; what is so of all of several is told once, beside the field's name. */
export interface SeasonGroup {
  readonly field: Field;
  readonly already: string | undefined;
  readonly old: string | undefined;
  readonly rows: readonly SeasonRow[];
}

/** One product by field and zone, as a page shows it. */
export interface SeasonTable {
  readonly id: string;
  readonly title: string;
  readonly heads: { readonly rate: string; readonly area: string; readonly mass: string };
  readonly groups: readonly SeasonGroup[];
  readonly total: { readonly area: string; readonly mass: string; readonly cost: string };
  readonly cautions: readonly CautionView[];
}

/** A number without its unit, which stands in the column's head. */
const bare = (text: string): string => text.split(" ")[0]!;

export const seasonTable = (farm: Farm, job: SpreadJob): SeasonTable => {
  const { id, title, kind, units, rows } = job;
  const lines = rows.map((r) => r.line);
  const fields = [...new Set(rows.map((r) => r.zone.field))];
  const [acres, pounds, cost] = [sumOf(lines, "acres"), sumOf(lines, "pounds"), sumOf(lines, "cost")];
  const squareMeters = rows.reduce((sum, r) => sum + (r.zone.zone.squareMeters ?? 0), 0);
  const without = (n: number): string => (n === 0 ? "" : `, without ${count(n, "zone")}`);
  return {
    id,
    title,
    heads: {
      rate: spreadRate(kind, 0, units).unit,
      area: areaUnit(units),
      mass: kind === "lime" ? unitChoices[units].limeMassWords : unitChoices[units].mass,
    },
    groups: fields.map((field) =>
      seasonGroup(
        field,
        rows.filter((r) => r.zone.field === field).map(({ zone, line }) => seasonRow(farm, zone, line)),
      ),
    ),
    total: {
      area: acres.unknown === lines.length ? "not known" : `${area(squareMeters, units)}${without(acres.unknown)}`,
      mass: pounds.unknown === lines.length ? "not known" : `${bare(spreadMass(kind, pounds.known, units))}${without(pounds.unknown)}`,
      cost: leavesOut(farm, "costs")
        ? leftOutForReader
        : cost.unknown === lines.length
          ? "not known"
          : `${costWords(cost.known, units, farm.currency)}${without(cost.unknown)}`,
    },
    cautions: jobCautions([job]),
  };
};

const seasonGroup = (field: Field, rows: readonly SeasonRow[]): SeasonGroup => {
  const shared = (of: (row: SeasonRow) => string | undefined): string | undefined =>
    rows.length > 1 && rows.every((row) => of(row) === of(rows[0]!)) ? of(rows[0]!) : undefined;
  const [already, old] = [shared((r) => r.already), shared((r) => r.old)];
  return {
    field,
    already,
    old,
    rows: rows.map((row) => ({ ...row, already: already ? undefined : row.already, old: old ? undefined : row.old })),
  };
};

const rowCost = (farm: Farm, units: SeasonZone["units"], { cost, product }: SpreadLine): string => {
  if (leavesOut(farm, "costs")) return leftOutForReader;
  if (cost !== undefined) return costWords(cost, units, farm.currency);
  return product.pricePerTon === undefined ? "no price" : "area not known";
};

const seasonRow = (farm: Farm, { zone, units, old, advised }: SeasonZone, line: SpreadLine): SeasonRow => {
  const { kind, pounds, parts } = line;
  const rate = spreadRate(kind, line.rate, units);
  const volume = liquidRate(line.product, line.rate, units);
  const brought = line.brings
    .map((b) => ({ nutrient: b.nutrient, amount: nutrientRate({ value: b.given, unit: "lb/ac" }, units) }))
    .filter((b) => !isNothing(b.amount.value));
  return {
    zone,
    crop: cropWords(advised!.advice),
    rate: rate.value,
    area: zone.squareMeters === undefined ? "not mapped" : area(zone.squareMeters, units),
    mass: pounds === undefined ? "area not known" : bare(spreadMass(kind, pounds, units)),
    cost: rowCost(farm, units, line),
    notes: [
      brought.length > 0
        ? `Brings ${list(brought.map((b) => `${b.amount.value} ${b.amount.unit} of ${supplied[b.nutrient].symbol}`))}${kind === "starter" ? ", as planned" : ""}.`
        : "",
      volume === undefined
        ? ""
        : `By volume ${volume}${pounds === undefined ? "" : `, ${liquidVolume(line.product, pounds, units)} in all`}.`,
      parts > 1
        ? `In ${parts} applications of ${spreadRate(kind, line.rate / parts, units).value} ${rate.unit}. ${line.then ?? ""}`.trim()
        : "",
      ...line.doses.map((dosed) => `${capital(dosedWords(dosed, units))}.`),
      line.byWeight ? "The least weight, not the least cost, for want of prices." : "",
    ].filter(Boolean),
    old: old ? `Sampled ${longDate(advised!.advice.sampling.date)}, overdue: sample again before acting on it.` : undefined,
    already: line.already.length > 0 ? notTakenOff(list(line.already)) : undefined,
    anchor: line.anchor,
    packs: line.packs.map(({ id, short }) => ({ id, short })),
    evidence: line.evidence,
  };
};
