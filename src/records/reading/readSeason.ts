import type { Origin } from "../../interpretation/outcome.ts";
import type { RateUnit, VolumeRateUnit } from "../../interpretation/units.ts";
import { massRate, rateUnits, volumeRateUnits } from "../../interpretation/units.ts";
import { crops } from "../../interpretation/vocabulary.ts";
import type { Application, FarmProduct, GrownCrop, Season } from "../model.ts";
import { allowedWords } from "../nearMiss.ts";
import { fieldName } from "../place.ts";
import type { Problems } from "../problem.ts";
import type { SeasonRecord } from "../schemas/season.ts";
import { season } from "../schemas/season.ts";
import { spreadSlip } from "./spreadSlips.ts";
import { yieldUnitFault } from "./yieldUnit.ts";
import { parseRecord } from "../yaml/yamlFile.ts";
import type { ZoneLives } from "../zones/zoneLives.ts";
import { harvestedBy } from "../../interpretation/zoneLife.ts";

export interface SeasonContext {
  /** The field's zones; `undefined` when field.yaml itself could not be read: no zone is then "unknown". */
  readonly zones: ZoneLives | undefined;
  readonly products: ReadonlyMap<string, FarmProduct>;
  /** False when farm.yaml itself could not be read: its products are then not "unknown". */
  readonly productsKnown: boolean;
}

/** A rate by weight, with the volume it was recorded by; `undefined` where the product's density is not known. */
const spreadRate = (
  { value, unit }: SeasonRecord["applications"][number]["rate"],
  { poundsPerGallon }: FarmProduct,
): Pick<Application, "rate" | "volume"> | undefined => {
  if (!isVolume(unit)) return { rate: { value, unit } };
  const volume = { value, unit };
  return poundsPerGallon === undefined ? undefined : { rate: massRate(volume, poundsPerGallon), volume };
};

/** A density to write, in the system that the rate is in: of slurry that of water, else that of a 28 percent nitrogen solution. */
const densityLike = ({ manure }: FarmProduct, unit: RateUnit | VolumeRateUnit): string => {
  if (unit.endsWith("/ha")) return `{ value: ${manure ? "1" : "1.28"}, unit: kg/l }`;
  return `{ value: ${manure ? "8.3" : "10.67"}, unit: lb/gal }`;
};

const isVolume = (unit: RateUnit | VolumeRateUnit): unit is VolumeRateUnit => (volumeRateUnits as readonly string[]).includes(unit);

/** Read what was grown and applied in one season. */
export const readSeason = (text: string, file: string, name: string, context: SeasonContext, problems: Problems): Season | undefined => {
  const parsed = parseRecord(text, file, season, problems);
  if (!parsed) return undefined;
  const { value, at } = parsed;
  const error = (path: (string | number)[], message: string): void => problems.error(file, at(path), fieldName(path), message);
  if (String(value.season) !== name) error(["season"], `must be the year in the file's name, ${name}`);

  /** Those named, or else every one that was a zone on the day. */
  const zonesOf = (given: readonly string[] | undefined, day: string, path: (string | number)[]): readonly string[] => {
    given?.forEach((zone, i) => {
      const place = [...path, "zones", i];
      const fault = context.zones?.fault(zone, day);
      if (fault !== undefined) error(place, fault);
      else if (given.indexOf(zone) < i) error(place, `zone "${zone}" stands twice; keep one`);
    });
    const all = context.zones?.on(day);
    if (!given && all?.length === 0) error(path, `names no zones, and of ${day} field.yaml has none`);
    return given ?? all ?? [];
  };
  const originOf = (path: (string | number)[]): Origin => ({ file, ...at(path) });

  // Spread in the autumn before, harvested in the winter after: but a slip in the year would make every later page speak from that day.
  const inSeason = (day: string | undefined, path: (string | number)[]): void => {
    if (day !== undefined && Math.abs(Number(day.slice(0, 4)) - Number(name)) > 1) error(path, `is more than a year from season ${name}`);
  };

  const warn = (path: (string | number)[], message: string): void => problems.warn(file, at(path), fieldName(path), message);
  const seen = new Map<string, string>();
  /** Typed or pasted twice, it counts twice. Two cuts, plantings or loads differ by a day, a zone or an amount. */
  const once = (what: readonly unknown[], zones: readonly string[], path: (string | number)[], told: string): void => {
    for (const zone of zones) {
      const key = JSON.stringify([...what, zone]);
      const before = seen.get(key);
      if (before !== undefined)
        return warn(path, `${told} of zone "${zone}" stands already in ${before}, and both count; keep one if it is one`);
      seen.set(key, fieldName(path));
    }
  };

  const grown = value.crops.map((c, i): GrownCrop => {
    const path = ["crops", i];
    const unitFault = c.yield && yieldUnitFault(c.crop, c.yield.unit);
    if (unitFault) error([...path, "yield", "unit"], unitFault);
    if (c.moisture !== undefined && !c.yield) error([...path, "moisture"], "is that of a yield, and no yield is given");
    if (c.planted && c.harvested && c.harvested < c.planted) error([...path, "harvested"], `is before planting, ${c.planted}`);
    inSeason(c.harvested, [...path, "harvested"]);
    if (c.planted && Number(c.planted.slice(0, 4)) > Number(name)) error([...path, "planted"], `is after season ${name}`);
    const zones = zonesOf(c.zones, c.harvested ?? `${value.season}-${harvestedBy}`, path);
    once(
      [c.crop, c.planted, c.harvested ?? c.yield],
      [...new Set(zones)],
      path,
      `${crops[c.crop].label}${c.harvested ? ` harvested on ${c.harvested}` : ""}`,
    );
    return { ...c, zones, origin: originOf(path) };
  });
  const applications = value.applications.flatMap((a, i): Application[] => {
    const path = ["applications", i];
    const zones = zonesOf(a.zones, a.date, path);
    inSeason(a.date, [...path, "date"]);
    const product = context.products.get(a.product);
    if (!product) {
      if (context.productsKnown)
        error(
          [...path, "product"],
          `product "${a.product}" is not in farm.yaml; ${allowedWords(a.product, [...context.products.keys()], (id) => [context.products.get(id)!.product.name])}`,
        );
      return [];
    }
    const rate = spreadRate(a.rate, product);
    if (!rate) {
      const density = product.lime ? "" : `give it density in farm.yaml, such as ${densityLike(product, a.rate.unit)}, or `;
      error(
        [...path, "rate", "unit"],
        `is by volume, and the weight of ${a.product} is not known; ${density}write the rate by weight, in ${rateUnits.join(", ")}`,
      );
    }
    if (!rate) return [];
    once([a.date, a.product, a.rate.value, a.rate.unit], [...new Set(zones)], path, `the same rate of ${a.product} on ${a.date}`);
    const slip = spreadSlip({ product, ...rate });
    if (slip !== undefined) warn([...path, "rate", "value"], slip);
    return [{ ...a, ...rate, product, zones, origin: originOf(path) }];
  });
  return { season: value.season, file, crops: grown, applications, note: value.note };
};
