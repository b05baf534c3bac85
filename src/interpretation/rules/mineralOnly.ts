import * as z from "zod";
import type { NoAnswer, Step } from "../outcome.ts";
import { noAnswer } from "../outcome.ts";
import type { When } from "./conditions.ts";
import { missingFactLabel } from "./conditions.ts";
import { isOrganic, organicDoubt } from "./soilDoubts.ts";
import { graded, provenance } from "./sourced.ts";
import type { Facts } from "./facts.ts";

/** A publication that speaks of mineral soils alone: its pH, let alone its lime, is far too much for muck and peat. */
export const mineralOnly = z.strictObject(provenance).check(graded);
type MineralOnly = z.infer<typeof mineralOnly>;

/** Why a rule for mineral soils says nothing of this one: it is organic, which `missing` would settle, or its record contradicts itself. */
export const notMineral = (only: MineralOnly | undefined, facts: Facts, pack: string, missing: string): NoAnswer | undefined => {
  if (!only) return undefined;
  const doubt = organicDoubt(facts);
  if (doubt) return noAnswer(`${missingFactLabel(doubt)} is not known, and ${pack} speaks of mineral soils alone`, [doubt]);
  return isOrganic(facts) ? noAnswer(`the soil is organic, and ${pack} speaks of mineral soils alone`, [missing]) : undefined;
};

/**
 * Why a pH to lime to that names no soil is not one for organic soil: such a row speaks of farmed soil at large, and on muck or
 * peat its lime would be several times too much (E-2567, 1995, Table 1: 5.3 there, where mineral soil is limed to 6.0 to 6.8).
 */
export const silentOnOrganic = (condition: When | undefined, facts: Facts, pack: string): NoAnswer | undefined =>
  isOrganic(facts) && !condition?.textures && !condition?.soilClass && !condition?.organicMatter
    ? noAnswer(`the soil is organic, and ${pack} gives no target pH for organic soil`, ["targetPh"])
    : undefined;

/** The line of the sum that says so where nothing recorded tells whether the soil is organic. */
export const mineralSteps = (only: MineralOnly | undefined, facts: Facts): Step[] =>
  only && isOrganic(facts) === undefined
    ? [
        {
          what: "Taken for granted",
          result: "a mineral soil; neither its texture nor its organic matter is known",
          source: only.source,
          evidence: only.evidence,
          note: only.note,
        },
      ]
    : [];
