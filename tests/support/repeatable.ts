import * as fc from "fast-check";

/** Check that a law holds for whatever the arbitraries bring: the same examples on every run and every machine. */
export const always = <T extends [unknown, ...unknown[]]>(arbitraries: { [K in keyof T]: fc.Arbitrary<T[K]> }, law: (...values: T) => void): void =>
  fc.assert(
    fc.property(...arbitraries, (...values) => {
      law(...values);
    }),
    { seed: 20251018, numRuns: 500 },
  );

/** A number of a plain size, never NaN or infinite. */
export const between = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });
