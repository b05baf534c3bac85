import type { AnalyteId } from "../../interpretation/vocabulary.ts";
import { analytes } from "../../interpretation/vocabulary.ts";
import type { Farm, Field, Zone } from "../../records/model.ts";
import type { Fact } from "../fact.ts";
import { period } from "./fieldSummary.ts";
import { zoneHistory } from "../trends/history.ts";
import type { OwedField } from "./owedLine.ts";
import { owedLine } from "./owedLine.ts";
import { moneyWords, sumOwed, sumOfMoney } from "./owedRows.ts";
import { recordsKept } from "./recordsKept.ts";
import { latestAdvice } from "../advice/sample.ts";
import { citedReferences, referenceLabel } from "../steps.ts";
import type { Basis, Proof } from "./summarySources.ts";
import { owedBases, summaryOutcomes } from "./summarySources.ts";
import { belowSentence, owedNotes, owedSentence, positionOf, sampledWords, toldOf } from "./summaryWords.ts";
import { trendsByChance } from "../trends/byChance.ts";
import { judgedSeries } from "../trends/trendSeries.ts";
import { area, areaUnit, eachRounded, inUnitsOf } from "../units.ts";
import { count, list } from "../words.ts";

/** One test over the whole farm: how much land lies where, and where it is going. */
export interface FarmFertility {
  readonly analyte: AnalyteId;
  readonly label: string;
  readonly below: string;
  readonly within: string;
  readonly above: string;
  readonly unrated: string;
  readonly direction: string;
}

export interface FarmSummary {
  readonly lede: string;
  readonly why: string;
  readonly period: string;
  readonly land: readonly Fact[];
  readonly fertility: readonly FarmFertility[];
  /** What the shares of the land are counted in: zones where one has no area. */
  readonly counted: "Area" | "Zones";
  readonly totals: readonly OwedField[];
  readonly bases: readonly Basis[];
  readonly notes: readonly string[];
  readonly kept: readonly Fact[];
  readonly sources: readonly string[];
  readonly proofs: readonly Proof[];
}

interface Placed {
  readonly field: Field;
  readonly zone: Zone;
}

const isUnmeasured = ({ zone }: Placed): boolean => zone.squareMeters === undefined;

/** "25.6 acres", of what has an area. */
const areaOf = (farm: Farm, zones: readonly Placed[]): string =>
  `${area(
    zones.reduce((sum, { zone }) => sum + (zone.squareMeters ?? 0), 0),
    farm.units,
  )} ${areaUnit(farm.units)}`;

/** Area in the farm's units, or zones where one has no area. */
const sizeOf = (farm: Farm, zones: readonly Placed[], all: readonly Placed[]): string => {
  if (zones.length === 0) return "none";
  return all.some(isUnmeasured) ? count(zones.length, "zone") : areaOf(farm, zones);
};

/** "52.0 acres, without one zone that has no boundary" */
const areaInAll = (farm: Farm, all: readonly Placed[]): string => {
  const without = all.filter(isUnmeasured).length;
  if (without === all.length) return "not known";
  return `${areaOf(farm, all)}${without === 0 ? "" : `, without ${count(without, "zone")} that ${without === 1 ? "has" : "have"} no boundary`}`;
};

const fertility = (farm: Farm, analyte: AnalyteId, all: readonly Placed[]): FarmFertility => {
  const at = (wanted: string | undefined): string =>
    sizeOf(
      farm,
      all.filter(({ field, zone }) => positionOf(farm, field, zone, analyte) === wanted),
      all,
    );
  return {
    analyte,
    label: analytes[analyte].label,
    below: at("below"),
    within: at("within"),
    above: at("above"),
    unrated: at(undefined),
    direction: directions(farm, analyte, all),
  };
};

const findings = ["falling", "rising", "no detectable trend", "no variation", "too few samplings"] as const;

/** "falling on two zones, no detectable trend on five, too few samplings on six"; of many, how many of them chance alone makes. */
const directions = (farm: Farm, analyte: AnalyteId, all: readonly Placed[]): string => {
  const counts = new Map<string, number>();
  for (const { field, zone } of all) {
    const trend = judgedSeries(zoneHistory(farm, field, zone, analyte), analyte)?.trend;
    const finding = trend?.kind === "answer" ? trend.value.finding : "too few samplings";
    counts.set(finding, (counts.get(finding) ?? 0) + 1);
  }
  const told = list(
    findings.filter((f) => counts.has(f)).map((f, i) => `${f} on ${count(counts.get(f)!, "zone").replace(i === 0 ? "" : / zones?$/, "")}`),
  );
  const directed = (counts.get("falling") ?? 0) + (counts.get("rising") ?? 0);
  const byChance = trendsByChance(directed + (counts.get("no detectable trend") ?? 0), directed);
  return [told, byChance].filter(Boolean).join("; ");
};

/** A sum for each choice of units, since amounts in different ones are not added up; the money of all stands in the last. */
const totals = (farm: Farm): OwedField[] => {
  const choices = [...new Set(farm.fields.map((f) => inUnitsOf(farm, f).units))];
  const lines = choices.map((units) =>
    owedLine(
      farm,
      farm.fields.filter((f) => inUnitsOf(farm, f).units === units),
      choices.length === 1 ? "The farm" : `All told in ${units === "us" ? "US" : units} units`,
    ),
  );
  if (choices.length === 1) return lines;
  const money = sumOfMoney(farm.fields.map((f) => sumOwed(farm, [f]).money));
  return [
    ...lines,
    {
      ...lines[0]!,
      lime: "",
      phosphorus: "",
      potassium: "",
      phosphorusWords: [],
      potassiumWords: [],
      name: "The farm",
      money: moneyWords(farm, money),
    },
  ];
};

/** All that the farm's summary sheet shows. */
export const farmSummary = (farm: Farm): FarmSummary => {
  const all = farm.fields.flatMap((field) => field.zones.map((zone): Placed => ({ field, zone })));
  const rows = toldOf.map((analyte) => fertility(farm, analyte, all));
  const rated = rows.filter((r) => [r.below, r.within, r.above].some((text) => text !== "none"));
  const outcomes = farm.fields.flatMap((f) => summaryOutcomes(farm, f));
  const dates = farm.fields.flatMap((f) => f.zones.flatMap((z) => latestAdvice(farm, f, z)?.sampling.date ?? [])).sort();
  const labs = [
    ...new Set(
      farm.fields.flatMap((f) =>
        f.zones.flatMap((z) => f.samplings.find((s) => s.id === latestAdvice(farm, f, z)?.sampling.id)?.lab.name ?? []),
      ),
    ),
  ];
  const { sha256, files, command } = farm.fingerprint;
  return {
    lede: `${belowSentence(
      rated.filter((r) => r.below !== "none").map((r) => ({ analytes: [r.analyte], on: r.below })),
      rated.map((r) => r.analyte),
    )} ${owedSentence(farm, farm.fields)}`,
    why: sampledWords(dates, labs),
    period: period(farm.fields),
    land: landFacts(farm, all),
    fertility: rows,
    counted: all.some(isUnmeasured) ? "Zones" : "Area",
    totals: farm.fields.length > 1 ? totals(farm) : [],
    bases: owedBases(farm, farm.fields),
    notes: owedNotes(farm, farm.fields),
    kept: recordsKept(farm, farm.fields),
    sources: citedReferences(outcomes, farm.references).map(referenceLabel),
    proofs: [
      {
        what: farm.withheld ? "The farm's records, whole" : `The farm's records, ${count(files, "file")}`,
        sha256,
        how: "Whoever holds the records can work this out again, where farm.yaml lies, without this program:",
        command,
      },
    ],
  };
};

const landFacts = (farm: Farm, all: readonly Placed[]): Fact[] => {
  const kinds = ["owned", "rented", "managed", undefined] as const;
  const held = kinds
    .map((kind) => ({ kind, zones: all.filter(({ field }) => field.tenure?.kind === kind) }))
    .filter(({ zones }) => zones.length > 0);
  const rounded = !all.some(isUnmeasured)
    ? eachRounded(
        held.map(({ zones }) => zones.reduce((sum, { zone }) => sum + zone.squareMeters!, 0)),
        farm.units,
      )
    : "";
  return [
    {
      term: farm.withheld?.someFields ? "Fields shown to this reader" : "Fields",
      value: `${count(farm.fields.length, "field")}, ${count(all.length, "zone")}`,
    },
    { term: "Area", value: areaInAll(farm, all) },
    { term: "Tenure", value: `${list(held.map(({ kind, zones }) => `${sizeOf(farm, zones, all)} ${kind ?? "not recorded"}`))}${rounded}` },
  ];
};
