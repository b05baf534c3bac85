import type { Farm } from "../../records/model.ts";
import { nitrogenRate, nutrientRate } from "../units.ts";
import { list } from "../words.ts";
import type { ZoneAdvice } from "./sample.ts";
import { limitedNitrogen } from "./zonePurchase.ts";

/** More zones than these are told by the least and the most. */
const mostNamed = 3;

/** What was spread since the test, none of which a limit takes off: "81 kg/ha of fertilizer nitrogen", "20 m³/ha of cattle slurry on 22 February 2026". */
export const spreadSinceTest = (farm: Farm, { nitrogen }: ZoneAdvice): string[] => {
  const { since = 0, manureSince = [] } = nitrogen ?? {};
  const spread = nutrientRate({ value: since, unit: "lb/ac" }, farm.units);
  return [...(since > 0 ? [`${spread.value} ${spread.unit} of fertilizer nitrogen`] : []), ...manureSince];
};

/** "Nitrogen, by German ordinance: at most 176 kg/ha on Kuppe and 160 kg/ha on Senke."; of one amount on the whole field, no zones; none where no law's limit is known. */
export const nitrogenLimits = (farm: Farm, zones: readonly ZoneAdvice[], zonesInField: number): string[] => {
  const limited = zones.flatMap((zone) => {
    const { outcome, pack } = limitedNitrogen(zone) ?? {};
    return outcome?.kind === "answer"
      ? [{ name: zone.zone.name, pack, since: list(spreadSinceTest(farm, zone)), ...nitrogenRate(outcome.value, farm.units) }]
      : [];
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
  const spread = [...Map.groupBy(limited, ({ since }) => since)].filter(([since]) => since !== "");
  const since =
    spread.length > mostNamed
      ? " Some was spread since the test, and is not taken off."
      : spread.length > 0
        ? ` Spread since the test, and not taken off: ${spread.map(([what, on]) => `${what}${on.length === zonesInField ? "" : ` on ${on.length > mostNamed ? `${on.length} zones` : list(on.map((l) => l.name))}`}`).join("; ")}.`
        : "";
  return [`Nitrogen, by ${first.pack?.short ?? "the law"}: at most ${words}.${since}`];
};
