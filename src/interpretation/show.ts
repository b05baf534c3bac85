const powers = Array.from({ length: 16 }, (_, places) => 10 ** places);

/** How many whole units of the last place a size holds, half rounded away from zero. */
const inLastPlace = (size: number, decimals: number): number => {
  const shifted = size * powers[decimals]!;
  // Far from a half, and on one, the binary shadow cannot tip the digit; only near one is the decimal text asked, which is slow.
  const fromHalf = Math.abs(shifted - Math.floor(shifted) - 0.5);
  if (fromHalf > 1e-6 || fromHalf === 0) return Math.round(shifted);
  const written = Number(`${Number(size.toPrecision(14))}e${decimals}`);
  return Math.round(Number.isNaN(written) ? shifted : written);
};

/**
 * The one place where numbers are rounded: at display. Half rounds away from zero, as a person would, on the
 * decimal number that stands in the record rather than on its binary shadow (1.005 shows as 1.01).
 */
export const round = (value: number, decimals: number): number => {
  if (Number.isInteger(value)) return value === 0 ? 0 : value;
  if (!Number.isFinite(value)) throw new Error(`cannot show ${value}`);
  const whole = inLastPlace(Math.abs(value), decimals) / powers[decimals]!;
  return whole === 0 ? 0 : Math.sign(value) * whole;
};

/** No locale: the same bytes on every machine. Digits are put together from whole numbers, which is quicker than writing a fraction. */
const digits = (value: number, decimals: number, least: number): string => {
  if (!Number.isFinite(value)) throw new Error(`cannot show ${value}`);
  let units = inLastPlace(Math.abs(value), decimals);
  let places = decimals;
  for (; places > least && units % 10 === 0; places--) units /= 10;
  const power = powers[places]!;
  const whole = Math.floor(units / power);
  const sign = value < 0 && units > 0 ? "−" : "";
  const thousands = whole < 1000 ? `${whole}` : `${BigInt(whole)}`.replace(/\B(?=(\d{3})+$)/g, ",");
  return places === 0 ? sign + thousands : `${sign}${thousands}.${`${units % power}`.padStart(places, "0")}`;
};

/** A number with fixed decimals and commas in its thousands. */
export const show = (value: number, decimals: number): string => digits(value, decimals, decimals);

/** A number inside a worked step: at most `decimals` places, trailing zeros dropped. */
export const plain = (value: number, decimals = 3): string => digits(value, decimals, 0);

/** "1 day", "1.5 days", "15 cores". */
export const counted = (value: number, singular: string): string => {
  const shown = plain(value);
  return `${shown} ${singular}${shown === "1" ? "" : "s"}`;
};

/** "−17.2, so ", before a result that is never below zero, where its sum is; nothing where the sum would be shown as 0 too. */
export const belowZero = (sum: number, decimals = 3): string =>
  plain(sum, decimals).startsWith("−") ? `${plain(sum, decimals)}, so ` : "";

/** A pH, with at least one decimal: "6.0", "6.25". */
export const pH = (value: number): string => digits(value, 3, 1);
