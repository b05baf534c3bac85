/** Numbers that look random and are the same for the same seed: mulberry32, a 32-bit generator in the public domain. */
export class Random {
  #state: number;

  constructor(seed: number) {
    this.#state = seed >>> 0;
  }

  /** From 0 up to, but not including, 1. */
  next(): number {
    this.#state = (this.#state + 0x6d2b79f5) >>> 0;
    let t = this.#state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  }

  /** A whole number from 0 up to, but not including, `end`. */
  below(end: number): number {
    return Math.floor(this.next() * end);
  }

  between(low: number, high: number): number {
    return low + this.next() * (high - low);
  }

  chance(share: number): boolean {
    return this.next() < share;
  }

  pick<T>(from: readonly T[]): T {
    const chosen = from[this.below(from.length)];
    if (chosen === undefined) throw new Error("nothing to pick from");
    return chosen;
  }
}
