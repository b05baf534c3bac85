/** How many orders of the values give each S. */
type Counts = ReadonlyMap<number, number>;

const choose = (n: number, k: number): number => {
  let ways = 1;
  for (let i = 1; i <= k; i++) ways = (ways * (n - k + i)) / i;
  return ways;
};

/** Every way to take `size` from what is left of each value. */
const picks = (left: readonly number[], size: number): number[][] => {
  const [first, ...rest] = left;
  if (first === undefined) return size === 0 ? [[]] : [];
  return Array.from({ length: Math.min(first, size) + 1 }, (_, take) => picks(rest, size - take).map((others) => [take, ...others])).flat();
};

/** What a pick adds to S against all that is left for later times: higher values add, lower ones take away, equal ones do nothing. */
const gain = (pick: readonly number[], left: readonly number[]): number => {
  let [below, above, sum] = [0, left.reduce((a, b) => a + b, 0), 0];
  pick.forEach((taken, i) => {
    above -= left[i]!;
    sum += taken * (above - below);
    below += left[i]!;
  });
  return sum;
};

const count = (times: readonly number[], values: readonly number[]): Counts => {
  const known = new Map<string, Counts>();
  const from = (time: number, left: readonly number[]): Counts => {
    if (time === times.length) return new Map([[0, 1]]);
    const key = left.join(" ");
    const seen = known.get(key);
    if (seen) return seen;
    const counts = new Map<number, number>();
    for (const pick of picks(left, times[time]!)) {
      const rest = left.map((n, i) => n - pick[i]!);
      const ways = pick.reduce((product, k, i) => product * choose(left[i]!, k), 1);
      const add = gain(pick, rest);
      for (const [s, n] of from(time + 1, rest)) counts.set(s + add, (counts.get(s + add) ?? 0) + n * ways);
    }
    known.set(key, counts);
    return counts;
  };
  return from(0, values);
};

/**
 * The same where no times are equal. Group by group the values join the order; the ways to place `size` equal ones among `placed`
 * others, by the pairs they turn round, are a Gaussian binomial coefficient, a product of (1 - q^(placed + i)) / (1 - q^i).
 */
const countSingles = (values: readonly number[]): Counts => {
  let ways = [1];
  let [placed, pairs] = [0, 0];
  for (const size of values) {
    pairs += placed * size;
    for (let i = 1; i <= size; i++) {
      const next = Array.from({ length: ways.length + placed }, (_, turned) => (ways[turned] ?? 0) - (ways[turned - placed - i] ?? 0));
      for (let turned = i; turned < next.length; turned++) next[turned]! += next[turned - i]!;
      ways = next;
    }
    placed += size;
  }
  return new Map(ways.map((n, turned) => [pairs - 2 * turned, n]));
};

const distributions = new Map<string, Counts>();

/**
 * P(|S| >= |s|) of Kendall's S when every order of the values over the times is as likely as every other.
 * `times` and `values` are the sizes of the groups of equal times and equal values; singles are groups of one. Exact: the
 * orders are counted, group of times by group of times. Meant for ten results or fewer (3,628,800 orders).
 */
export const exactTwoSided = (times: readonly number[], values: readonly number[], s: number): number => {
  const singles = times.every((size) => size === 1);
  // With no equal times it does not matter in which order the groups come.
  const groups = singles ? values.toSorted((a, b) => a - b) : values;
  const key = `${times.join(" ")}/${groups.join(" ")}`;
  let counts = distributions.get(key);
  if (!counts) distributions.set(key, (counts = singles ? countSingles(groups) : count(times, groups)));
  let [all, far] = [0, 0];
  for (const [each, n] of counts) {
    all += n;
    if (Math.abs(each) >= Math.abs(s)) far += n;
  }
  return far / all;
};
