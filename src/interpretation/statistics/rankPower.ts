/** The fewest samplings that can show a trend at 5 % on both sides: four in one order happen by chance 1 time in 12 either way. */
export const fewestForTrend = 5;

/**
 * The smallest steady change from one sampling to the next, in standard deviations of one result, that Mann-Kendall at 5 % on
 * both sides finds four times out of five: from 5 samplings on. Derived, not published: found by halving on 200,000
 * simulated series each (60,000 above 12), normal noise, numpy 2.x, seed 20251018; right to about one in the second digit
 * after the point. The rank test needs more than the t test that minimumDetectableSlope speaks of, most of all with few
 * samplings: with five only a row without one reversal counts.
 */
const stepsShown: readonly number[] = [
  2.2989, 1.4306, 0.856, 0.6469, 0.4741, 0.3884, 0.3378, 0.2851, 0.2514, 0.2173, 0.1939, 0.1789, 0.1617, 0.1434, 0.1353, 0.1221, 0.1119,
  0.1046, 0.0987, 0.0925, 0.0859, 0.0804, 0.0764, 0.0723, 0.0672, 0.0639,
];

/** Nobody plans further ahead than this many samplings. */
export const mostPlanned = fewestForTrend + stepsShown.length - 1;

/** `samplings` from `fewestForTrend` to `mostPlanned`. */
export const rankDetectableSlope = (samplings: number): number => {
  const step = stepsShown[samplings - fewestForTrend];
  if (step === undefined) throw new Error(`${samplings} samplings are outside ${fewestForTrend} to ${mostPlanned}`);
  return step;
};
