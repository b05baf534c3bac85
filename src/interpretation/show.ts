/**
 * The one place where numbers are rounded: at display. Half rounds away from zero, as a person would, on the
 * decimal number that stands in the record rather than on its binary shadow (1.005 shows as 1.01).
 */
export const round = (value: number, decimals: number): number => {
  if (Number.isInteger(value)) return value === 0 ? 0 : value;
  if (!Number.isFinite(value)) throw new Error(`cannot show ${value}`);
  const power = 10 ** decimals;
  const shifted = Math.abs(value) * power;
  // Far from a half, and on one, the binary shadow cannot tip the digit; only near one is the decimal text asked, which is slow.
  const fromHalf = Math.abs(shifted - Math.floor(shifted) - 0.5);
  const whole = fromHalf > 1e-6 || fromHalf === 0 ? Math.round(shifted) / power : roundHalf(value, decimals);
  return whole === 0 ? 0 : Math.sign(value) * whole;
};

const roundHalf = (value: number, decimals: number): number => {
  const exact = Number(Math.abs(value).toPrecision(14));
  const shifted = Number(`${exact}e${decimals}`);
  return Number.isFinite(shifted) ? Number(`${Math.round(shifted)}e-${decimals}`) : exact;
};

/** A number with fixed decimals and commas in its thousands. No locale: the same bytes on every machine. */
export const show = (value: number, decimals: number): string => {
  const rounded = round(value, decimals);
  return written(rounded, decimals === 0 ? shortest(rounded) : Math.abs(rounded).toFixed(decimals));
};

/** A rounded number's own digits, without trailing zeros; never in powers of ten, as a computer writes the very small. */
const shortest = (rounded: number): string => {
  const size = Math.abs(rounded);
  return size >= 1e-6 || size === 0 ? String(size) : size.toFixed(20).replace(/\.?0+$/, "");
};

const written = (rounded: number, digits: string): string => {
  const text = Math.abs(rounded) < 1000 ? digits : digits.replace(/\B(?=(\d{3})+(?!\d))(?<!\.\d*)/g, ",");
  return rounded < 0 ? `−${text}` : text;
};

/** A number inside a worked step: at most `decimals` places, trailing zeros dropped. */
export const plain = (value: number, decimals = 3): string => {
  const rounded = round(value, decimals);
  return written(rounded, shortest(rounded));
};

/** A pH, with at least one decimal: "6.0", "6.25". */
export const pH = (value: number): string => {
  const text = plain(value);
  return text.includes(".") ? text : `${text}.0`;
};
