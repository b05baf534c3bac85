import type { CautionId } from "../../interpretation/cautions.ts";
import { daysBetween } from "../../interpretation/days.ts";
import type { Fertilizer } from "../../interpretation/products.ts";
import { shareOf } from "../../interpretation/products.ts";
import type { Farm } from "../../records/model.ts";
import { isAmmonia } from "./bandedAmmonia.ts";

/** Days after its test by which nitrogen beside the standing crop has been spread or is too late: common practice. */
const sidedressDays = 60;

interface Asked {
  readonly crop?: { readonly season: number } | undefined;
  readonly sampling?: { readonly date: string } | undefined;
}

/** Does nitrogen belong to a crop before the one that is advised for, and is the time to spread it over? */
export const isPastNitrogen = (nitrogen: Asked | undefined, crop: Asked["crop"], day: string): boolean =>
  nitrogen?.crop !== undefined &&
  crop !== undefined &&
  nitrogen.crop.season < crop.season &&
  (!nitrogen.sampling || daysBetween(nitrogen.sampling.date, day) > sidedressDays);

/** Words on handling nitrogen fertilizer: of what nobody spreads any more none are needed. */
const ofHandling: ReadonlySet<CautionId> = new Set<CautionId>(["anhydrousAmmonia", "ammoniumNitrate"]);

/** Is it bought for its nitrogen? A phosphate that brings some, such as 18-46-0, is not what a nitrogen rate is met with. */
const isForNitrogen = ({ analysis }: Fertilizer): boolean => shareOf(analysis, "N") > shareOf(analysis, "P2O5") + shareOf(analysis, "K2O");

/** Does the farm buy nitrogen, and none of it as anhydrous ammonia? Not known where its list holds nothing that is bought for it. */
const buysNoAmmonia = ({ products }: Pick<Farm, "products">): boolean => {
  const nitrogen = [...products.values()].flatMap(({ fertilizer }) => (fertilizer && isForNitrogen(fertilizer) ? fertilizer : []));
  return nitrogen.length > 0 && !nitrogen.some(isAmmonia);
};

/** The cautions that what was said calls for, as far as the farm handles what they warn of. */
export const handledCautions = (farm: Pick<Farm, "products">, cautions: readonly CautionId[], past: boolean): CautionId[] =>
  cautions.filter((id) => !(past && ofHandling.has(id)) && !(id === "anhydrousAmmonia" && buysNoAmmonia(farm)));
