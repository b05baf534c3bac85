import type { Said } from "./cautionTriggers.ts";
import type { Source } from "./outcome.ts";

/** The piece of advice that a caution stands beside; `page`: all of it; `sampling`: the taking of samples. */
export type CautionPlace = "page" | "lime" | "nitrogen" | "phosphorus" | "potassium" | "sampling";

export interface Caution {
  /** A few words that name it beside the advice. */
  readonly title: string;
  readonly text: string;
  readonly beside: CautionPlace | readonly CautionPlace[];
  /** Called for by manure that was spread: whoever is shown no nitrogen is not told of it. */
  readonly ofManure?: true;
  /** Does what was said call for it? */
  readonly when: (said: Said) => boolean;
  readonly source: Exclude<Source, { record: unknown }>;
}

export const common = { source: "common-practice" } as const;
