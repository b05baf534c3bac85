import * as z from "zod";
import type { NoAnswer } from "../outcome.ts";
import { noAnswer } from "../outcome.ts";
import { meets, when } from "./conditions.ts";
import type { Facts } from "./facts.ts";
import { graded, provenance } from "./sourced.ts";

/** A place that a publication has no word for, or says two things of that cannot both hold. */
export const leftOutPlace = z
  .strictObject({ when, because: z.string().min(1).describe("a clause that reads on from `No rate, because`"), ...provenance })
  .check(graded);
type LeftOutPlace = z.infer<typeof leftOutPlace>;

/** The place that this one is left out as, where all that makes it one is known: what is not recorded leaves no place out. */
export const leftOutHere = <T extends LeftOutPlace>(places: readonly T[], facts: Facts): T | undefined =>
  places.find((p) => meets(p.when, facts).matches);

/** Why this place is left out. */
export const leftOut = (places: readonly LeftOutPlace[], facts: Facts, missing: string): NoAnswer | undefined => {
  const here = leftOutHere(places, facts);
  return here && noAnswer(here.because, [missing]);
};
