import type { NoAnswer, Step } from "../outcome.ts";
import { noAnswer } from "../outcome.ts";
import type { CropId } from "../vocabulary.ts";
import { crops } from "../vocabulary.ts";
import type { Facts } from "./facts.ts";

/** Crops of acid soil: the least pH of blueberries is 4.5, half a unit below any other crop's (Oregon State University, EM 9057, Table 1). */
const acidCrops: ReadonlySet<CropId> = new Set<CropId>(["blueberry"]);

/** Is it a crop that lime to the pH of others would kill? */
export const growsOnAcidSoil = (crop: CropId | undefined): boolean => crop !== undefined && acidCrops.has(crop);

/** The soil pH that blueberries grow best up to; guidelines that print when to lime them print no greatest pH. */
export const acidCropMost = 5.3;
export const acidCropMostStep: Step = {
  what: "Blueberries grow best up to",
  result: `pH ${acidCropMost}`,
  source: { reference: "extension-blueberry-ph" },
  evidence: "read",
};

/** Why a rule for farmed soil at large says nothing of a crop of acid soil, which it would lime to death: it does not name it. */
export const unnamedAcidCrop = (named: readonly CropId[] | undefined, { crop }: Facts, pack: string): NoAnswer | undefined =>
  crop !== undefined && growsOnAcidSoil(crop) && !named?.includes(crop)
    ? noAnswer(`${crops[crop].label} are grown on acid soil, and ${pack} does not name them`, ["targetPh"])
    : undefined;
