/**
 * The one place where numbers are rounded: at display. Half rounds away from zero, as a person would, on the
 * decimal number that stands in the record rather than on its binary shadow (1.005 shows as 1.01).
 */
export const round = (value: number, decimals: number): number => {
  if (Number.isInteger(value)) return value === 0 ? 0 : value;
  if (!Number.isFinite(value)) throw new Error(`cannot show ${value}`);
  const power = 10 ** decimals;
  const shifted = Math.abs(value) * power;
  // Far from a half, the binary shadow cannot tip the digit; only near one is the decimal text asked, which is slow.
  const whole = Math.abs(shifted - Math.floor(shifted) - 0.5) > 1e-6 ? Math.round(shifted) / power : roundHalf(value, decimals);
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
  const digits = Math.abs(rounded).toFixed(decimals);
  const text = Math.abs(rounded) < 1000 ? digits : digits.replace(/\B(?=(\d{3})+(?!\d))(?<!\.\d*)/g, ",");
  return rounded < 0 ? `−${text}` : text;
};

/** A number inside a worked step: at most `decimals` places, trailing zeros dropped. */
export const plain = (value: number, decimals = 3): string => {
  if (Number.isInteger(value)) return show(value, 0);
  const text = show(value, decimals);
  let end = text.length;
  while (text[end - 1] === "0") end -= 1;
  if (!text.includes(".")) return text;
  return text.slice(0, text[end - 1] === "." ? end - 1 : end);
};

/** A pH, with at least one decimal: "6.0", "6.25". */
export const pH = (value: number): string => {
  const text = plain(value);
  return text.includes(".") ? text : `${text}.0`;
};
