import { shareOf } from "../../interpretation/products.ts";
import { plain } from "../../interpretation/show.ts";
import { convert, unitWords } from "../../interpretation/units.ts";
import type { SuppliedId } from "../../interpretation/vocabulary.ts";
import type { Application } from "../../records/model.ts";
import { longDate } from "../words.ts";

/** "100 lb/ac", or "25 gal/ac" of a liquid that was recorded by volume. */
export const appliedRate = ({ rate, volume }: Application): string => {
  const { value, unit } = volume ?? rate;
  return `${plain(value)} ${unitWords(unit)}`;
};

/** "120 lb/ac of potash on 3 March 2026" */
export const appliedWords = (a: Application): string => `${appliedRate(a)} of ${a.product.product.name} on ${longDate(a.date)}`;

/** What a fertilizer brought of a nutrient, or lime that feeds, lb/ac; nothing of manure. */
export const fertilizerPounds = ({ rate, product: { fertilizer, brings } }: Application, nutrient: SuppliedId): number =>
  (convert(rate.value, rate.unit, "lb/ac") * shareOf(fertilizer?.analysis ?? brings ?? {}, nutrient)) / 100;
