import type { Caution, CautionPlace } from "./caution.ts";
import { common } from "./caution.ts";
import type { Said } from "./cautionTriggers.ts";
import {
  acidWithoutLime,
  poundsOf,
  applies,
  nitrogenRate,
  ruledByHectare,
  isPotato,
  limed,
  manured,
  rated,
  fedWhole,
  feedsAnimals,
  cerealsOfBritain,
  sandyCec,
  cornPotash,
  sandy,
  readBy,
  burnt,
  overLimit,
  brayOnLime,
  saltOrSodium,
  superseded,
} from "./cautionTriggers.ts";
import { grassCautions } from "./grassCautions.ts";
import { growerCautions } from "./growerCautions.ts";
import { growsOnAcidSoil } from "./rules/acidCrop.ts";
import { isOrganic } from "./rules/soilDoubts.ts";

/**
 * Cautions as data: the words, the advice each belongs to, and what calls for it. Each is common practice in extension
 * publications and on product labels unless it names its source; none replaces local codes, a label or licensed advice.
 */
export const cautions = {
  localCodes: {
    title: "local codes first",
    text: "These rates are a reading of published guidelines, not a permit. Local codes, nutrient management law and licensed practice come first.",
    beside: "page",
    when: () => true,
    ...common,
  },
  saltsAndSodium: {
    title: "salts and sodium",
    text: "So high a pH, or so much salt, points to salts or sodium that hold the crop back. Fertilizer does not mend that, and adds salt: North Dakota State finds nutrients mostly adequate in such soil. Have salts and sodium tested, of the bad places by themselves, before you spend on rates.",
    beside: "page",
    when: saltOrSodium,
    source: { reference: "ndsu-sf1809" },
  },
  limeDust: {
    title: "lime dust",
    text: "Lime dust irritates eyes and lungs: wear goggles and a mask when loading and spreading. Hydrated lime and quicklime burn skin and eyes and are not the material meant here.",
    beside: "lime",
    when: limed,
    ...common,
  },
  quickLime: {
    title: "burnt or slaked lime",
    text: "A material on the list is stronger than any limestone, so it is quicklime or hydrated lime. Both burn skin and eyes, and quicklime heats when wet: wear goggles, gloves and a mask, keep it dry, and keep it off standing crops.",
    beside: "lime",
    when: (said) => limed(said) && burnt(said),
    ...common,
  },
  organicSoil: {
    title: "lime on organic soil",
    // 5.3 by Tri-State 1995, 6.0 by RB209; a reader of either is not sent to the other's country.
    text: "Muck and peat do well at a lower pH than mineral soil: guidelines lime them to between 5.3 and 6.0 at most. Lime beyond that is money lost and locks up manganese. Check the target before spreading.",
    beside: "lime",
    when: (said) => limed(said) && isOrganic(said.sample.facts) === true,
    ...common,
  },
  dolomiticLime: {
    title: "lime where magnesium is low",
    // Ohio State, "Select a lime source based on ENP", 2014, and guidelines elsewhere: below 50 ppm there.
    text: "The soil is low in magnesium as well as acid: dolomitic lime, which holds magnesium, mends both, where it can be had. Ask the supplier what the lime on the list holds.",
    beside: "lime",
    when: (said) => limed(said) && rated(said, "Mg", "below"),
    ...common,
  },
  soilAcidity: {
    title: "a very acid soil",
    text: "Soil below pH 5.5 can cost yield by its acidity alone, says Oklahoma State of wheat, and no lime rate stands here. Have one worked out by a laboratory or guideline of your region before you pay for other fertilizer.",
    beside: "lime",
    when: acidWithoutLime,
    source: { reference: "osu-ok-pss2240" },
  },
  commonScab: {
    title: "lime before potatoes",
    text: "Lime spread shortly before potatoes brings on common scab. Where it can wait, spread it after them; where the field is to stay lower, set targetPh.",
    beside: "lime",
    when: (said) => (limed(said) || rated(said, "pH", "below")) && isPotato(said.sample.facts.crop),
    ...common,
  },
  limeOnAcidSoilCrop: {
    title: "lime for a crop of acid soil",
    text: "Blueberries grow on acid soil, and lime can ruin them for years. The target pH here is the field's own: lime to it only if it was set for them; else set another, or make the land that they stand on a field of its own.",
    beside: "lime",
    when: (said) => limed(said) && said.sample.own !== undefined && growsOnAcidSoil(said.sample.facts.crop),
    ...common,
  },
  limeAndAmmonia: {
    title: "lime and ammonia",
    text: "Do not spread lime together with urea, ammonium fertilizer or manure: it drives off ammonia.",
    beside: "lime",
    when: limed,
    ...common,
  },
  phosphorusNearWater: {
    title: "phosphorus near water",
    text: "Phosphorus that leaves the field harms water. Keep to the setbacks from streams, wells and drains that your local code sets, and do not spread on frozen or saturated ground.",
    beside: "phosphorus",
    when: (said) => applies(said, "P2O5", "P"),
    ...common,
  },
  phosphorusOverLimit: {
    title: "phosphorus above the environmental limit",
    text: "The soil holds more phosphorus than the environmental limit of a guideline chosen here. Add none, neither as fertilizer nor as manure, before you know what that guideline and your local code still allow.",
    beside: "phosphorus",
    when: overLimit,
    ...common,
  },
  manureOnHighPhosphorus: {
    title: "manure on soil with enough phosphorus",
    text: "The soil holds more phosphorus than crops ask for, and manure or compost adds to it. Spread no more than brings the phosphorus that the harvest takes away, or spread it elsewhere.",
    beside: "phosphorus",
    ofManure: true,
    when: (said) => manured(said) && rated(said, "P", "above"),
    ...common,
  },
  manureInRates: {
    title: "what manure brings",
    text: "Manure was spread here for this crop or the one before. It brings phosphorus and potassium, and the rates take none of it off: before you buy, take off what manure brings for this crop, by its analysis and as far as your guideline counts it.",
    beside: ["phosphorus", "potassium"],
    ofManure: true,
    when: (said) => manured(said) && applies(said, "P2O5", "P", "K2O", "K"),
    ...common,
  },
  brayOnLime: {
    title: "free lime and Bray P1",
    text: "Bray P1 reads too little phosphorus where the soil holds free lime, as it may above pH 7.4: the class can be too low and the rate too high. Have phosphorus tested by Olsen or Mehlich-3, and read by a guideline for that test.",
    beside: "phosphorus",
    when: brayOnLime,
    ...common,
  },
  drilledOnSand: {
    title: "potash beside the seed",
    text: "Nitrogen and potash drilled beside the seed can kill seedlings on sandy soil: RB209 has no more than 150 kg/ha of the two together combine drilled there.",
    beside: "potassium",
    when: (said) => {
      const { crop, texture } = said.sample.facts;
      return (
        crop !== undefined &&
        cerealsOfBritain.includes(crop) &&
        texture !== undefined &&
        sandy.includes(texture) &&
        applies(said, "K2O") &&
        readBy(said, "ahdb-rb209")
      );
    },
    source: { reference: "ahdb-rb209", at: "section 4, all cereals" },
  },
  potashOnSand: {
    title: "potash on sand",
    text: "Soil with a CEC of 5 or less holds little potassium, and what crops leave of it leaches: Purdue's advice is not to try to build its test up. Spread about what the crop takes away, each year; the part of the rate that builds up may be lost.",
    beside: "potassium",
    when: (said) => (said.sample.facts.cec ?? Infinity) <= sandyCec && poundsOf(said, "K2O") > 0,
    source: { reference: "purdue-potash-column-2021" },
  },
  potashAtPlanting: {
    title: "potash at planting",
    text: "Muriate of potash spread at or shortly after planting cost soybean yield in Purdue's trials, and large rates in spring cost corn. Spread it well before planting.",
    beside: "potassium",
    when: (said) => {
      const { crop } = said.sample.facts;
      return crop === "soybean" ? poundsOf(said, "K2O") > 0 : crop === "corn" && poundsOf(said, "K2O") > cornPotash;
    },
    source: { reference: "purdue-potash-2021" },
  },
  potashOnAlfalfa: {
    title: "potash on alfalfa",
    text: "On standing alfalfa spread potash after a cut, not at green-up: in Wisconsin it was never better then, and driving on the stand can damage the crowns. A large rate may be split between two cuts, since alfalfa takes up more than it needs.",
    beside: "potassium",
    when: (said) => said.sample.facts.crop === "alfalfa" && poundsOf(said, "K2O") > 0,
    source: { reference: "wisconsin-alfalfa-potash" },
  },
  highPotassium: {
    title: "grass tetany",
    text: "Forage that is high in potassium and low in magnesium can cause grass tetany in cattle. Have it tested before grazing or feeding.",
    beside: "potassium",
    when: (said) => feedsAnimals(said) && rated(said, "K", "above") && rated(said, "Mg", "below"),
    ...common,
  },
  anhydrousAmmonia: {
    title: "anhydrous ammonia",
    text: "Anhydrous ammonia burns eyes, lungs and skin: wear goggles and gloves made for it, keep water at hand, and stay upwind. Only trained people handle it.",
    beside: "nitrogen",
    // Injected in North America, whose rules count by the acre, and hardly anywhere in Europe.
    when: (said) => nitrogenRate(said) > 0 && !ruledByHectare(said) && said.sample.garden !== true,
    ...common,
  },
  ammoniumNitrate: {
    title: "ammonium nitrate and urea",
    text: "Ammonium nitrate feeds a fire, and hot or soiled with fuel it can explode: store it by itself, dry, and as the label and the law say. Urea that lies on the ground loses ammonia: countries rule how it is treated or worked in.",
    beside: "nitrogen",
    when: (said) => nitrogenRate(said) > 0 && ruledByHectare(said) && said.sample.garden !== true,
    ...common,
  },
  nitrateAndWells: {
    title: "nitrate and wells",
    text: "Nitrate moves to wells. Do not apply more nitrogen than the crop needs, and have drinking water tested where wells are shallow.",
    beside: "nitrogen",
    when: (said) => nitrogenRate(said) > 0 || (said.sample.nitrogen?.measurements.length ?? 0) > 0,
    ...common,
  },
  manureBeforeHarvest: {
    title: "manure before harvest",
    text: "Raw manure can carry germs: keep the time before harvest that food-safety rules set, above all for crops eaten raw.",
    beside: "nitrogen",
    ofManure: true,
    when: manured,
    ...common,
  },
  nitrateInForage: {
    title: "nitrate in forage",
    text: "Forage that took up much nitrogen, above all after drought or frost, can hold enough nitrate to poison cattle. Have it tested before feeding.",
    beside: "nitrogen",
    when: (said) =>
      nitrogenRate(said) > 0 &&
      [said.sample.nitrogen?.facts.crop, said.sample.facts.crop].some((crop) => crop !== undefined && fedWhole.includes(crop)),
    ...common,
  },
  superseded: {
    title: "a superseded guideline",
    text: "A guideline used here has been superseded by a newer edition. Take its rates as a comparison, and look the newer one up before spreading.",
    beside: "page",
    when: superseded,
    ...common,
  },
  ...grassCautions,
  ...growerCautions,
  buriedLines: {
    title: "buried lines",
    text: "Have buried lines located before a probe goes into the ground.",
    beside: "sampling",
    // The taking of samples is not part of what is said of one: whoever shows or plans a sampling names it.
    when: () => false,
    ...common,
  },
} as const satisfies Record<string, Caution>;
export type CautionId = keyof typeof cautions;
export const cautionIds = Object.keys(cautions) as [CautionId, ...CautionId[]];

/** Is a caution one of those that stand beside this advice? */
export const standsBeside = (id: CautionId, place: CautionPlace): boolean => {
  const { beside }: Caution = cautions[id];
  return typeof beside === "string" ? beside === place : beside.includes(place);
};

/** The cautions that what was said calls for, in the order of the list. */
export const cautionsFor = (said: Said): CautionId[] => cautionIds.filter((id) => cautions[id].when(said));

/** Those that belong to the taking of samples, whatever they then show. */
export const samplingCautions: readonly CautionId[] = cautionIds.filter((id) => standsBeside(id, "sampling"));
