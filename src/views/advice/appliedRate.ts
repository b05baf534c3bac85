import { plain } from "../../interpretation/show.ts";
import { unitWords } from "../../interpretation/units.ts";
import type { Application } from "../../records/model.ts";

/** "100 lb/ac", or "25 gal/ac" of a liquid that was recorded by volume. */
export const appliedRate = ({ rate, volume }: Application): string => {
  const { value, unit } = volume ?? rate;
  return `${plain(value)} ${unitWords(unit)}`;
};
