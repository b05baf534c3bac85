import { list } from "../list.ts";
import type { Depth, Measurement } from "../measurement.ts";
import { depthIn, depthLabel } from "../measurement.ts";
import type { NoAnswer } from "../outcome.ts";
import { noAnswer } from "../outcome.ts";
import { plain } from "../show.ts";
import type { MethodId } from "../vocabulary.ts";
import { methods } from "../vocabulary.ts";

/** Does a sample reach as deep as a rule reads it? Inches and hand-wide layers do not meet to the centimeter. */
export const spans = (m: Measurement, wanted: Depth): boolean => {
  const { from, to } = depthIn(m.depth, wanted.unit);
  return Math.abs(from - wanted.from) <= 1 && Math.abs(to - wanted.to) <= 3;
};

/**
 * The field's mineral nitrogen: one result for the whole depth, since bags of one event are duplicates and their mean would lose
 * layers. `wanted` is the depth in words, `fits` whether the sample has it.
 */
export const mineralNitrogen = (
  tests: readonly Measurement[],
  read: readonly MethodId[],
  wanted: string,
  fits: (m: Measurement) => boolean,
  pack: string,
): Measurement | NoAnswer => {
  const [m, another] = tests;
  if (!m) return noAnswer("mineral nitrogen was not tested", ["mineralN"]);
  if (another)
    return noAnswer(`mineral nitrogen is given more than once, and ${pack} reads one sum for ${wanted}`, [`mineralN for ${wanted}`]);
  const labels = list(
    read.map((id) => methods[id].label),
    "or",
  );
  if (!read.includes(m.method))
    return noAnswer(`mineral nitrogen was measured by ${methods[m.method].label} and ${pack} reads ${labels}`, [`mineralN by ${labels}`]);
  if (m.qualifier === ">")
    return noAnswer(`the laboratory says only that there is more than ${plain(m.value)} kg/ha`, ["mineralN as a number"]);
  if (!fits(m))
    return noAnswer(`the sample was taken from ${depthLabel(m.depth)}, and ${pack} reads ${wanted}`, [
      `a sample ${wanted} deep, or the sum of its layers`,
    ]);
  return m;
};
