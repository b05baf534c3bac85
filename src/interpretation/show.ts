/**
 * The one place where numbers are rounded: at display. Half rounds away from zero, as a person would, on the
 * decimal number that stands in the record rather than on its binary shadow (1.005 shows as 1.01).
 */
export const round = (value: number, decimals: number): number => {
  if (!Number.isFinite(value)) throw new Error(`cannot show ${value}`);
  const exact = Number(Math.abs(value).toPrecision(14));
  const shifted = Number(`${exact}e${decimals}`);
  const whole = Number.isFinite(shifted) ? Number(`${Math.round(shifted)}e-${decimals}`) : exact;
  return whole === 0 ? 0 : Math.sign(value) * whole;
};

/** A number with fixed decimals and commas in its thousands. No locale: the same bytes on every machine. */
export const show = (value: number, decimals: number): string => {
  const rounded = round(value, decimals);
  const [whole = "0", fraction] = Math.abs(rounded).toFixed(decimals).split(".");
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, ",");
  return `${rounded < 0 ? "−" : ""}${grouped}${fraction ? `.${fraction}` : ""}`;
};

/** A number inside a worked step: at most `decimals` places, trailing zeros dropped. */
export const plain = (value: number, decimals = 3): string =>
  show(value, decimals).replace(/(\.\d*?)0+$/, "$1").replace(/\.$/, "");
