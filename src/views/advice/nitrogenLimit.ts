import type { Farm } from "../../records/model.ts";
import { nitrogenRate } from "../units.ts";
import { list } from "../words.ts";
import type { ZoneAdvice } from "./sample.ts";
import { limitedNitrogen } from "./zonePurchase.ts";

/** More zones than these are told by the least and the most. */
const mostNamed = 3;

/** "Nitrogen, by German ordinance: at most 176 kg/ha on Kuppe and 160 kg/ha on Senke."; of one amount on the whole field, no zones; none where no law's limit is known. */
export const nitrogenLimits = (farm: Farm, zones: readonly ZoneAdvice[], zonesInField: number): string[] => {
  const limited = zones.flatMap((zone) => {
    const { outcome, pack } = limitedNitrogen(zone) ?? {};
    return outcome?.kind === "answer" ? [{ name: zone.zone.name, pack, ...nitrogenRate(outcome.value, farm.units) }] : [];
  });
  const [first] = limited;
  if (!first) return [];
  const values = limited.map((l) => Number(l.value));
  const [least, most] = [Math.min(...values), Math.max(...values)];
  const words =
    limited.length > mostNamed
      ? `${least === most ? most : `${least} to ${most}`} ${first.unit}, zone by zone`
      : least === most && limited.length === zonesInField
        ? `${first.value} ${first.unit}`
        : list(limited.map(({ value, unit, name }) => `${value} ${unit} on ${name}`));
  return [`Nitrogen, by ${first.pack?.short ?? "the law"}: at most ${words}.`];
};
