/** A share and what it leaves of one, both given, so that neither loses its digits when it is small. */
export interface Share {
  readonly x: number;
  /** 1 - x. */
  readonly y: number;
}

/**
 * The regularized incomplete beta function I_x(a, b), for a and b above 0, right to twelve digits and more also where it is tiny:
 * the continued fraction DLMF 8.17.22, from the side where it settles quickly (NIST Digital Library of Mathematical Functions).
 */
export const incompleteBeta = ({ x, y }: Share, a: number, b: number): number => {
  if (!(x > 0 && y > 0)) return x > 0 ? 1 : x === 0 ? 0 : NaN;
  return x * (a + b + 2) <= a + 1
    ? betaWeight({ x, y }, a, b) / (a * fraction(x, a, b))
    : 1 - betaWeight({ x, y }, a, b) / (b * fraction(y, b, a));
};

/**
 * x^a y^b / B(a, b). The powers and the gamma functions, each huge for large a and b, are divided by their values at the
 * middle, x = a / (a + b), before they are multiplied; what Stirling's formula leaves out stands by itself.
 */
export const betaWeight = ({ x, y }: Share, a: number, b: number): number => {
  const off = a * y - b * x;
  const powers = a * logOf((x * (a + b)) / a, -off / a) + b * logOf((y * (a + b)) / b, off / b);
  return Math.sqrt(((a / (a + b)) * b) / (2 * Math.PI)) * Math.exp(powers + stirlingRest(a + b) - stirlingRest(a) - stirlingRest(b));
};

/** ln(value), where `more` is value - 1: each has all its digits only at its end. */
const logOf = (value: number, more: number): number => (Math.abs(more) < 0.5 ? Math.log1p(more) : Math.log(value));

/** 1 + d1/(1 + d2/(1 + ...)) with the d of DLMF 8.17.23, by Lentz's method as modified by Thompson and Barnett. */
const fraction = (x: number, a: number, b: number): number => {
  let [value, c, d] = [1, 1, 0];
  for (let m = 0; m < mostLevels; m++) {
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    c = 1 + odd / c;
    d = 1 / (1 + odd * d);
    const first = c * d;
    const even = ((m + 1) * (b - m - 1) * x) / ((a + 2 * m + 1) * (a + 2 * m + 2));
    c = 1 + even / c;
    d = 1 / (1 + even * d);
    const change = first * c * d;
    value *= change;
    if (Math.abs(change - 1) <= Number.EPSILON) break;
  }
  return value;
};
/** Far more than is ever needed: the levels grow with the root of a and b. */
const mostLevels = 10_000;

/** ln Gamma(x) less Stirling's (x - 1/2) ln x - x + ln(2 pi) / 2: the series A&S 6.1.41 from ten on, reached by Gamma(x + 1) = x Gamma(x). */
const stirlingRest = (x: number): number => {
  let [at, below] = [x, 0];
  for (; at < 10; at++) below += (at + 0.5) * Math.log1p(1 / at) - 1;
  const s = 1 / (at * at);
  return below + (1 / 12 - s * (1 / 360 - s * (1 / 1260 - s * (1 / 1680 - s * (1 / 1188 - s * (691 / 360360 - s / 156)))))) / at;
};
