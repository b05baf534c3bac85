import { pH, plain } from "../../interpretation/show.ts";
import type { Band } from "../../interpretation/rules/bands.ts";
import type { SoilTestUnit } from "../../interpretation/vocabulary.ts";

type Edge = Pick<Band, "from" | "above"> | undefined;

/**
 * From where a class begins to where the one after it does, with the decimals the guideline prints: "6.1 to under 10.1 mg/l", or
 * "120 to 170 ppm" where 170 is still in it. Empty where neither end is known.
 */
export const bandLimits = (start: Edge, end: Edge, unit: SoilTestUnit | undefined): string => {
  const [from, to] = [start?.from ?? start?.above, end?.from ?? end?.above];
  const shown = (value: number): string => (unit === "pH" ? pH(value) : plain(value));
  const after = unit === undefined || unit === "pH" || unit === "index" ? "" : unit === "%" ? "%" : ` ${unit}`;
  const index = unit === "index" ? "index " : "";
  const least = from === undefined ? "" : `${start?.above === undefined ? "" : "above "}${shown(from)}`;
  if (to === undefined) return from === undefined ? "" : `${index}${least}${after}${start?.above === undefined ? " or more" : ""}`;
  if (from === undefined) return `${index}${end?.from === undefined ? "up to" : "below"} ${shown(to)}${after}`;
  return `${index}${least} to ${end?.from === undefined ? "" : "under "}${shown(to)}${after}`;
};
