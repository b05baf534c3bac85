import { expect, it } from "vitest";
import { bandLimits } from "../../../src/views/advice/bandLimits.ts";

// A class that begins "from" a number holds it, one that begins "above" it does not.
it.each([
  [{ from: 6.1 }, { from: 10.1 }, "mg/l", "6.1 to under 10.1 mg/l"],
  [{ from: 120 }, { above: 170 }, "ppm", "120 to 170 ppm"],
  [{ above: 3 }, { above: 5.5 }, "%", "above 3 to 5.5%"],
  [{ from: 6.2 }, { above: 6.8 }, "pH", "6.2 to 6.8"],
  [{ from: 6 }, undefined, "pH", "6.0 or more"],
  [{ above: 200 }, undefined, "ppm", "above 200 ppm"],
  [{}, { from: 100 }, undefined, "below 100"],
  [{}, { above: 6 }, undefined, "up to 6"],
  [{}, undefined, "ppm", ""],
] as const)("tells of %j before %j in %s what is in it: %s", (start, end, unit, words) => expect(bandLimits(start, end, unit)).toBe(words));
