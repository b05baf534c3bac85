/**
 * P(Z <= z) of the standard normal, right to twelve digits and more in either tail, however small.
 * Near the middle by the series A&S 26.2.11, beyond three by the continued fraction A&S 26.2.14, from its far end inwards
 * (Abramowitz & Stegun, Handbook of Mathematical Functions, 1964).
 */
export const normalCdf = (z: number): number => {
  const x = Math.abs(z);
  const density = Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI);
  if (x >= 3) {
    const beyond = x === Infinity ? 0 : density / fraction(x);
    return z < 0 ? beyond : 1 - beyond;
  }
  const between = density * series(x);
  return z < 0 ? 0.5 - between : 0.5 + between;
};

/** z + z^3/3 + z^5/(3 5) + ...: all terms have one sign, so that nothing cancels. */
const series = (z: number): number => {
  let [term, sum] = [z, z];
  for (let odd = 3; term > sum * 1e-17; odd += 2) sum += term *= (z * z) / odd;
  return sum;
};

/** z + 1/(z + 2/(z + 3/(z + ...))): the farther out, the fewer levels still show. */
const fraction = (z: number): number => {
  let value = z;
  for (let level = Math.ceil(10 + 400 / (z * z)); level > 0; level--) value = z + level / value;
  return value;
};

/**
 * The z that a standard normal stays below with probability `p`; endless at 0 and 1, not a number outside them.
 * Wichura's rational approximations, right to sixteen digits (Algorithm AS 241, PPND16, Applied Statistics 37, 1988, 477-484).
 */
export const normalQuantile = (p: number): number => {
  const q = p - 0.5;
  if (Math.abs(q) <= 0.425) return q * ratio(middle, 0.180625 - q * q);
  const tail = Math.min(p, 1 - p);
  if (!(tail > 0)) return tail === 0 ? Math.sign(q) * Infinity : NaN;
  const r = Math.sqrt(-Math.log(tail));
  return Math.sign(q) * (r <= 5 ? ratio(near, r - 1.6) : ratio(far, r - 5));
};

interface Ratio {
  readonly over: readonly number[];
  readonly under: readonly number[];
}

const polynomial = (coefficients: readonly number[], x: number): number => coefficients.reduceRight((sum, c) => sum * x + c, 0);
const ratio = ({ over, under }: Ratio, x: number): number => polynomial(over, x) / polynomial(under, x);

const middle: Ratio = {
  over: [
    3.387132872796366608, 133.14166789178437745, 1971.5909503065514427, 13731.693765509461125, 45921.953931549871457, 67265.770927008700853,
    33430.575583588128105, 2509.0809287301226727,
  ],
  under: [
    1, 42.313330701600911252, 687.1870074920579083, 5394.1960214247511077, 21213.794301586595867, 39307.89580009271061,
    28729.085735721942674, 5226.495278852854561,
  ],
};
const near: Ratio = {
  over: [
    1.42343711074968357734, 4.6303378461565452959, 5.7694972214606914055, 3.64784832476320460504, 1.27045825245236838258,
    0.24178072517745061177, 0.0227238449892691845833, 7.7454501427834140764e-4,
  ],
  under: [
    1, 2.05319162663775882187, 1.6763848301838038494, 0.68976733498510000455, 0.14810397642748007459, 0.0151986665636164571966,
    5.475938084995344946e-4, 1.05075007164441684324e-9,
  ],
};
const far: Ratio = {
  over: [
    6.6579046435011037772, 5.4637849111641143699, 1.7848265399172913358, 0.29656057182850489123, 0.026532189526576123093,
    0.0012426609473880784386, 2.71155556874348757815e-5, 2.01033439929228813265e-7,
  ],
  under: [
    1, 0.59983220655588793769, 0.13692988092273580531, 0.0148753612908506148525, 7.868691311456132591e-4, 1.8463183175100546818e-5,
    1.4215117583164458887e-7, 2.04426310338993978564e-15,
  ],
};
