import { setChecks } from "../../handover.ts";
import { siteChecks, siteChecksView } from "../../site.ts";
import type { ChecksView } from "../../views/guidelines/checksView.ts";
import { checksView } from "../../views/guidelines/checksView.ts";

/** What the published check values come to: as a build has worked it out beside the reading, or worked out here, once. */
export const checksOfSite = (): Promise<ChecksView> => {
  const known = siteChecksView();
  if (known) return known;
  const made = Promise.resolve(checksView(siteChecks()));
  setChecks(made);
  return made;
};
