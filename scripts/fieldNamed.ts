import { choice } from "../src/records/choice.ts";
import type { Farm, Field, Sampling } from "../src/records/model.ts";
import { allowedWords } from "../src/records/nearMiss.ts";
import { UsageError } from "./options.ts";

/** The field that a person names by its folder. */
export const fieldNamed = (farm: Farm, wanted: string): Field => {
  const ids = farm.fields.map((f) => f.id);
  const id = choice(wanted, ids);
  const field = farm.fields.find((f) => f.id === id);
  if (!field) throw new UsageError(`there is no field "${wanted}"; ${allowedWords(wanted, ids)}`);
  return field;
};

/** One of its samplings, by the name of its file. */
export const samplingNamed = (field: Field, wanted: string): Sampling => {
  const ids = field.samplings.map((s) => s.id);
  const sampling = field.samplings.find((s) => s.id === wanted);
  if (!sampling) throw new UsageError(`field "${field.id}" has no sampling "${wanted}"; ${allowedWords(wanted, ids)}`);
  return sampling;
};
