import type { AdviceRow } from "./adviceRow.ts";

/** Why lime and nutrients have no rate, each reason once. Nitrogen waits for its own test and is no news on top of a page. */
export const silentOf = (rows: readonly AdviceRow[]): string[] => [
  ...new Set(rows.flatMap((r) => (/^-n(-|$)/.test(r.id.slice(r.zone.id.length)) ? [] : (r.none ?? [])))),
];
