import type { AnalyteId, PurposeId } from "../../interpretation/vocabulary.ts";
import type { Field, Sampling } from "../../records/model.ts";
import { analyteIds, purposeIds } from "../../interpretation/vocabulary.ts";
import { isAnswered } from "../results/awaited.ts";
import { drawable } from "./map.ts";
import { mostOfPage, yearMapWeight } from "../pageWeight.ts";
import { parted } from "../parted.ts";
import { fieldAsOf } from "../zonesThen.ts";

/** What the maps of the field's own page show, in this order. Elsewhere they come before the others. */
export const mapped: readonly AnalyteId[] = ["pH", "K", "P"];

/** What a sampling tested, those of the field's own page first. */
export const testedIn = (samplings: readonly Sampling[]): AnalyteId[] => {
  const tested = new Set(samplings.flatMap((s) => s.composites.flatMap((c) => c.measurements.map((m) => m.analyte))));
  return [...mapped, ...analyteIds.filter((a) => !mapped.includes(a))].filter((a) => tested.has(a));
};

/** The samplings of one purpose whose results can be drawn, oldest first. */
const drawn = (field: Field, purpose: PurposeId): Sampling[] =>
  field.samplings.filter((s) => {
    const { zones } = fieldAsOf(field, s.date);
    return s.purpose === purpose && drawable(zones).length > 0 && zones.some((z) => isAnswered(s, z.id));
  });

/**
 * The samplings that each page of a field's maps draws, always of one purpose: the newest routine samplings on the first page, on every
 * page oldest first, and with the zones of their time. None where no zone has a boundary, or where the field's own page draws all there is.
 */
export const mapParts = (field: Field): Sampling[][] => {
  const weightOf = (sampling: Sampling): number =>
    testedIn([sampling]).length * yearMapWeight(fieldAsOf(field, sampling.date).zones.length);
  const parts = purposeIds.flatMap((purpose) =>
    byZones(field, drawn(field, purpose).toReversed())
      .flatMap((some) => parted(some, weightOf, mostOfPage))
      .map((part) => part.toReversed()),
  );
  return isOnFieldPage(field, parts.flat()) ? [] : parts;
};

/** Neighbors in time whose zones were the same: one drawing of the zones holds for all of them. */
const byZones = (field: Field, samplings: readonly Sampling[]): Sampling[][] => {
  const groups: Sampling[][] = [];
  for (const sampling of samplings) {
    const last = groups.at(-1);
    if (last && fieldAsOf(field, last[0]!.date) === fieldAsOf(field, sampling.date)) last.push(sampling);
    else groups.push([sampling]);
  }
  return groups;
};

const isOnFieldPage = (field: Field, samplings: readonly Sampling[]): boolean =>
  samplings.every((s) => s.purpose === "routine" && fieldAsOf(field, s.date) === field) &&
  samplings.length < 2 &&
  testedIn(samplings).every((a) => mapped.includes(a));
