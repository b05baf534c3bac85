import type { CautionPlace } from "../../interpretation/caution.ts";
import type { CautionId } from "../../interpretation/cautions.ts";
import { cautionIds, cautions, samplingCautions, standsBeside } from "../../interpretation/cautions.ts";
import type { ZoneAdvice } from "./sample.ts";

/** A caution as a page shows it: in full once, and by its title beside the advice it belongs to. */
export interface CautionView {
  readonly id: string;
  readonly title: string;
  readonly text: string;
}

export const cautionView = (id: CautionId): CautionView => ({
  id: `caution-${id.toLowerCase()}`,
  title: cautions[id].title,
  text: cautions[id].text,
});

/**
 * The cautions of several zones, each once, the general one first; and of the taking of samples, where that is due. `places`: only
 * those that stand beside this advice.
 */
export const cautionViews = (zones: readonly ZoneAdvice[], sampling = false, places?: readonly CautionPlace[]): CautionView[] => {
  const called = new Set<CautionId>([...zones.flatMap((z) => z.advice.cautions), ...(sampling ? samplingCautions : [])]);
  return cautionIds.filter((id) => called.has(id) && (places?.some((place) => standsBeside(id, place)) ?? true)).map(cautionView);
};
