import { broughtByManure } from "../../interpretation/manure.ts";
import { shareOf } from "../../interpretation/products.ts";
import { plain } from "../../interpretation/show.ts";
import type { Amount, RateUnit } from "../../interpretation/units.ts";
import { convert } from "../../interpretation/units.ts";
import { supplied } from "../../interpretation/vocabulary.ts";
import type { Application } from "../model.ts";

/**
 * No crop is given so much of a nutrient at once, kg/ha: common practice, and far above it, to tell a slip of the unit only. A new garden
 * bed is dug through with inches of compost.
 */
const [mostNutrient, mostInCompost] = [1000, 5000] as const;
/** No soil is limed with less or more at once, kg/ha, not by pellets in the row nor where sulfides turned it acid: common practice. */
const [leastLime, mostLime] = [50, 50_000] as const;

/** No spreader of liquid manure puts down less, gal/ac: 8 for 8,000 (common practice). */
const leastLiquid = 200;

const counted = ["N", "P2O5", "K2O"] as const;

/** Why the amount spread looks like a slip of the pen, such as tons for pounds; `undefined` where it does not. */
export const spreadSlip = ({ product, rate, volume }: Pick<Application, "product" | "rate" | "volume">): string | undefined => {
  const written = volume ?? rate;
  const amount = `${plain(written.value)} ${written.unit}`;
  if (product.lime) {
    const kilograms = convert(rate.value, rate.unit, "kg/ha");
    if (kilograms > mostLime) return `${amount} is more lime than any soil is given; is it a slip, or another unit?`;
    return kilograms > 0 && kilograms < leastLime
      ? `${amount} is less lime than any soil is given; is it a slip, or another unit?`
      : undefined;
  }
  if (product.manure && volume && volume.value > 0 && convert(volume.value, volume.unit, "gal/ac") < leastLiquid)
    return `${amount} is less of a liquid manure than is ever spread; is it a slip, or another unit?`;
  const most = product.manure && rate.unit === "lb/1000 sq ft" ? mostInCompost : mostNutrient;
  for (const nutrient of counted) {
    const brought = broughtBy(product, { rate, volume }, nutrient);
    if (brought === undefined || convert(brought, "lb/ac", "kg/ha") <= most) continue;
    const unit = rate.unit === "kg/ha" || rate.unit === "t/ha" ? "kg/ha" : "lb/ac";
    return `${amount} of ${product.id} brings ${plain(convert(brought, "lb/ac", unit), 0)} ${unit} of ${supplied[nutrient].label}, more than any crop is given; is it a slip, or another unit?`;
  }
  return undefined;
};

/** Pounds an acre of a nutrient. */
const broughtBy = (
  product: Application["product"],
  spread: Pick<Application, "rate" | "volume">,
  nutrient: (typeof counted)[number],
): number | undefined => {
  if (product.manure) return broughtByManure(spread, product.manure, nutrient).value;
  return product.fertilizer && (shareOf(product.fertilizer.analysis, nutrient) / 100) * pounds(spread.rate);
};

const pounds = ({ value, unit }: Amount<RateUnit>): number => convert(value, unit, "lb/ac");
