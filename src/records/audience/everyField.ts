import type { Application, Composite, Farm, Field, GrownCrop, PlannedCrop, Sampling } from "../model.ts";

/** What becomes of each kind of record; `undefined` takes one out. A kind that is not named stays as it is. */
export interface Changes {
  readonly field?: (field: Field) => Field;
  readonly planned?: (planned: PlannedCrop) => PlannedCrop | undefined;
  readonly sampling?: (sampling: Sampling) => Sampling | undefined;
  readonly composite?: (composite: Composite) => Composite;
  readonly crop?: (crop: GrownCrop) => GrownCrop | undefined;
  readonly application?: (application: Application) => Application | undefined;
}

const kept = <T>(items: readonly T[], change: ((item: T) => T | undefined) | undefined): readonly T[] =>
  change ? items.flatMap((item) => change(item) ?? []) : items;

/** The farm with every field's records changed. */
export const everyField = (farm: Farm, changes: Changes): Farm => ({
  ...farm,
  fields: farm.fields.map((was): Field => {
    const field = changes.field?.(was) ?? was;
    return {
      ...field,
      plan: kept(field.plan, changes.planned),
      samplings: kept(field.samplings, changes.sampling).map((s) => ({ ...s, composites: kept(s.composites, changes.composite) })),
      seasons: field.seasons.map((s) => ({
        ...s,
        crops: kept(s.crops, changes.crop),
        applications: kept(s.applications, changes.application),
      })),
    };
  }),
});
