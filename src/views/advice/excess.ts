import type { CautionId } from "../../interpretation/cautions.ts";
import { cautions } from "../../interpretation/cautions.ts";
import type { Zone } from "../../records/model.ts";
import type { ZoneAdvice } from "./sample.ts";

/** What is not to be spread, and where: a warning that has to reach whoever reads a first sentence alone. */
export interface Excess {
  /** "phosphorus above the environmental limit" */
  readonly what: string;
  /** "Add no phosphorus" */
  readonly text: string;
  readonly detail: string;
  readonly zones: readonly Zone[];
}

const warned = {
  phosphorusOverLimit: { what: "phosphorus above the environmental limit", text: "Add no phosphorus" },
  manureOnHighPhosphorus: { what: "manure on soil with enough phosphorus", text: "Hold manure back" },
} as const satisfies Partial<Record<CautionId, Pick<Excess, "what" | "text">>>;

/** The gravest warning of each zone. */
export const excessOf = (zones: readonly ZoneAdvice[]): Excess[] => {
  const ids = Object.keys(warned) as (keyof typeof warned)[];
  const gravest = Map.groupBy(zones, ({ advice }) => ids.find((id) => advice.cautions.includes(id)));
  return ids.flatMap((id) => {
    const on = gravest.get(id);
    return on ? [{ ...warned[id], detail: cautions[id].text, zones: on.map((z) => z.zone) }] : [];
  });
};
