import { show } from "../../interpretation/show.ts";

/** Classes of one width, none of them a judgement: each from one whole step to under the next. */
export interface EvenSteps {
  readonly step: number;
  /** The whole step that the first class begins at. */
  readonly first: number;
}

/** So many can be told apart on a map. */
const mostClasses = 4;

/**
 * The narrowest classes, 1, 2 or 5 times a power of ten wide, that hold all values in at most four: common practice of maps. They are never
 * narrower than a tenth of the largest value, or 0.2 of a pH, so that mere noise is not drawn as a difference. `values` is not empty.
 */
export const evenSteps = (values: readonly number[], isPh: boolean): EvenSteps => {
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const least = isPh ? 0.2 : Math.max(high / 10, 1e-3);
  for (let power = Math.floor(Math.log10(least)); ; power += 1)
    for (const factor of [1, 2, 5]) {
      const step = Number(`${factor}e${power}`);
      if (step < least) continue;
      const first = wholeSteps(low, step);
      if (wholeSteps(high, step) - first < mostClasses) return { step, first };
    }
};

/** How many whole steps a value holds; 0.6 holds three of 0.2, whatever its last binary digit. */
const wholeSteps = (value: number, step: number): number => Math.floor(Number((value / step).toPrecision(12)));

/** The class of a value, counted from 0. "Less than" a limit lies in the class under it. */
export const stepOf = ({ step, first }: EvenSteps, value: number, qualifier: string | undefined): number =>
  Math.max(0, (qualifier === "<" ? Math.ceil(Number((value / step).toPrecision(12))) - 1 : wholeSteps(value, step)) - first);

/** "500 to under 1,000": what a class holds. */
export const stepLabel = ({ step, first }: EvenSteps, index: number): string => {
  const decimals = Math.max(0, -Math.floor(Math.log10(step)));
  const bound = (n: number): string => show((first + n) * step, decimals);
  return `${bound(index)} to under ${bound(index + 1)}`;
};
