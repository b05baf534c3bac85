import { sameDimension, yieldUnits } from "../../interpretation/units.ts";
import type { YieldUnit } from "../../interpretation/units.ts";
import type { CropId } from "../../interpretation/vocabulary.ts";
import { crops } from "../../interpretation/vocabulary.ts";

/** What is wrong with the unit of a crop's yield: a bushel has no weight in these records, so each crop is counted in the one or in the other. */
export const yieldUnitFault = (crop: CropId, unit: YieldUnit): string | undefined => {
  const { label, yieldUnit } = crops[crop];
  if (sameDimension(unit, yieldUnit)) return undefined;
  const allowed = yieldUnits.filter((u) => sameDimension(u, yieldUnit));
  // Winter wheat by its name is the crop of European guidelines; those of North America read wheat, most of which is sown in autumn.
  const wheat = crop.startsWith("winterWheat") && unit === "bu/ac" ? "; guidelines of North America call it wheat: write crop: wheat" : "";
  return `a yield of ${label} must be in ${allowed.length > 1 ? `${allowed.slice(0, -1).join(", ")} or ` : ""}${allowed.at(-1)!}${wheat}`;
};
