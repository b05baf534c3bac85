export interface Axis {
  readonly from: number;
  readonly to: number;
  readonly ticks: readonly number[];
}

/** Round steps so that about `wanted` of them span the range. */
export const niceStep = (span: number, wanted: number): number => {
  const rough = span / wanted;
  const power = 10 ** Math.floor(Math.log10(rough));
  return ([1, 2, 5].find((f) => f * power >= rough) ?? 10) * power;
};

/** An axis from a multiple of `step` to another, around a range. */
export const axis = (from: number, to: number, step: number): Axis => {
  const first = Math.floor(from / step + 1e-9);
  const last = Math.ceil(to / step - 1e-9);
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  const at = (i: number): number => Number((i * step).toFixed(decimals));
  return { from: at(first), to: at(last), ticks: Array.from({ length: last - first + 1 }, (_, i) => at(first + i)) };
};

/** Whole years around the given ones, with about six of them named. */
export const yearAxis = (first: number, last: number): Axis => {
  const from = Math.floor(first);
  const to = Math.max(from + 1, Math.ceil(last));
  const every = Math.ceil((to - from) / 5);
  return { from, to, ticks: Array.from({ length: Math.floor((to - from) / every) + 1 }, (_, i) => from + i * every) };
};
