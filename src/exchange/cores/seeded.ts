/**
 * Numbers that look random and are the same for the same seed on every machine: mulberry32, a 32-bit generator in the
 * public domain. Each call of the function that is returned gives the next one, from 0 up to, but not including, 1.
 */
export const seeded = (seed: number): (() => number) => {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
};

/** A 32-bit number from a text, such as the name of a zone, so that each zone has its own sequence (FNV-1a). */
export const seedOf = (text: string): number => {
  let hash = 0x811c9dc5;
  for (const letter of text) hash = Math.imul(hash ^ letter.codePointAt(0)!, 0x01000193);
  return hash >>> 0;
};
