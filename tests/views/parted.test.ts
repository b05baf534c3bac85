import fc from "fast-check";
import { expect, it } from "vitest";
import { parted } from "../../src/views/parted.ts";

const itself = (n: number): number => n;

it.each([
  [[], []],
  [[4, 6], [[4, 6]]],
  [[4, 7], [[4], [7]]],
  [[12, 1], [[12], [1]]],
])("%j at most ten a part is %j", (items, parts) => expect(parted(items, itself, 10)).toEqual(parts));

it("keeps every item in its place, and no part above the most it may hold unless one item alone is", () =>
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 0, max: 30 })), (items) => {
      const parts = parted(items, itself, 20);
      expect(parts.flat()).toEqual(items);
      for (const part of parts) if (part.length > 1) expect(part.reduce((sum, n) => sum + n, 0)).toBeLessThanOrEqual(20);
    }),
    { seed: 20_251_018 },
  ));
