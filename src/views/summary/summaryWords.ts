import type { Position } from "../../interpretation/rules/bands.ts";
import type { AnalyteId } from "../../interpretation/vocabulary.ts";
import { analyteInSentence, nutrients } from "../../interpretation/vocabulary.ts";
import type { Farm, Field, Zone } from "../../records/model.ts";
import { leavesOut, leavesOutProducts, leftOutForReader } from "../leftOut.ts";
import { answered, moneyWords, noArea, nothingTold, pricesUsed, sumOwed } from "./owedRows.ts";
import { zoneOwed } from "./owed.ts";
import { latestAdvice } from "../advice/sample.ts";
import type { Place } from "../places.ts";
import { placesOrCount } from "../places.ts";
import { count, list, listOfPhrases, listOrCount, longDate, capital, stopped } from "../words.ts";
import { ratingOf } from "../advice/zoneRows.ts";

/** When the zones were last sampled, days in order, and who measured. */
export const sampledWords = (dates: readonly string[], labs: readonly string[]): string => {
  const [first, last] = [dates[0], dates.at(-1)];
  if (first === undefined || last === undefined) return "No full sampling with results is in the records.";
  const when = first === last ? `on ${longDate(first)}` : `between ${longDate(first)} and ${longDate(last)}`;
  return stopped(`Sampled ${when}, measured by ${list(labs)}`);
};

/** The tests that say whether land is in good heart, in the order they are told. */
export const toldOf: readonly AnalyteId[] = ["pH", "P", "K"];

/** Where a zone's newest result stands against its range; `undefined` where no guideline says, or only describes. */
export const positionOf = (farm: Farm, field: Field, zone: Zone, analyte: AnalyteId): Position | undefined => {
  const outcome = ratingOf(latestAdvice(farm, field, zone), analyte)?.outcome;
  return outcome?.kind === "answer" ? outcome.value.position : undefined;
};

export const zonesBelow = (farm: Farm, field: Field, analyte: AnalyteId): Zone[] =>
  field.zones.filter((zone) => positionOf(farm, field, zone, analyte) === "below");

/** "To reach the guidelines' targets the soil is owed 8.4 tons of lime and 1,863 lb of potash (K₂O), about $1,084 at the farm's prices." */
export const owedSentence = (farm: Farm, fields: readonly Field[]): string => {
  const sum = sumOwed(farm, fields);
  const owed = (text: string): boolean => !nothingTold.includes(text);
  const amounts = [
    owed(sum.lime) && `${sum.lime} of lime`,
    ...(owed(sum.phosphorus) ? sum.phosphorusWords : []),
    ...(owed(sum.potassium) ? sum.potassiumWords : []),
  ].filter((a): a is string => a !== false);
  const gap = sum.unknown > 0 || sum.unmeasured > 0 ? " Not all of it can be told; the reasons stand below." : "";
  const unmeasured = (["lime", "phosphorus", "potassium"] as const).filter((of) => sum[of] === noArea);
  if (amounts.length === 0 && unmeasured.length > 0)
    return `The soil is owed ${list(unmeasured)} to reach the guidelines' targets; how much in all cannot be told without the area.`;
  if (amounts.length === 0)
    return sum.unknown > 0
      ? "What it would take to reach the guidelines' targets is not fully known; the reasons stand below."
      : "Nothing is owed to reach the guidelines' targets.";
  const cost = moneyWords(farm, sum.money);
  const money =
    leavesOut(farm, "costs") || cost === "no price" || cost === leftOutForReader || nothingTold.includes(cost)
      ? ""
      : `, about ${cost} at the farm's prices`;
  return `To reach the guidelines' targets the soil is owed ${list(amounts)}${money}.${gap}`;
};

/** Why a question of what is owed has no answer, one sentence a reason with its places. */
const owedGaps = (farm: Farm, fields: readonly Field[]): string[] => {
  const gaps: { readonly what: string; readonly because: string; readonly place: Place }[] = [];
  for (const field of fields)
    for (const zone of field.zones) {
      const put = (what: string, because: string): void => void gaps.push({ what, because, place: { field, zone } });
      const owed = zoneOwed(farm, field, zone);
      if (!owed) {
        put("amounts", "no full sampling with results is on record");
        continue;
      }
      if (owed.lime.kind === "noAnswer") put("lime amount", owed.lime.because);
      for (const one of [answered(owed.phosphorus), answered(owed.potassium)])
        if (one?.outcome.kind === "noAnswer") put(`${nutrients[one.nutrient].label.toLowerCase()} amount`, one.outcome.because);
      if (owed.acres === undefined) put("totals", "the area is not known");
    }
  return [...Map.groupBy(gaps, (g) => g.because).values()].flatMap((same) => {
    const whats = [...Map.groupBy(same, (g) => g.what)].map(([what, of]) => ({ what, where: of.map((g) => g.place) }));
    // What lacks for one reason at the same places is told together.
    return [...Map.groupBy(whats, ({ where }) => where.map(({ field, zone }) => `${field.id} ${zone.id}`).join()).values()].map(
      (alike) => `No ${amounts(alike.map((w) => w.what))}, because ${same[0]!.because}${whereOpen(fields, alike[0]!.where)}.`,
    );
  });
};

/** "phosphate or potash amount" */
const amounts = (whats: readonly string[]): string =>
  list(
    whats.map((what, i) => (i < whats.length - 1 ? what.replace(/ amount$/, "") : what)),
    "or",
  );

/** Where it is so; nothing of a sheet whose every zone it is. */
const whereOpen = (fields: readonly Field[], where: readonly Place[]): string => {
  if (where.length === fields.flatMap((f) => f.zones).length) return "";
  return fields.length > 1
    ? `: ${placesOrCount(where)}`
    : `: ${listOrCount(
        where.map(({ zone }) => zone.name),
        "zone",
      )}`;
};

/** With which prices, of which day, and what is not in them. */
const priceNote = (farm: Farm, fields: readonly Field[]): string => {
  if (leavesOut(farm, "costs")) return `Prices and costs: ${leftOutForReader}.`;
  const { money } = sumOwed(farm, fields);
  const fertilizer = leavesOutProducts(farm) ? ` What fertilizer costs is ${leftOutForReader}, and not in the sum.` : "";
  const missing =
    fertilizer !== "" || money.unpriced.length === 0
      ? fertilizer
      : ` No price is recorded for ${list(money.unpriced)}, so its cost is not in the sum.`;
  const used = pricesUsed(farm, fields);
  if (used.length === 0) return missing.trim();
  const day =
    farm.pricesOn === undefined ? "The records do not say of what day these prices are." : `Prices of ${longDate(farm.pricesOn)}.`;
  return `Money is for the material alone, without hauling and spreading: ${list(used)}. ${day}${missing}`;
};

/** Whose yearly amounts cannot be summed, because nobody says for how many years. */
const yearlyNote = (farm: Farm, fields: readonly Field[]): string => {
  const yearly = fields.flatMap((f) =>
    f.zones.flatMap((z) =>
      [zoneOwed(farm, f, z)?.phosphorus, zoneOwed(farm, f, z)?.potassium].flatMap((n) => (n ? (answered(n) ?? []) : [])),
    ),
  );
  const packs = [
    ...new Set(
      yearly.flatMap(({ outcome, pack }) =>
        pack && outcome.kind === "answer" && outcome.value.over === "each year" && outcome.value.amount.value > 0 ? [pack.short] : [],
      ),
    ),
  ];
  return packs.length === 0
    ? ""
    : `${list(packs)} ${packs.length === 1 ? "gives" : "give"} a yearly amount over what the crop takes, and no one number of years for it, so no sum over the years can be told.`;
};

/** What was spread since the newest sampling and is not taken off. */
const spreadSince = (farm: Farm, fields: readonly Field[]): string[] =>
  fields.flatMap((field) =>
    field.zones.flatMap((zone) => {
      const already = zoneOwed(farm, field, zone)?.already ?? [];
      return already.length === 0 ? [] : [`${fields.length > 1 ? `${field.name}, ${zone.name}` : zone.name}: ${list(already)}`];
    }),
  );

/** "Soil pH is below its range on Outwash, and phosphorus and potassium on Knoll and Outwash.", each group where all of it is low. */
export const belowSentence = (
  where: readonly { readonly analytes: readonly AnalyteId[]; readonly on: string }[],
  rated: readonly AnalyteId[],
): string => {
  if (rated.length === 0) return "Where the soil stands against its targets is not known.";
  const parts = where.map(({ analytes, on }, i) => {
    const verb = analytes.length === 1 ? " is below its range" : " are below their ranges";
    return `${list(analytes.map(analyteInSentence))}${i === 0 ? verb : ""} on ${on}`;
  });
  return parts.length > 0
    ? `${capital(listOfPhrases(parts))}.`
    : `${capital(list(rated.map(analyteInSentence)))} ${rated.length === 1 ? "is" : "are"} in range or above it.`;
};

/** What a reader must know to trust the amounts. */
export const owedNotes = (farm: Farm, fields: readonly Field[]): string[] => {
  const since = spreadSince(farm, fields);
  return [
    yearlyNote(farm, fields),
    priceNote(farm, fields),
    owedGaps(farm, fields).join(" "),
    since.length > 0
      ? `Spread since the sampling, and not taken off: ${since.length > 12 ? `on ${count(since.length, "zone")}, as the sheets of their fields say` : since.join("; ")}.`
      : "",
  ].filter((note) => note !== "");
};
