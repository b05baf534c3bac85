import { forAudience } from "../src/records/audience/forAudience.ts";
import type { Farm } from "../src/records/model.ts";
import { allowedWords } from "../src/records/nearMiss.ts";
import { UsageError } from "./options.ts";

/** The farm as the reader named by `--audience` may see it; without one, the whole. `today` is the day asked for, if any. */
export const farmFor = (farm: Farm, audience: string | undefined, today: string | undefined): Farm => {
  if (audience === undefined) return farm;
  const found = farm.audiences.get(audience);
  if (found) return forAudience(farm, found, today);
  const ids = [...farm.audiences.keys()];
  throw new UsageError(
    `--audience "${audience}" is not in farm.yaml; ${ids.length === 0 ? "it names no audience yet" : allowedWords(audience, ids)}`,
  );
};
