import { show } from "../../interpretation/show.ts";
import type { UnitChoice } from "../../interpretation/unitChoices.ts";
import { money, unitChoices } from "../../interpretation/unitChoices.ts";
import { convert } from "../../interpretation/units.ts";

/** A product that may be a liquid. */
interface Liquid {
  readonly poundsPerGallon?: number | undefined;
}

/** "25.0 gal/ac", "234.1 l/ha" of a liquid, from lb/ac; nothing where its density is not known. */
export const liquidRate = ({ poundsPerGallon }: Liquid, perAcre: number, units: UnitChoice): string | undefined => {
  const { rate, density, volumeRate } = unitChoices[units];
  return poundsPerGallon === undefined
    ? undefined
    : `${show(convert(perAcre, "lb/ac", rate) / convert(poundsPerGallon, "lb/gal", density), units === "garden" ? 2 : 1)} ${volumeRate}`;
};

/** "337 gal": what a mass of a liquid fills; a tenth of a gallon counts in a garden. */
export const liquidVolume = ({ poundsPerGallon }: Liquid, pounds: number, units: UnitChoice): string | undefined =>
  poundsPerGallon === undefined
    ? undefined
    : `${show(convert(pounds / poundsPerGallon, "gal", unitChoices[units].volume), units === "garden" ? 1 : 0)} ${unitChoices[units].volume}`;

/** "$1.61 per gal": a liquid's price as its trade counts it, from one for a short ton. */
export const liquidPrice = ({ poundsPerGallon }: Liquid, perShortTon: number, units: UnitChoice, currency: string): string | undefined =>
  poundsPerGallon === undefined
    ? undefined
    : `${money((perShortTon / 2000) * poundsPerGallon * convert(1, unitChoices[units].volume, "gal"), currency, 2)} per ${unitChoices[units].volume}`;
