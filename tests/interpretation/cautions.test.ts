import { describe, expect, it } from "vitest";
import { advise } from "../../src/interpretation/advise.ts";
import type { CautionId } from "../../src/interpretation/cautions.ts";
import { cautionIds, cautions, samplingCautions } from "../../src/interpretation/cautions.ts";
import { historyOf } from "../../src/interpretation/checks/nitrogenInput.ts";
import type { Sample } from "../../src/interpretation/sample.ts";
import { fullSample as full } from "../support/fullSample.ts";
import { limestone } from "../support/limePlace.ts";
import { measured } from "../support/measured.ts";
import { oregon, pack, triState } from "../support/packs.ts";
import type { MethodId } from "../../src/interpretation/vocabulary.ts";
import type { NitrogenQuestion } from "../../src/interpretation/nitrogen/nitrogenCredits.ts";

const iowa = pack("us-iowa-nitrate");
const nitrate = (ppm: number) => measured("nitrateN", ppm, { method: "potassiumChloride", purpose: "nitrate", depth: { from: 0, to: 12, unit: "in" } });
const good = { cropHeight: 9, cores: 16, keeping: "chilled", daysSinceRain: 5, earlyNitrogen: 0, sinceSod: 6, fertilizerOnlyYears: 0, rainOfNormal: 100, manuredSinceHarvest: "no", previousCrop: "wheat", texture: "siltLoam" };
const question = (over: Partial<NitrogenQuestion> = {}): NitrogenQuestion => ({ measurements: [nitrate(16)], facts: { crop: "corn" }, history: historyOf(good), yieldGoal: { value: 180, unit: "bu/ac" }, manure: [], ...over });
const beef = { name: "beef manure", yearsAgo: 0, tonsPerAcre: 10, organicNitrogen: 8, species: "cattle", dryMatter: 22 } as const;
const withN = (over: Partial<NitrogenQuestion> = {}, nitrogenBy = iowa): Partial<Sample> => ({ packs: [triState, oregon, nitrogenBy], nitrogen: question(over) });

const old = (of: typeof triState): typeof triState => ({ ...of, status: "superseded" });

const dakota = pack("us-southdakota-s-cl");
/** Chloride classed by an edition in force that holds no rate, and its rate by another one. */
const chlorideBy = (status: typeof dakota.status): Partial<Sample> => ({
  packs: [{ ...dakota, sections: dakota.sections.filter((s) => s.kind !== "linearYield") }, { ...dakota, status }],
  facts: { ...full.facts, crop: "wheat" },
  measurements: [measured("Cl", 20, { method: "calciumNitrate", unit: "lb/ac", depth: { from: 0, to: 24, unit: "in" } })],
});

const nothingDue: Partial<Sample> = { measurements: [measured("pH", 6.8), measured("P", 60), measured("K", 220)] };
const tetany = (K: number, Mg: number, crop: "alfalfa" | "corn" = "alfalfa"): Partial<Sample> => ({ facts: { ...full.facts, crop }, yieldGoal: undefined, measurements: [measured("K", K), measured("Mg", Mg)] });
const drilled = (texture: "sandyLoam" | "siltLoam", K = 90): Partial<Sample> => ({ packs: [pack("uk-rb209-2023")], facts: { crop: "springBarley", texture, straw: "removed" }, yieldGoal: { value: 6, unit: "t/ha" }, measurements: [measured("K", K, { method: "ammoniumNitrate", unit: "mg/l", depth: { from: 0, to: 15, unit: "cm" } })], own: undefined });
const british = (smn = 45, crop: "winterWheat" | "springBarley" = "winterWheat", organicMatter = 3): Partial<Sample> => ({
  packs: [pack("uk-rb209-2023")],
  nitrogen: {
    measurements: [measured("mineralN", smn, { method: "potassiumChloride", unit: "kg/ha", depth: { from: 0, to: 90, unit: "cm" }, date: "2026-02-10" })],
    facts: { crop, soilCategory: "medium" },
    history: { organicMatter: { value: organicMatter }, previousCrop: { value: "oats" }, cropNitrogen: { value: 20 } },
    yieldGoal: { value: 8, unit: "t/ha" },
    manure: [],
  },
});
const acidWith = (analyte: "Mg", value: number): Partial<Sample> => ({ measurements: [measured("pH", 5.8), measured("bufferPh", 6.37, { method: "sikora" }), measured(analyte, value)] });
const acid = (soilPh: number, over: Partial<Sample["facts"]> = {}): Partial<Sample> => ({ packs: [pack("us-kansas-mf2586-2003")], facts: { ...full.facts, crop: "wheat", soilPh, ...over }, own: undefined, measurements: [measured("pH", soilPh), measured("bufferPh", 6.4, { method: "sikora" })] });
const salty = (method: "saturatedPaste" | "water1to1" | "water1to2", value: number): Partial<Sample> => ({ measurements: [measured("salts", value, { method, unit: "dS/m" })] });
const onSoilOf = (cec: number): Partial<Sample> => ({ facts: { ...full.facts, cec }, measurements: [measured("K", 90)] });
/** Tri-State (2020) on soil of a CEC of 11.3: yield goal and potassium test, in the crop's own unit and ppm. */
const potashFor = (crop: "soybean" | "corn" | "wheat" | "alfalfa", goal: number, K: number): Partial<Sample> => ({ facts: { ...full.facts, crop }, yieldGoal: { value: goal, unit: crop === "alfalfa" ? "ton/ac" : "bu/ac" }, measurements: [measured("K", K)] });
const burnt = (cce: number): Partial<Sample> => ({ materials: [{ ...limestone, name: "a strong lime", stated: { cce: { value: cce, source: "common-practice" } } }] });
const labeled = (stated: "calciumOxide" | "neutralizingValue", value: number): Partial<Sample> => ({ materials: [{ ...limestone, stated: { [stated]: { value, source: "common-practice" } } }] });
const limit = { ...triState, environmentalLimits: [{ analyte: "P" as const, method: "mehlich3" as const, unit: "ppm" as const, above: 150, source: "common-practice" as const }] };
const byPlasma = { ...limit, environmentalLimits: limit.environmentalLimits.map((l) => ({ ...l, finish: "icp" as const })) };
const finished = (finish: "icp" | "colorimetric"): Partial<Sample> => ({ packs: [byPlasma], measurements: [measured("P", 151, { finish })] });
const phosphorus = (value: number, method: "mehlich3" | "bray1" = "mehlich3", unit: "ppm" | "lb/ac" = "ppm"): Partial<Sample> => ({ packs: [limit], measurements: [measured("P", value, { method, unit })] });

const ontario = (value: number): Partial<Sample> => ({ packs: [pack("ca-ontario-pub811")], facts: { crop: "dryBeans" }, measurements: [measured("P", value, { method: "olsen" })] });
const german = (method: MethodId, value: number): Partial<Sample> => ({ packs: [pack("de-ordinance-2017")], measurements: [measured("P", value, { method })] });
const bray = (soilPh: number, method: "mehlich3" | "bray1" = "bray1"): Partial<Sample> => ({ facts: { ...full.facts, soilPh }, measurements: [measured("P", 9, { method })] });

const pennPotatoes = (pH: number): Partial<Sample> => ({ packs: [pack("us-pennsylvania-agronomy-guide")], facts: { ...full.facts, crop: "potatoes", soilPh: pH }, own: undefined, measurements: [measured("pH", pH)] });
const berries = (soilPh: number): Partial<Sample> => ({ facts: { ...full.facts, crop: "blueberry", soilPh } });
const grazed = (K: number, crop: "grassPasture" | "grassSilageTwoCuts" = "grassPasture"): Partial<Sample> => ({ packs: [pack("uk-rb209-2023")], facts: { crop, texture: "clayLoam" }, yieldGoal: undefined, measurements: [measured("K", K, { method: "ammoniumNitrate", unit: "mg/l", depth: { from: 0, to: 7.5, unit: "cm" } })], own: undefined });
const litterOn = (crop: "grassPasture" | "grassHay" | "corn", yearsAgo = 0): Partial<Sample> => ({ ...withN({ manure: [{ ...beef, name: "litter", species: "poultry", yearsAgo }] }), facts: { ...full.facts, crop } });
const irish = (pH: number, crop: "grassPasture" | "springBarley" = "grassPasture"): Partial<Sample> => ({ packs: [pack("ie-teagasc")], facts: { crop, texture: "clayLoam", soilPh: pH }, own: undefined, measurements: [measured("pH", pH, { method: "water1to2" })] });
const manuredFor = (crop: "lettuce" | "corn"): Partial<Sample> => ({ ...withN({ manure: [beef] }), facts: { ...full.facts, crop } });

/** For every caution a sample that calls for it, and one as near as can be that does not. */
const triggers: readonly (readonly [CautionId, string, Partial<Sample>, string, Partial<Sample> | undefined])[] = [
  ["localCodes", "any sample", {}, "(always)", undefined],
  ["limeDust", "lime is due", {}, "no lime is due", nothingDue],
  ["limeDust", "lime is due and no material is listed", { materials: [] }, "the soil needs lime and no table knows how much", { packs: [triState] }],
  ["organicSoil", "lime is due on muck", { facts: { ...full.facts, texture: "muck", organicMatter: 40 } }, "lime is due on silt loam", { facts: { ...full.facts, texture: "siltLoam", organicMatter: 4 } }],
  ["organicSoil", "lime is due on soil of 21 % organic matter", { facts: { ...full.facts, texture: undefined, organicMatter: 21 } }, "of 20 %", { facts: { ...full.facts, texture: undefined, organicMatter: 20 } }],
  // K-State, Saline and sodic soils: injury to most crops from 4 mS/cm of a saturated paste; by the lowest factor of PLOS ONE 2018, Table 2, 1.85, that is 2.2 in 1:1 water.
  ["saltsAndSodium", "4 dS/m of a saturated paste", salty("saturatedPaste", 4), "3.9 dS/m", salty("saturatedPaste", 3.9)],
  ["saltsAndSodium", "2.2 dS/m in 1:1 water", salty("water1to1", 2.2), "2.1 dS/m", salty("water1to1", 2.1)],
  ["saltsAndSodium", "2.2 dS/m in 1:2 water", salty("water1to2", 2.2), "2.1 dS/m", salty("water1to2", 2.1)],
  ["saltsAndSodium", "pH 8.6", { facts: { ...full.facts, soilPh: 8.6 } }, "pH 8.5", { facts: { ...full.facts, soilPh: 8.5 } }],
  ["commonScab", "potatoes, and lime is due", { facts: { ...full.facts, crop: "potatoes" }, packs: [pack("uk-rb209-2010")], measurements: [measured("pH", 5.8, { method: "water1to2half" })], own: undefined }, "corn, and lime is due", {}],
  ["commonScab", "potatoes, and lime is due", { facts: { ...full.facts, crop: "potatoes" }, packs: [pack("uk-rb209-2010")], measurements: [measured("pH", 5.8, { method: "water1to2half" })], own: undefined }, "no lime is due", { facts: { ...full.facts, crop: "potatoes" }, packs: [pack("uk-rb209-2010")], measurements: [measured("pH", 6.8, { method: "water1to2half" })], own: undefined }],
  // Penn State limes below 6.5; its rate needs an exchangeable acidity, and a grower of potatoes is told that lime is due without one.
  ["commonScab", "lime is due by the soil pH, and no rate can be told", pennPotatoes(6.2), "at its target", pennPotatoes(6.5)],
  ["limeOnAcidSoilCrop", "blueberries on a field of a target of its own", { facts: { ...full.facts, crop: "blueberry" } }, "corn on it", {}],
  ["limeOnAcidSoilCrop", "the same", { facts: { ...full.facts, crop: "blueberry" } }, "blueberries, and no lime is due", { facts: { ...full.facts, crop: "blueberry" }, ...nothingDue }],
  // eXtension, Soil pH for Blueberry Plantings: 4.0 to 5.3 for best growth.
  ["acidSoilCropAbove", "blueberries at pH 5.4", berries(5.4), "at pH 5.3", berries(5.3)],
  ["acidSoilCropAbove", "the same", berries(5.4), "raspberries", { facts: { ...full.facts, crop: "raspberry", soilPh: 5.4 } }],
  ["limeAndAmmonia", "lime is due", {}, "no lime is due", nothingDue],
  ["quickLime", "hydrated lime of 135 % CCE is listed", burnt(135), "dolomite of 108 % CCE is listed", burnt(108)],
  // By molar weights pure dolomite is worth 109 % of calcium carbonate, and calcium carbonate holds 56 % CaO; a neutralizing value counts magnesia as CaO.
  ["quickLime", "a material of 110 % CCE", burnt(110), "of 109 %", burnt(109)],
  ["quickLime", "a material analyzed at 110 % CCE", { materials: [{ ...limestone, analysis: { cce: 110 } as never }] }, "at 109 %", { materials: [{ ...limestone, analysis: { cce: 109 } as never }] }],
  ["quickLime", "57 % CaO", labeled("calciumOxide", 57), "56 % CaO", labeled("calciumOxide", 56)],
  ["quickLime", "a neutralizing value of 62", labeled("neutralizingValue", 62), "of 61, as of dolomite", labeled("neutralizingValue", 61)],
  ["quickLime", "burnt lime of 90 % CaO is listed", { materials: [{ ...limestone, stated: { calciumOxide: { value: 90, source: "common-practice" } } }] }, "it is listed and no lime is due", { ...burnt(135), ...nothingDue }],
  ["phosphorusNearWater", "phosphate is advised", {}, "none is", nothingDue],
  ["phosphorusOverLimit", "151 ppm where the limit is 150", phosphorus(151), "150 ppm", phosphorus(150)],
  ["phosphorusOverLimit", "151 in the limit's own unit", phosphorus(151), "151 lb/ac, which are about 75 ppm", phosphorus(151, "mehlich3", "lb/ac")],
  ["phosphorusOverLimit", "151 ppm by the limit's own extractant", phosphorus(151), "151 ppm by another", phosphorus(151, "bray1")],
  ["phosphorusOverLimit", "61 ppm by Olsen for dry beans in Ontario, whose table warns of it", ontario(61), "60 ppm", ontario(60)],
  // § 3 (6) of the German ordinance: 20 mg of P2O5 in 100 g by CAL, 25 by DL, 3.6 mg of P by EUF; P is 0.4364 of its oxide.
  ["phosphorusOverLimit", "20.1 mg by CAL in Germany", german("calciumAcetateLactate", 201 * 0.4364), "19.9 mg", german("calciumAcetateLactate", 199 * 0.4364)],
  ["phosphorusOverLimit", "25.1 mg by DL", german("doubleLactate", 251 * 0.4364), "24.9 mg", german("doubleLactate", 249 * 0.4364)],
  ["phosphorusOverLimit", "3.61 mg by EUF", german("electroUltrafiltration", 36.1), "3.6 mg", german("electroUltrafiltration", 36)],
  ["phosphorusOverLimit", "151 ppm by plasma, of which the limit is stated", finished("icp"), "151 ppm by color", finished("colorimetric")],
  ["phosphorusOverLimit", "more than 150 ppm, as far as the laboratory reads", { packs: [limit], measurements: [measured("P", 150, { qualifier: ">" })] }, "150 ppm", phosphorus(150)],
  ["brayOnLime", "Bray P1 at pH 7.5", bray(7.5), "at pH 7.4", bray(7.4)],
  ["brayOnLime", "the same", bray(7.5), "Mehlich-3", bray(7.5, "mehlich3")],
  ["drilledOnSand", "potash for barley on sandy loam", drilled("sandyLoam"), "on silt loam", drilled("siltLoam")],
  ["drilledOnSand", "potash for triticale on it", { ...drilled("sandyLoam"), facts: { crop: "winterTriticale", texture: "sandyLoam", straw: "removed" } }, "for oilseed rape", { ...drilled("sandyLoam"), facts: { crop: "winterOilseedRape", texture: "sandyLoam" } }],
  ["drilledOnSand", "the same", drilled("sandyLoam"), "none for it", drilled("sandyLoam", 300)],
  ["drilledOnSand", "the same", drilled("sandyLoam"), "potash for potatoes", { ...drilled("sandyLoam"), facts: { crop: "potatoes", texture: "sandyLoam" } }],
  ["drilledOnSand", "the same", drilled("sandyLoam"), "by the edition before", { ...drilled("sandyLoam"), packs: [pack("uk-rb209-2010")] }],
  ["highPotassium", "hay on soil high in potassium and low in magnesium", tetany(220, 40), "enough magnesium", tetany(220, 60)],
  ["highPotassium", "the same", tetany(220, 40), "potassium in the range to keep", tetany(140, 40)],
  ["highPotassium", "the same", tetany(220, 40), "a crop that is sold as grain", tetany(220, 40, "corn")],
  // Ohio State, "Select a lime source based on ENP" (2014): below 50 ppm use dolomitic lime where lime is needed.
  // Oklahoma State, PSS-2240: below pH 5.5 a potential loss to acidity, of wheat.
  ["soilAcidity", "pH 5.4 and no lime rate", acid(5.4), "pH 5.5", acid(5.5)],
  ["soilAcidity", "the same", acid(5.4), "a lime rate", { ...acid(5.4), packs: [oregon], own: full.own }],
  ["soilAcidity", "the same", acid(5.4), "a lime rate that the reader is not shown", { ...acid(5.4, { crop: undefined, cropWithheld: true }), packs: [triState] }],
  ["soilAcidity", "the same", acid(5.4), "muck", acid(5.4, { texture: "muck" })],
  ["soilAcidity", "the same", acid(5.4), "blueberries", acid(5.4, { crop: "blueberry" })],
  ["soilAcidity", "the same", acid(5.4), "potatoes", acid(5.4, { crop: "potatoes" })],
  ["soilAcidity", "the same", acid(5.4), "early potatoes", acid(5.4, { crop: "earlyPotatoes" })],
  ["commonScab", "early potatoes on soil that wants lime", { ...pennPotatoes(6.2), facts: { ...pennPotatoes(6.2).facts, crop: "earlyPotatoes" } }, "corn on it", { ...pennPotatoes(6.2), facts: { ...pennPotatoes(6.2).facts, crop: "corn" } }],
  ["dolomiticLime", "lime is due and magnesium is 49 ppm", acidWith("Mg", 49), "magnesium is 50 ppm", acidWith("Mg", 50)],
  ["dolomiticLime", "the same", acidWith("Mg", 49), "no lime is due", { measurements: [measured("pH", 6.8), measured("Mg", 49)] }],
  // Purdue Extension (2021): on soil of a CEC of 5 or less do not try to build the potassium test up.
  ["potashOnSand", "potash at a CEC of 5", onSoilOf(5), "at a CEC of 5.1", onSoilOf(5.1)],
  ["potashOnSand", "the same", onSoilOf(5), "none is advised there", { ...onSoilOf(5), measurements: [measured("K", 140)] }],
  // Purdue, Everything in Moderation when Applying Potash (2021): soybean lost yield from 60 lb/ac of K2O up, corn from more than 120 in spring.
  ["potashAtPlanting", "88 lb/ac of potash for soybean", potashFor("soybean", 60, 160), "none for it", potashFor("soybean", 60, 180)],
  ["potashAtPlanting", "121 lb/ac for corn", potashFor("corn", 505, 140), "120 lb/ac", potashFor("corn", 500, 140)],
  ["potashAtPlanting", "potash for soybean", potashFor("soybean", 60, 160), "for wheat", potashFor("wheat", 80, 90)],
  ["potashOnAlfalfa", "potash for alfalfa", potashFor("alfalfa", 4.5, 116), "none for it", potashFor("alfalfa", 4.5, 180)],
  ["potashOnAlfalfa", "the same", potashFor("alfalfa", 4.5, 116), "for corn", potashFor("corn", 180, 116)],
  ["anhydrousAmmonia", "a nitrogen rate", withN(), "enough nitrate", withN({ measurements: [nitrate(30)] })],
  ["anhydrousAmmonia", "a nitrogen rate on a field", withN(), "the same in a garden", { ...withN(), garden: true }],
  ["anhydrousAmmonia", "a rate by the acre", withN(), "a rate in Britain", british()],
  ["ammoniumNitrate", "a rate in Britain", british(), "a rate by the acre", withN()],
  ["ammoniumNitrate", "a rate from none to 60 kg/ha, by what humus may release", british(200, "winterWheat", 8), "a garden", { ...british(200, "winterWheat", 8), garden: true }],
  ["ammoniumNitrate", "the same", british(), "a supply that feeds the crop alone", british(250, "springBarley")],
  ["ammoniumNitrate", "the same", british(), "a garden", { ...british(), garden: true }],
  ["nitrateAndWells", "a nitrogen rate", withN(), "nitrogen is not asked for", {}],
  ["nitrateAndWells", "nitrate was found and none is advised", withN({ measurements: [nitrate(30)] }), "nitrate was not tested", withN({ measurements: [] })],
  ["manureBeforeHarvest", "manure of this season", withN({ manure: [beef] }), "no manure", withN()],
  ["manureBeforeHarvest", "manure of the year before", withN({ manure: [{ ...beef, yearsAgo: 1 }] }), "manure of two years before", withN({ manure: [{ ...beef, yearsAgo: 2 }] })],
  // Cornell, National GAPs Program: the National Organic Program's 90 and 120 days before harvest, from raw manure to what people eat.
  ["manureDays", "manure for lettuce", manuredFor("lettuce"), "none", { ...manuredFor("lettuce"), nitrogen: undefined }],
  ["manureDays", "manure for lettuce", manuredFor("lettuce"), "for corn, which is fed or milled", manuredFor("corn")],
  ["manureDays", "the same", manuredFor("lettuce"), "by a guideline of Britain", { ...manuredFor("lettuce"), packs: [pack("uk-rb209-2023")] }],
  ["manureBeforeHarvest", "manure of this season, where those before are not recorded", withN({ manure: undefined, manureFound: [beef] }), "none is recorded", withN({ manure: undefined, manureFound: [] })],
  ["manureOnHighPhosphorus", "manure on soil above the range", { ...withN({ manure: [beef] }), ...nothingDue }, "on soil in it", { ...withN({ manure: [beef] }), measurements: [measured("P", 30)] }],
  ["manureOnHighPhosphorus", "manure on soil above the range", { ...withN({ manure: [beef] }), ...nothingDue }, "no manure on it", { ...withN(), ...nothingDue }],
  // Cornell, Starter Phosphorus Fertilizer for Corn: little to no response is expected of soils that test high to very high; very high is recalled to begin at 40 lb/ac.
  ["manureOnHighPhosphorus", "manure on 40 lb/ac by Morgan in New York", { ...withN({ manure: [beef] }), packs: [pack("us-newyork-cornell-morgan")], measurements: [measured("P", 40, { method: "morgan", unit: "lb/ac" })] }, "on 39 lb/ac", { ...withN({ manure: [beef] }), packs: [pack("us-newyork-cornell-morgan")], measurements: [measured("P", 39, { method: "morgan", unit: "lb/ac" })] }],
  ["manureInRates", "phosphate or potash is due where manure is spread", withN({ manure: [beef] }), "no manure", withN()],
  ["manureInRates", "manure of the year before", withN({ manure: [{ ...beef, yearsAgo: 1 }] }), "nothing is due", { ...withN({ manure: [beef] }), ...nothingDue }],
  ["nitrateInForage", "nitrogen on corn cut for silage", { ...withN(), facts: { ...full.facts, crop: "cornSilage" } }, "on corn for grain", withN()],
  ["superseded", "a rate by an edition that is superseded", { packs: [{ ...triState, status: "superseded" }] }, "by the edition in force", { packs: [triState] }],
  ["superseded", "a class by one alone", { packs: [old(triState)], measurements: [measured("Mg", 49)] }, "no result for it", { packs: [old(triState)], measurements: [] }],
  ["superseded", "a rate by one alone", chlorideBy("superseded"), "by the edition in force", chlorideBy("current")],
  ["superseded", "lime by one alone", { packs: [triState, old(oregon)] }, "its table not asked, where no lime is due", { packs: [triState, old(oregon)], ...nothingDue }],
  ["superseded", "nitrogen by one alone", withN({}, old(iowa)), "nitrate not tested", withN({ measurements: [] }, old(iowa))],
  // University of Delaware, Weekly Crop Update, Spring Pasture Fertilization: hold off potassium until late May or early June.
  ["potashOnPasture", "potash for a pasture", grazed(90), "none for it", grazed(200)],
  ["potashOnPasture", "the same", grazed(90), "for silage", grazed(90, "grassSilageTwoCuts")],
  // Local Land Services, New South Wales: at least three weeks before livestock graze.
  ["litterOnGrass", "poultry litter on pasture", litterOn("grassPasture"), "cattle manure on it", { ...litterOn("grassPasture"), ...withN({ manure: [beef] }) }],
  ["litterOnGrass", "on hay, the year before", litterOn("grassHay", 1), "for corn", litterOn("corn")],
  ["litterOnGrass", "the same", litterOn("grassHay", 1), "two years before", litterOn("grassHay", 2)],
  ["manureOnGrass", "cattle manure on pasture", { ...litterOn("grassPasture"), ...withN({ manure: [beef] }) }, "none", { facts: { ...full.facts, crop: "grassPasture" } }],
  ["manureOnGrass", "the same", { ...litterOn("grassPasture"), ...withN({ manure: [beef] }) }, "on corn", withN({ manure: [beef] })],
  // Irish forage guide, 2018, page 27: on grassland high in molybdenum a soil pH above 6.2 raises it in the herbage.
  ["molybdenum", "lime is due on grass in Ireland", irish(6.2), "none is due", irish(6.3)],
  ["molybdenum", "the same", irish(6.2), "on barley", irish(6.2, "springBarley")],
  ["molybdenum", "the same", irish(6.2), "on grass in Britain", { ...irish(6.2), packs: [pack("uk-rb209-2023")] }],
  ["leadInGarden", "a garden", { garden: true }, "a field", {}],
  // Wisconsin Department of Health Services: apple orchards were sprayed the most, until the late 1950s.
  ["leadArsenate", "apples", { facts: { ...full.facts, crop: "apple" } }, "blueberries", { facts: { ...full.facts, crop: "blueberry" } }],
  ["leadArsenate", "the same", { facts: { ...full.facts, crop: "apple" } }, "by a guideline of Britain", { facts: { ...full.facts, crop: "apple" }, packs: [pack("uk-rb209-2023")] }],
];

const called = (change: Partial<Sample>) => advise({ ...full, ...change }).cautions;

describe("a caution", () => {
  it.each(triggers.map(([id, because, yes, unless, no]) => [id, because, unless, yes, no] as const))("%s is called for by: %s; and not by: %s", (id, _, _unless, yes, no) => {
    expect(called(yes)).toContain(id);
    if (no) expect(called(no)).not.toContain(id);
  });

  // RB209, section 4, "all cereals"; what is fed whole is cut or grazed green.
  it.each(["winterWheat", "springWheat", "winterBarley", "springBarley", "oats", "rye", "winterRye", "winterTriticale"] as const)("of seed and potash in one drill is given with %s on sand", (crop) => {
    const sample = drilled("sandyLoam");
    const said = { ...advise({ ...full, ...sample }), sample: { ...full, ...sample, facts: { crop, texture: "sandyLoam" } } };
    expect(cautions.drilledOnSand.when(said as never)).toBe(true);
  });
  const cut = ["grassHay", "grassPasture", "grassSilageOneCut", "grassSilageTwoCuts", "grassSilageThreeCuts", "grassSilageFourCuts", "grassSilageSecondCut"] as const;
  it.each([...cut, "cornSilage", "forageMaize"] as const)("of nitrate in forage is given with %s", (crop) => expect(called({ ...withN(), facts: { ...full.facts, crop } })).toContain("nitrateInForage"));
  it("of tetany is given with grass and alfalfa, and not with maize, which is no pasture", () => {
    const told = ([...cut, "alfalfa", "cornSilage", "forageMaize"] as const).filter((crop) => {
      const said = { ...advise({ ...full, ...tetany(220, 40) }), sample: { ...full, ...tetany(220, 40), facts: { ...full.facts, crop } } };
      return cautions.highPotassium.when(said);
    });
    expect(told).toEqual([...cut, "alfalfa"]);
  });

  it("names no guideline or country but in a caution of that guideline, since a reader may be of any other", () => {
    const named = cautionIds.filter((id) => /Tri-State|RB209|British|American|German|Purdue|Wisconsin/.test(cautions[id].text));
    expect(named.map((id) => [id, cautions[id].source])).toEqual([
      ["drilledOnSand", { reference: "ahdb-rb209", at: "section 4, all cereals" }],
      ["potashOnSand", { reference: "purdue-potash-column-2021" }],
      ["potashAtPlanting", { reference: "purdue-potash-2021" }],
      ["potashOnAlfalfa", { reference: "wisconsin-alfalfa-potash" }],
      ["leadArsenate", { reference: "wisconsin-lead-arsenate" }],
    ]);
    // Their trials count by the acre: whoever is advised in kg/ha is not sent to America.
    expect(called({ ...drilled("sandyLoam"), facts: { ...drilled("sandyLoam").facts, cec: 4 } }).filter((id) => id.startsWith("potash"))).toEqual([]);
    // Lime on organic soil: Tri-State 1995 to 5.3, RB209 to 6.0 at most.
    expect(cautions.organicSoil.text).toContain("guidelines lime them to between 5.3 and 6.0 at most");
    // Germany allows as much as harvests take away (§ 3 (6)); it is not none before an assessment.
    expect(cautions.phosphorusOverLimit.text).toContain("before you know what that guideline and your local code still allow");
  });

  it("has its trigger tested, but for those of the taking of samples", () => {
    expect(new Set([...triggers.map(([id]) => id), ...samplingCautions])).toEqual(new Set(cautionIds));
    expect(samplingCautions).toEqual(["buriedLines"]);
    expect(cautionIds.filter((id) => called({ ...withN({ manure: [beef] }), garden: true }).includes(id) && samplingCautions.includes(id))).toEqual([]);
  });

  it("has words, a place and a source", () => {
    for (const id of cautionIds) {
      expect(cautions[id].text).toMatch(/^[A-Z].*\.$/);
      expect(cautions[id].title).toMatch(/^[a-z]/);
      // What is not common practice says whose word it is.
      const { source, text } = cautions[id];
      expect(source === "common-practice" || /RB209|Purdue|Wisconsin|Oklahoma|North Dakota|Cornell|eXtension|Delaware|Progressive Forage|New South Wales|Irish forage guide/.test(text)).toBe(true);
    }
  });
});
