import type { Farm } from "./records/model.ts";
import type { ChecksView } from "./views/guidelines/checksView.ts";

/** What a build leaves for the pages: command and bundled pages each load a copy of this module, so it hangs on the global object. */
interface Handover {
  checks?: Promise<ChecksView> | undefined;
  farm?: Farm | undefined;
  readAt?: number | undefined;
}

const key = Symbol.for("field-history.farm");

export const handover = (): Handover => ((globalThis as { [key]?: Handover })[key] ??= {});

/** Hand a farm to the pages for the whole of a build. */
export const setFarm = (farm: Farm): void => {
  handover().farm = farm;
};

/** Hand the pages what the published check values say, or will say when it is worked out. */
export const setChecks = (checks: Promise<ChecksView>): void => {
  handover().checks = checks;
};
