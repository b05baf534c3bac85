import type { PurposeId } from "../../interpretation/vocabulary.ts";
import type { Field, Zone } from "../../records/model.ts";
import { zoneSamplingAdvice } from "../advice/samplingQuality.ts";

/** Bags that a zone takes for a purpose: as many as the guideline asks for its area, else one. */
export const bagsOf = (field: Field, zone: Zone, purpose: PurposeId, date: string): number => {
  const { outcome } = zoneSamplingAdvice(field, zone, purpose, date).composites;
  return outcome.kind === "answer" ? outcome.value.least : 1;
};

const bagsOfAll = (field: Field, date: string): number => field.zones.reduce((sum, zone) => sum + bagsOf(field, zone, "routine", date), 0);

/** The field with these zones in place of others; only what counts bags is set right. */
const redrawn = (field: Field, gone: readonly Zone[], made: readonly Zone[]): Field => ({
  ...field,
  zones: [...field.zones.filter((z) => !gone.includes(z)), ...made],
});

/** Bags of a full sampling that two zones drawn as one save: none where the guideline asks as many of their area together. */
export const bagsSaved = (field: Field, [a, b]: readonly [Zone, Zone], date: string): number => {
  const squareMeters = a.squareMeters === undefined || b.squareMeters === undefined ? undefined : a.squareMeters + b.squareMeters;
  return bagsOfAll(field, date) - bagsOfAll(redrawn(field, [a, b], [{ ...a, squareMeters }]), date);
};

/** Bags that a zone drawn as two of one size costs. */
export const bagsAdded = (field: Field, zone: Zone, date: string): number => {
  const half = { ...zone, squareMeters: zone.squareMeters === undefined ? undefined : zone.squareMeters / 2 };
  return bagsOfAll(redrawn(field, [zone], [half, { ...half }]), date) - bagsOfAll(field, date);
};
