/**
 * Cautions, shown where the advice is. Each is common practice in extension publications and on product labels;
 * none replaces local codes, a label or licensed advice.
 */
export const cautions = {
  localCodes:
    "These rates are a reading of published guidelines, not a permit. Local codes, nutrient management law and licensed practice come first.",
  superseded:
    "A guideline used here has been superseded by a newer edition. Take its rates as a comparison, and look the newer one up before spreading.",
  limeDust:
    "Lime dust irritates eyes and lungs: wear goggles and a mask when loading and spreading. Hydrated lime and quicklime burn skin and eyes and are not the material meant here.",
  limeAndAmmonia:
    "Do not spread lime together with urea, ammonium fertilizer or manure: it drives off ammonia.",
  buriedLines: "Have buried lines located before a probe goes into the ground.",
  phosphorusNearWater:
    "Phosphorus that leaves the field harms water. Keep to the setbacks from streams, wells and drains that your local code sets, and do not spread on frozen or saturated ground.",
  highPotassium:
    "Forage that is high in potassium and low in magnesium can cause grass tetany in cattle. Have it tested before grazing or feeding.",
  nitrateAndWells:
    "Nitrate moves to wells. Do not apply more nitrogen than the crop needs, and have drinking water tested where wells are shallow.",
  anhydrousAmmonia:
    "Anhydrous ammonia burns eyes, lungs and skin: wear goggles and gloves made for it, keep water at hand, and stay upwind. Only trained people handle it.",
  manureBeforeHarvest:
    "Raw manure can carry germs: keep the time before harvest that food-safety rules set, above all for crops eaten raw.",
  nitrateInForage:
    "Forage that took up much nitrogen, above all after drought or frost, can hold enough nitrate to poison cattle. Have it tested before feeding.",
} as const;
export type CautionId = keyof typeof cautions;
