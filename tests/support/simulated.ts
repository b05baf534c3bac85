import { Random } from "./random.ts";

/** Normal noise by Box and Muller, from a seed. */
export const normals = (seed: number): (() => number) => {
  const random = new Random(seed);
  return () => Math.sqrt(-2 * Math.log(1 - random.next())) * Math.cos(2 * Math.PI * random.next());
};

/** Four standard errors of a share found in so many runs: a sound test fails by chance less than once in 15,000. */
export const tolerance = (share: number, runs: number): number => 4 * Math.sqrt((share * (1 - share)) / runs);

/** In what share of so many runs something is found. */
export const shareOf = (runs: number, seed: number, found: (normal: () => number, run: number) => boolean): number => {
  const normal = normals(seed);
  let hits = 0;
  for (let i = 0; i < runs; i++) if (found(normal, i)) hits++;
  return hits / runs;
};
