/**
 * The one vocabulary. Every analyte, method, finish, nutrient, crop and texture has its id, label and,
 * where it is a number, its unit and the decimals it is shown with. Records, code, pages and CSV use nothing else.
 */

/** Units a soil test is reported in. `ppm` is mg/kg, parts per million by mass. */
export const soilTestUnits = ["pH", "ppm", "mg/l", "lb/ac", "kg/ha", "%", "meq/100 g", "meq/100 cm3", "dS/m", "index"] as const;
export type SoilTestUnit = (typeof soilTestUnits)[number];

interface AnalyteEntry {
  readonly label: string;
  /** Short name for tight table heads and chart axes. */
  readonly short: string;
  /** The unit it is usually reported in. */
  readonly unit: SoilTestUnit;
  readonly decimals: number;
  /** The widest range a soil can show in the usual unit. A value outside is almost surely a slip. */
  readonly plausible: readonly [number, number];
  /** In ppm, a value over this is more likely a lb/ac figure or a typing slip; absent where no such hint exists. */
  readonly suspiciousAbove?: number;
}

const define = <K extends string>(entries: Record<K, AnalyteEntry>): Record<K, AnalyteEntry> => entries;

/** Plausible ranges are common practice: wide enough for any farmed soil, narrow enough to catch a misplaced point. */
export const analytes = define({
  pH: { label: "Soil pH", short: "pH", unit: "pH", decimals: 1, plausible: [3, 10.5] },
  bufferPh: { label: "Buffer pH", short: "Buffer pH", unit: "pH", decimals: 2, plausible: [4, 8.5] },
  exchangeableAcidity: { label: "Exchangeable acidity", short: "Acidity", unit: "meq/100 g", decimals: 1, plausible: [0, 100] },
  P: { label: "Phosphorus", short: "P", unit: "ppm", decimals: 0, plausible: [0, 2000], suspiciousAbove: 300 },
  K: { label: "Potassium", short: "K", unit: "ppm", decimals: 0, plausible: [0, 3000], suspiciousAbove: 600 },
  Ca: { label: "Calcium", short: "Ca", unit: "ppm", decimals: 0, plausible: [0, 20000], suspiciousAbove: 8000 },
  Mg: { label: "Magnesium", short: "Mg", unit: "ppm", decimals: 0, plausible: [0, 4000], suspiciousAbove: 1200 },
  S: { label: "Sulfur", short: "S", unit: "ppm", decimals: 0, plausible: [0, 1000] },
  Na: { label: "Sodium", short: "Na", unit: "ppm", decimals: 0, plausible: [0, 5000] },
  Zn: { label: "Zinc", short: "Zn", unit: "ppm", decimals: 1, plausible: [0, 500] },
  B: { label: "Boron", short: "B", unit: "ppm", decimals: 1, plausible: [0, 50] },
  Mn: { label: "Manganese", short: "Mn", unit: "ppm", decimals: 0, plausible: [0, 1500] },
  Cu: { label: "Copper", short: "Cu", unit: "ppm", decimals: 1, plausible: [0, 500] },
  Fe: { label: "Iron", short: "Fe", unit: "ppm", decimals: 0, plausible: [0, 2000] },
  Al: { label: "Aluminum", short: "Al", unit: "ppm", decimals: 0, plausible: [0, 3000] },
  Cl: { label: "Chloride", short: "Cl", unit: "ppm", decimals: 0, plausible: [0, 2000] },
  nitrateN: { label: "Nitrate-N", short: "NO₃-N", unit: "ppm", decimals: 0, plausible: [0, 500] },
  nitrate: { label: "Nitrate (NO₃)", short: "NO₃", unit: "ppm", decimals: 0, plausible: [0, 2200] },
  // Nitrate and ammonium together, in the whole depth sampled: Nmin in Germany, SMN in Britain. The word is no shorter name of nitrate.
  mineralN: { label: "Mineral nitrogen", short: "Nmin", unit: "kg/ha", decimals: 0, plausible: [0, 600] },
  organicMatter: { label: "Organic matter", short: "OM", unit: "%", decimals: 1, plausible: [0, 100] },
  cec: { label: "Cation exchange capacity", short: "CEC", unit: "meq/100 g", decimals: 1, plausible: [0, 200] },
  salts: { label: "Soluble salts", short: "EC", unit: "dS/m", decimals: 2, plausible: [0, 60] },
});
export type AnalyteId = keyof typeof analytes;
export const analyteIds = Object.keys(analytes) as [AnalyteId, ...AnalyteId[]];

/** An analyte's name within a sentence: "phosphorus", "soil pH", "nitrate-N". */
export const analyteInSentence = (id: AnalyteId): string => {
  const { label } = analytes[id];
  return label.charAt(0).toLowerCase() + label.slice(1);
};

/** Extractants, buffers and other ways of measuring. A value is never read with another method's bands. */
export const methods = {
  water1to1: { label: "1:1 water", analytes: ["pH", "salts"] },
  water1to2: { label: "1:2 water", analytes: ["pH", "salts"] },
  water1to2half: { label: "1:2.5 water", analytes: ["pH"] },
  calciumChloride: { label: "0.01 M calcium chloride", analytes: ["pH"] },
  potassiumChloridePh: { label: "1 M potassium chloride", analytes: ["pH"] },
  sikora: { label: "Sikora buffer", analytes: ["bufferPh"] },
  smp: { label: "SMP buffer", analytes: ["bufferPh"] },
  mehlichBuffer: { label: "Mehlich buffer", analytes: ["bufferPh", "exchangeableAcidity"] },
  adamsEvans: { label: "Adams-Evans buffer", analytes: ["bufferPh"] },
  mehlich3: { label: "Mehlich-3", analytes: ["P", "K", "Ca", "Mg", "S", "Na", "Zn", "B", "Mn", "Cu", "Fe", "Al"] },
  mehlich1: { label: "Mehlich-1", analytes: ["P", "K", "Ca", "Mg", "Na", "Zn", "Mn", "Cu", "Fe"] },
  bray1: { label: "Bray P1", analytes: ["P", "K"] },
  olsen: { label: "Olsen", analytes: ["P"] },
  morgan: { label: "Morgan", analytes: ["P", "K", "Ca", "Mg", "Zn", "Mn", "Fe", "Al"] },
  modifiedMorgan: {
    label: "modified Morgan",
    short: "mod. Morgan",
    analytes: ["P", "K", "Ca", "Mg", "S", "Na", "Zn", "B", "Mn", "Cu", "Fe", "Al"],
  },
  ammoniumAcetate: { label: "ammonium acetate", short: "amm. acetate", analytes: ["K", "Ca", "Mg", "Na"] },
  calciumAcetateLactate: { label: "calcium acetate lactate", short: "CAL", analytes: ["P", "K"] },
  doubleLactate: { label: "double lactate", short: "DL", analytes: ["P", "K"] },
  electroUltrafiltration: { label: "electro-ultrafiltration", short: "EUF", analytes: ["P", "K"] },
  ammoniumNitrate: { label: "ammonium nitrate", short: "amm. nitrate", analytes: ["K", "Mg", "Na"] },
  dtpa: { label: "DTPA", analytes: ["Zn", "Mn", "Cu", "Fe"] },
  hydrochloricAcid: { label: "0.1 N hydrochloric acid", analytes: ["Zn", "Mn", "Cu"] },
  hotWater: { label: "hot water", analytes: ["B"] },
  calciumPhosphate: { label: "monocalcium phosphate", analytes: ["S"] },
  calciumNitrate: { label: "0.01 M calcium nitrate", analytes: ["Cl"] },
  potassiumChloride: { label: "2 M potassium chloride", analytes: ["nitrateN", "nitrate", "mineralN"] },
  calciumChlorideNitrogen: { label: "0.0125 M calcium chloride", analytes: ["mineralN", "nitrateN"] },
  lossOnIgnition: { label: "loss on ignition", analytes: ["organicMatter"] },
  walkleyBlack: { label: "Walkley-Black", analytes: ["organicMatter"] },
  cationSum: { label: "sum of cations", analytes: ["cec"] },
  cationSumWithAcidity: { label: "sum of cations and buffer acidity", analytes: ["cec"] },
  saturatedPaste: { label: "saturated paste", analytes: ["salts"] },
} as const satisfies Record<string, { label: string; short?: string; analytes: readonly AnalyteId[] }>;
export type MethodId = keyof typeof methods;
export const methodIds = Object.keys(methods) as [MethodId, ...MethodId[]];

/** Is this pH one in water, which a guideline means by "soil pH" without a word? */
export const inWater = (method: MethodId): boolean => method.startsWith("water");

/** A method's name where room is short, such as above a chart. */
export const methodShort = (id: MethodId): string => {
  const entry: { label: string; short?: string } = methods[id];
  return entry.short ?? entry.label;
};

/** How the element was read from the extract. Mehlich-3 P by ICP reads higher than by color. */
export const finishes = { icp: "ICP", colorimetric: "colorimetric" } as const;
export type FinishId = keyof typeof finishes;
export const finishIds = Object.keys(finishes) as [FinishId, ...FinishId[]];

/** Whether the laboratory extracted dried and ground soil or soil as moist as it came. Matters for K. */
export const preparations = { dried: "dried", moist: "field-moist" } as const;
export type PreparationId = keyof typeof preparations;
export const preparationIds = Object.keys(preparations) as [PreparationId, ...PreparationId[]];

/** What a rate is a rate of. Phosphate and potash are oxides by long custom; the soil tests are elements. */
export const nutrients = {
  N: { label: "Nitrogen", symbol: "N" },
  P2O5: { label: "Phosphate", symbol: "P₂O₅" },
  K2O: { label: "Potash", symbol: "K₂O" },
  // Some countries print the elements. A rate keeps the form its publication prints, and is never turned into the other unseen.
  P: { label: "Phosphorus", symbol: "P" },
  K: { label: "Potassium", symbol: "K" },
  MgO: { label: "Magnesium", symbol: "MgO" },
  Mg: { label: "Magnesium", symbol: "Mg" },
  Na2O: { label: "Sodium", symbol: "Na₂O" },
  S: { label: "Sulfur", symbol: "S" },
  Zn: { label: "Zinc", symbol: "Zn" },
  B: { label: "Boron", symbol: "B" },
  Mn: { label: "Manganese", symbol: "Mn" },
  Cu: { label: "Copper", symbol: "Cu" },
  Cl: { label: "Chloride", symbol: "Cl" },
} as const;
export type NutrientId = keyof typeof nutrients;
export const nutrientIds = Object.keys(nutrients) as [NutrientId, ...NutrientId[]];

/** What a fertilizer's guaranteed analysis may state. An element and its oxide are two ways to state one nutrient. */
export const supplied = {
  N: { label: "nitrogen", symbol: "N" },
  P2O5: { label: "phosphate", symbol: "P₂O₅" },
  K2O: { label: "potash", symbol: "K₂O" },
  P: { label: "phosphorus", symbol: "P" },
  K: { label: "potassium", symbol: "K" },
  MgO: { label: "magnesium oxide", symbol: "MgO" },
  Mg: { label: "magnesium", symbol: "Mg" },
  Na2O: { label: "sodium oxide", symbol: "Na₂O" },
  S: { label: "sulfur", symbol: "S" },
  SO3: { label: "sulfur trioxide", symbol: "SO₃" },
  Ca: { label: "calcium", symbol: "Ca" },
  Zn: { label: "zinc", symbol: "Zn" },
  B: { label: "boron", symbol: "B" },
  Mn: { label: "manganese", symbol: "Mn" },
  Cu: { label: "copper", symbol: "Cu" },
  Cl: { label: "chloride", symbol: "Cl" },
} as const;
export type SuppliedId = keyof typeof supplied;
export const suppliedIds = Object.keys(supplied) as [SuppliedId, ...SuppliedId[]];

export const crops = {
  corn: { label: "corn", yieldUnit: "bu/ac", per: "bu" },
  sweetCorn: { label: "sweet corn", yieldUnit: "ton/ac", per: "ton" },
  soybean: { label: "soybean", yieldUnit: "bu/ac", per: "bu" },
  wheat: { label: "wheat", yieldUnit: "bu/ac", per: "bu" },
  alfalfa: { label: "alfalfa", yieldUnit: "ton/ac", per: "ton" },
  cornSilage: { label: "corn silage", yieldUnit: "ton/ac", per: "ton" },
  cornStover: { label: "corn stover", yieldUnit: "ton/ac", per: "ton" },
  wheatStraw: { label: "wheat straw", yieldUnit: "ton/ac", per: "ton" },
  grassHay: { label: "grass hay", yieldUnit: "ton/ac", per: "ton" },
  grassPasture: { label: "grass pasture", yieldUnit: "ton/ac", per: "ton" },
  grainSorghum: { label: "grain sorghum", yieldUnit: "bu/ac", per: "bu" },
  snapBean: { label: "snap beans", yieldUnit: "bu/ac", per: "bu" },
  pea: { label: "peas", yieldUnit: "ton/ac", per: "ton" },
  tomato: { label: "tomatoes", yieldUnit: "ton/ac", per: "ton" },
  pepper: { label: "peppers", yieldUnit: "ton/ac", per: "ton" },
  broccoli: { label: "broccoli", yieldUnit: "ton/ac", per: "ton" },
  cabbage: { label: "cabbage", yieldUnit: "ton/ac", per: "ton" },
  carrot: { label: "carrots", yieldUnit: "ton/ac", per: "ton" },
  cauliflower: { label: "cauliflower", yieldUnit: "ton/ac", per: "ton" },
  celery: { label: "celery", yieldUnit: "ton/ac", per: "ton" },
  cucumber: { label: "cucumbers", yieldUnit: "ton/ac", per: "ton" },
  kale: { label: "kale", yieldUnit: "ton/ac", per: "ton" },
  lettuce: { label: "lettuce", yieldUnit: "ton/ac", per: "ton" },
  muskmelon: { label: "muskmelons", yieldUnit: "ton/ac", per: "ton" },
  onion: { label: "onions", yieldUnit: "ton/ac", per: "ton" },
  pumpkin: { label: "pumpkins and winter squash", yieldUnit: "ton/ac", per: "ton" },
  apple: { label: "apples", yieldUnit: "ton/ac", per: "ton" },
  peach: { label: "peaches", yieldUnit: "ton/ac", per: "ton" },
  blueberry: { label: "blueberries", yieldUnit: "ton/ac", per: "ton" },
  strawberry: { label: "strawberries", yieldUnit: "ton/ac", per: "ton" },
  raspberry: { label: "raspberries", yieldUnit: "ton/ac", per: "ton" },
  grape: { label: "grapes", yieldUnit: "ton/ac", per: "ton" },
  rye: { label: "rye", yieldUnit: "ton/ac", per: "ton" },
  clover: { label: "clover", yieldUnit: "ton/ac", per: "ton" },
  coverCrop: { label: "cover crop", yieldUnit: "ton/ac", per: "ton" },
  winterWheat: { label: "winter wheat", yieldUnit: "t/ha", per: "t" },
  winterWheatElite: { label: "winter wheat of quality group E", yieldUnit: "t/ha", per: "t" },
  winterWheatFeed: { label: "winter wheat of quality group C", yieldUnit: "t/ha", per: "t" },
  durumWheat: { label: "durum wheat", yieldUnit: "t/ha", per: "t" },
  winterRye: { label: "winter rye", yieldUnit: "t/ha", per: "t" },
  winterTriticale: { label: "winter triticale", yieldUnit: "t/ha", per: "t" },
  springWheat: { label: "spring wheat", yieldUnit: "t/ha", per: "t" },
  winterBarley: { label: "winter barley", yieldUnit: "t/ha", per: "t" },
  springBarley: { label: "spring barley", yieldUnit: "t/ha", per: "t" },
  oats: { label: "oats", yieldUnit: "t/ha", per: "t" },
  potatoes: { label: "potatoes", yieldUnit: "t/ha", per: "t" },
  earlyPotatoes: { label: "early potatoes", yieldUnit: "t/ha", per: "t" },
  sugarBeet: { label: "sugar beet", yieldUnit: "t/ha", per: "t" },
  grainMaize: { label: "grain maize", yieldUnit: "t/ha", per: "t" },
  forageMaize: { label: "forage maize", yieldUnit: "t/ha", per: "t" },
  winterOilseedRape: { label: "winter oilseed rape", yieldUnit: "t/ha", per: "t" },
  springOilseedRape: { label: "spring oilseed rape", yieldUnit: "t/ha", per: "t" },
  sunflower: { label: "sunflowers", yieldUnit: "t/ha", per: "t" },
  linseed: { label: "linseed", yieldUnit: "t/ha", per: "t" },
  grassSilageOneCut: { label: "one-cut grass silage", yieldUnit: "t/ha", per: "t" },
  grassSilageTwoCuts: { label: "two-cut grass silage", yieldUnit: "t/ha", per: "t" },
  grassSilageThreeCuts: { label: "three-cut grass silage", yieldUnit: "t/ha", per: "t" },
  grassSilageFourCuts: { label: "four-cut grass silage", yieldUnit: "t/ha", per: "t" },
  grassSilageSecondCut: { label: "second-cut grass silage", yieldUnit: "t/ha", per: "t" },
  fieldBeans: { label: "field beans", yieldUnit: "t/ha", per: "t" },
  dryBeans: { label: "dry beans", yieldUnit: "t/ha", per: "t" },
  deerTurkeyFoodPlot: { label: "deer and turkey food plot", yieldUnit: "ton/ac", per: "ton" },
  uplandGameFoodPlot: { label: "upland game food plot", yieldUnit: "ton/ac", per: "ton" },
  waterfowlFoodPlot: { label: "waterfowl food plot", yieldUnit: "ton/ac", per: "ton" },
  fishPond: { label: "fish pond", yieldUnit: "ton/ac", per: "ton" },
  turf: { label: "turf", yieldUnit: "ton/ac", per: "ton" },
} as const;
export type CropId = keyof typeof crops;
export const cropIds = Object.keys(crops) as [CropId, ...CropId[]];

/** Crops whose roots house bacteria that take nitrogen from the air. Mixed stands, such as pasture with clover, are not named. */
export const nitrogenFixers: ReadonlySet<CropId> = new Set<CropId>([
  "soybean",
  "alfalfa",
  "snapBean",
  "pea",
  "dryBeans",
  "fieldBeans",
  "clover",
]);

/** Crops whose straw may leave the field beside their grain: rates and sums of removal depend on it. */
export const cereals: ReadonlySet<CropId> = new Set<CropId>([
  "wheat",
  "winterWheat",
  "winterWheatElite",
  "winterWheatFeed",
  "durumWheat",
  "springWheat",
  "winterBarley",
  "springBarley",
  "winterRye",
  "winterTriticale",
  "oats",
]);

/** What becomes of the straw: taken off the field it takes potash along. */
export const strawIds = ["removed", "incorporated"] as const;
export type StrawId = (typeof strawIds)[number];

/**
 * Categories of arable soil: as Poland's soil maps name them by the share of fine particles, and as Britain's guide does by a meter of
 * the profile. Both know a medium one; a guideline reads its own alone. Never read from a texture.
 */
export const soilCategories = {
  veryLight: "very light",
  light: "light",
  medium: "medium",
  heavy: "heavy",
  lightSand: "light sand",
  shallow: "shallow",
  deepClayey: "deep clayey",
  deepSilty: "deep silty",
} as const;
export type SoilCategoryId = keyof typeof soilCategories;
export const soilCategoryIds = Object.keys(soilCategories) as [SoilCategoryId, ...SoilCategoryId[]];

/** The animals whose manure a release table tells apart. */
export const manureSpecies = { cattle: "cattle", poultry: "poultry", swine: "swine", horse: "horses", sheep: "sheep" } as const;
export type ManureSpeciesId = keyof typeof manureSpecies;
export const manureSpeciesIds = Object.keys(manureSpecies) as [ManureSpeciesId, ...ManureSpeciesId[]];

export const textures = {
  sand: "sand",
  loamySand: "loamy sand",
  sandyLoam: "sandy loam",
  loam: "loam",
  siltLoam: "silt loam",
  clayLoam: "clay loam",
  siltyClayLoam: "silty clay loam",
  clay: "clay",
  muck: "muck or peat",
} as const;
export type TextureId = keyof typeof textures;
export const textureIds = Object.keys(textures) as [TextureId, ...TextureId[]];

/** Classes of soil by their humic matter, as southern laboratories report them. Never read from a texture or from organic matter. */
export const soilClasses = { mineral: "mineral", mineralOrganic: "mineral-organic", organic: "organic" } as const;
export type SoilClassId = keyof typeof soilClasses;
export const soilClassIds = Object.keys(soilClasses) as [SoilClassId, ...SoilClassId[]];

/**
 * Measures of what a ton of a liming material is worth. They rest on different sieves, factors and time bases: never equated.
 * `pure` is what pure, fully effective calcium carbonate has in the measure's own unit.
 */
export const limeIndices = {
  limeScore: { label: "lime score", unit: "%", pure: 100 },
  ecce: { label: "ECCE (effective calcium carbonate equivalent)", unit: "%", pure: 100 },
  neutralizingValue: { label: "neutralizing value (as CaO)", unit: "%", pure: 56 },
  calciumOxide: { label: "content of CaO", unit: "%", pure: 56 },
  cce: { label: "CCE (calcium carbonate equivalent)", unit: "%", pure: 100 },
  envNewYork: { label: "ENV of New York (effective neutralizing value, first year)", unit: "%", pure: 100 },
  envIllinoisOneYear: { label: "ENV of Illinois after one year (effective neutralizing value)", unit: "%", pure: 100 },
  envIllinoisFourYears: { label: "ENV of Illinois after four years (effective neutralizing value)", unit: "%", pure: 100 },
  enpMinnesota: { label: "ENP of Minnesota (effective neutralizing power)", unit: "lb/ton", pure: 2000 },
  enpOhio: { label: "ENP of Ohio (effective neutralizing power)", unit: "lb/ton", pure: 2000 },
  // On a calcium basis: pure calcium carbonate has 800 lb in a ton, not 2,000.
  enmMissouri: { label: "ENM of Missouri (effective neutralizing material)", unit: "lb/ton", pure: 800 },
  rnvKentucky: { label: "RNV of Kentucky (relative neutralizing value)", unit: "%", pure: 100 },
  rnvMississippi: { label: "RNV of Mississippi (relative neutralizing value)", unit: "%", pure: 100 },
  eccNebraska: { label: "ECC of Nebraska (effective calcium carbonate)", unit: "%", pure: 100 },
} as const satisfies Record<string, { label: string; unit: "%" | "lb/ton"; pure: number }>;
export type LimeIndexId = keyof typeof limeIndices;
/** The most a supplier can truly state: burnt lime neutralizes 1.78 times as much as calcium carbonate. */
export const mostStated = (index: LimeIndexId): number => (limeIndices[index].unit === "%" ? 180 : limeIndices[index].pure * 1.8);
export const limeIndexIds = Object.keys(limeIndices) as [LimeIndexId, ...LimeIndexId[]];

export const purposes = {
  routine: { label: "routine sampling", short: "routine" },
  phCheck: { label: "pH check", short: "pH check" },
  nitrate: { label: "nitrate sampling", short: "nitrate" },
} as const;
export type PurposeId = keyof typeof purposes;
export const purposeIds = Object.keys(purposes) as [PurposeId, ...PurposeId[]];

/** Does this method measure this analyte at all? */
export const methodMeasures = (method: MethodId, analyte: AnalyteId): boolean =>
  (methods[method].analytes as readonly AnalyteId[]).includes(analyte);

/** The units an analyte may be reported in: its own, and for extracted nutrients the other ways a sheet may print them. */
export const unitsFor = (analyte: AnalyteId): readonly SoilTestUnit[] =>
  analyte === "exchangeableAcidity"
    ? ["meq/100 g", "meq/100 cm3"]
    : analytes[analyte].unit === "ppm"
      ? ["ppm", "mg/l", "lb/ac", "index"]
      : [analytes[analyte].unit];
