import * as z from "zod";
import type { Verdict } from "./check.ts";

/** How many significant digits a case was printed with; ten where it does not say. */
export const digits = z.number().int().min(1).max(16).optional();

/** A number as printed, or "none" where there is none to print. */
export const printedNumber = z.union([z.number(), z.boolean(), z.string()]);
export type Printed = z.infer<typeof printedNumber>;

/** Does a number that was worked out round to the printed one? */
export const printed = (what: string, got: number | boolean | string | undefined, wanted: Printed, places = 10): Verdict => {
  const said = typeof got === "boolean" ? String(got) : (got ?? "none");
  if (typeof wanted !== "number") return { what, got: said, wanted: String(wanted), ok: said === String(wanted) };
  if (typeof said !== "number") return { what, got: said, wanted, ok: false };
  const size = wanted === 0 ? -10 : Math.floor(Math.log10(Math.abs(wanted))) + 1 - places;
  // A hair over half a digit: a value that lies on a half may be printed either way.
  return { what, got, wanted, ok: Math.abs(said - wanted) <= 0.5001 * 10 ** size } as Verdict;
};

/** Every expected value beside the one worked out under the same name. */
export const printedAll = (
  got: Readonly<Record<string, number | boolean | string | undefined>>,
  expect: Readonly<Record<string, Printed>>,
  places?: number,
): Verdict[] =>
  Object.entries(expect).map(([what, wanted]) =>
    what in got ? printed(what, got[what], wanted, places) : { what, got: "no such value", wanted: String(wanted), ok: false },
  );
