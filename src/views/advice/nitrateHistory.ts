import { manureMeasures, organicWords } from "../../interpretation/manure.ts";
import type { Source } from "../../interpretation/outcome.ts";
import type { ManureSpread } from "../../interpretation/rules/manureAvailability.ts";
import type { Known, NitrateHistory } from "../../interpretation/rules/nitrateFacts.ts";
import { plain } from "../../interpretation/show.ts";
import { convert, sameDimension } from "../../interpretation/units.ts";
import type { CropId } from "../../interpretation/vocabulary.ts";
import type { Application, Field, GrownCrop, Sampling, Zone } from "../../records/model.ts";
import { appliedRate, appliedWords, fertilizerPounds } from "./appliedRate.ts";
import { onGroundBefore, onSomeGroundBefore } from "../zonesThen.ts";

/** Sod as a nitrogen rule means it: perennial forage that was turned under. */
const sod: readonly CropId[] = ["alfalfa", "clover", "grassHay", "grassPasture"];

const yearsBefore = (date: string, years: number): string => `${Number(date.slice(0, 4)) - years}${date.slice(4)}`;
const isManure = (a: Application): boolean => a.product.product.kind === "manure";

/** What one zone's season records say up to a day, for the crop of `season`. */
class ZonePast {
  readonly #field: Field;
  readonly #zone: string;
  readonly #until: string;
  readonly season: number;

  constructor(field: Field, zone: string, season: number, until: string) {
    this.#field = field;
    this.#zone = zone;
    this.season = season;
    this.#until = until;
  }

  /** Of a zone that was drawn anew, what its ground bore and was given before counts: else manure of the autumn before would be none. */
  #isHere({ zones }: { readonly zones: readonly string[] }): boolean {
    return onGroundBefore(this.#field, this.#zone, zones);
  }

  /** Where a part of the zone's ground alone was fed, before it was drawn anew, what the zone was given is not known. */
  recorded(...seasons: readonly number[]): boolean {
    return seasons.every((year) => this.#field.seasons.some((s) => s.season === year && !s.applications.some((a) => this.#isApart(a))));
  }

  #isApart(a: Application): boolean {
    return (
      a.product.lime === undefined && a.date <= this.#until && !this.#isHere(a) && onSomeGroundBefore(this.#field, this.#zone, a.zones)
    );
  }

  crops(season: number): GrownCrop[] {
    return this.#field.seasons.filter((s) => s.season === season).flatMap((s) => s.crops.filter((c) => this.#isHere(c)));
  }

  applications(): { season: number; application: Application }[] {
    return this.#field.seasons.flatMap((s) =>
      s.applications.filter((a) => this.#isHere(a) && a.date <= this.#until).map((application) => ({ season: s.season, application })),
    );
  }

  manure(): { season: number; application: Application }[] {
    return this.applications().filter(({ application }) => isManure(application));
  }

  /** The newest harvest before the crop of the season. */
  lastHarvest(): { date: string; crop: GrownCrop } | undefined {
    const all = this.#field.seasons
      .filter((s) => s.season < this.season)
      .flatMap((s) => s.crops.filter((c) => this.#isHere(c)))
      .flatMap((crop) => (crop.harvested === undefined || crop.harvested > this.#until ? [] : [{ date: crop.harvested, crop }]));
    return all.sort((a, b) => (a.date < b.date ? -1 : 1)).at(-1);
  }
}

const known = <T>(value: T, source?: Source, note?: string): Known<T> => ({
  value,
  ...(source && { source }),
  ...(note !== undefined && { note }),
});
const yes = (all: readonly { application: Application }[], otherwise: Source | undefined): Known<string> =>
  all.length > 0 ? known("yes", { record: all.at(-1)!.application.origin }) : known("no", otherwise, "no manure in the seasons recorded");

/** Manure since the last harvest, in the three years before it, and in the five years before this one. */
const manureFacts = (past: ZonePast): NitrateHistory => {
  const { season } = past;
  const manured = past.manure();
  const last = past.lastHarvest();
  const fiveBefore = [1, 2, 3, 4, 5].map((n) => season - n);
  const harvestYear = last && Number(last.date.slice(0, 4));
  const harvest: Source | undefined = last && { record: last.crop.origin };
  const since = last && manured.filter(({ application: a }) => a.date > last.date);
  const before = last && manured.filter(({ application: a }) => a.date <= last.date && a.date > yearsBefore(last.date, 3));
  const recent = manured.filter((m) => fiveBefore.includes(m.season));
  return {
    ...(last && past.recorded(season, season - 1) && { manuredSinceHarvest: yes(since!, harvest) }),
    ...(last && past.recorded(...[0, 1, 2, 3].map((n) => harvestYear! - n)) && { manuredBefore: yes(before!, harvest) }),
    ...(past.recorded(...fiveBefore) && {
      manureYears: known(
        new Set(recent.map((m) => m.season)).size,
        recent.length > 0 ? { record: recent.at(-1)!.application.origin } : undefined,
        `counted in the seasons ${season - 5} to ${season - 1}`,
      ),
    }),
  };
};

/** The crop before, its stand and yield; years since sod; years with fertilizer only. */
const cropFacts = (past: ZonePast): NitrateHistory => {
  const { season } = past;
  const previous = past.crops(season - 1).at(-1);
  const source: Source | undefined = previous && { record: previous.origin };
  const stand = previous?.stand;
  const yielded = previous?.yield;
  let sodYears: Known<number> | undefined;
  let fertilizerOnly: Known<number> | undefined;
  const manured = new Set(past.manure().map((m) => m.season));
  for (let year = season - 1; ; year -= 1) {
    const n = season - year;
    const ended = !past.recorded(year) || past.crops(year).length === 0;
    const wasSod = past.crops(year).find((c) => sod.includes(c.crop));
    if (wasSod) sodYears ??= known(n, { record: wasSod.origin });
    else if (ended && n > 1) sodYears ??= known(n, undefined, `no sod in the seasons ${year + 1} to ${season - 1}`);
    if (manured.has(year) || wasSod) fertilizerOnly ??= known(n - 1);
    else if (ended && n > 3) fertilizerOnly ??= known(n - 1, undefined, `no manure and no sod in the seasons ${year + 1} to ${season - 1}`);
    if (ended) break;
  }
  return {
    ...(previous && { previousCrop: known<string>(previous.crop, source) }),
    ...(yielded && sameDimension(yielded.unit, "bu/ac") && { previousYield: known(yielded.value, source) }),
    ...(stand?.plantsPerSquareFoot !== undefined && { standDensity: known(stand.plantsPerSquareFoot, source) }),
    ...(stand?.percent !== undefined && { standPercent: known(stand.percent, source) }),
    ...(stand?.regrowth && { regrowth: known(convert(stand.regrowth.value, stand.regrowth.unit, "in"), source) }),
    ...(sodYears && { sinceSod: sodYears }),
    ...(fertilizerOnly && { fertilizerOnlyYears: fertilizerOnly }),
  };
};

/** Fertilizer nitrogen of this season's record, and of the one before after its harvest, up to the test, lb/ac; a banded starter counts too, since records do not tell it apart. */
const earlyNitrogen = (past: ZonePast): NitrateHistory => {
  if (!past.recorded(past.season)) return {};
  const harvest = past.lastHarvest()?.date;
  const forThisCrop = (season: number, date: string): boolean => season === past.season || (harvest !== undefined && date > harvest);
  const early = past
    .applications()
    .flatMap(({ season, application: a }) => (forThisCrop(season, a.date) && a.product.fertilizer ? [a] : []));
  const value = early.reduce((sum, a) => sum + fertilizerPounds(a, "N"), 0);
  return {
    earlyNitrogen: known(
      value,
      early.length > 0 ? { record: early.at(-1)!.origin } : undefined,
      early.length > 0 ? "a banded starter, if there was one, is counted too" : "none in the season recorded",
    ),
  };
};

/** What the season records after a day and up to another, which a test of the first day did not see. */
const spreadAfter = (field: Field, zone: Zone, season: number, after: string, until: string): Application[] =>
  field.seasons
    .filter((s) => s.season === season)
    .flatMap((s) => s.applications.filter((a) => onGroundBefore(field, zone.id, a.zones) && a.date > after && a.date <= until));

/** Of that the fertilizer nitrogen, lb/ac. */
export const nitrogenSince = (...test: Parameters<typeof spreadAfter>): number =>
  spreadAfter(...test).reduce((sum, a) => sum + fertilizerPounds(a, "N"), 0);

/** Of that the manure: "20 m³/ha of cattle slurry on 22 February 2026". */
export const manureSince = (...test: Parameters<typeof spreadAfter>): string[] =>
  spreadAfter(...test)
    .filter(isManure)
    .map(appliedWords);

/** How the bags were taken and kept, as the sampling event records it. */
const samplingFacts = (sampling: Sampling, zone: string): NitrateHistory => {
  const bags = sampling.composites.filter((c) => c.zone === zone);
  const [bag] = bags;
  const cores = bags.flatMap((c) => c.cores ?? []);
  const { nitrate } = sampling;
  const source: Source | undefined = nitrate && { record: nitrate.origin };
  const { keeping } = sampling.handling;
  return {
    ...(bag && cores.length === bags.length && { cores: known(Math.min(...cores), { record: bag.origin }) }),
    ...(keeping && { keeping: known<string>(keeping, bag && { record: bag.origin }) }),
    ...(nitrate?.cropHeight && { cropHeight: known(convert(nitrate.cropHeight.value, nitrate.cropHeight.unit, "in"), source) }),
    ...(nitrate?.hoursToLab !== undefined && { hoursToLab: known(nitrate.hoursToLab, source) }),
    ...(nitrate?.daysSinceRain !== undefined && { daysSinceRain: known(nitrate.daysSinceRain, source) }),
    ...(nitrate?.rainOfNormal !== undefined && { rainOfNormal: known(nitrate.rainOfNormal, source) }),
    ...(nitrate?.cropNitrogen && {
      cropNitrogen: known(convert(nitrate.cropNitrogen.value, nitrate.cropNitrogen.unit, "kg/ha"), source),
    }),
    ...(nitrate?.shoots !== undefined && { shoots: known(nitrate.shoots, source) }),
    ...(nitrate?.greenAreaIndex !== undefined && { greenAreaIndex: known(nitrate.greenAreaIndex, source) }),
    ...(nitrate?.plannedNitrogen && {
      plannedNitrogen: known(convert(nitrate.plannedNitrogen.value, nitrate.plannedNitrogen.unit, "lb/ac"), source),
    }),
  };
};

/** All that nitrogen rules may ask of a zone's sampling and past, for the crop of a season. What is not recorded is absent. */
export const nitrateHistory = (
  field: Field,
  zone: Zone,
  season: number,
  until: string,
  sampling: Sampling | undefined,
  organicMatter: Known<number> | undefined,
): NitrateHistory => {
  const past = new ZonePast(field, zone.id, season, until);
  return {
    ...(sampling && samplingFacts(sampling, zone.id)),
    ...manureFacts(past),
    ...cropFacts(past),
    ...earlyNitrogen(past),
    ...(zone.soil.texture && { texture: known<string>(zone.soil.texture) }),
    ...(organicMatter && { organicMatter }),
  };
};

/** Manure spread for the crop of a season and for one or two before; `undefined` where those seasons are not recorded. */
export const manureSpread = (field: Field, zone: Zone, season: number, until: string, before: 1 | 2 = 2): ManureSpread[] | undefined => {
  const past = new ZonePast(field, zone.id, season, until);
  return past.recorded(season - 1, season - before) ? spreadWithin(past, before) : undefined;
};

/** What the records hold of manure for this crop and the one before, whether or not both seasons are recorded: its germs and phosphorus are there all the same. */
export const manureFound = (field: Field, zone: Zone, season: number, until: string): ManureSpread[] =>
  spreadWithin(new ZonePast(field, zone.id, season, until), 1);

const spreadWithin = (past: ZonePast, before: 1 | 2): ManureSpread[] => {
  const { season } = past;
  return past.manure().flatMap(({ season: year, application: a }): ManureSpread[] => {
    const { product, manure } = a.product;
    if (product.kind !== "manure" || !manure || year > season || year < season - before) return [];
    const { N, ammoniumN } = manure.perTon;
    const organicBy = organicWords(manure);
    return [
      {
        name: product.name,
        yearsAgo: season - year,
        tonsPerAcre: convert(a.rate.value, a.rate.unit, "ton/ac"),
        nitrogen: N,
        organicNitrogen: ammoniumN === undefined ? undefined : Math.max(0, N - ammoniumN),
        ...(organicBy !== undefined && { organicBy }),
        ...(manureMeasures[manure.measure].mass === "kg" && {
          spread: `${appliedRate(a)}${a.volume ? `, by its density ${plain(a.rate.value, 2)} ${a.rate.unit}` : ""}`,
        }),
        species: product.species,
        dryMatter: product.dryMatter,
        source: { record: a.product.origin },
      },
    ];
  });
};
