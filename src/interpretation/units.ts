/**
 * Units of amounts, rates, lengths and areas, and the only place where one is turned into another.
 * Factors are exact by definition: 1 lb = 0.45359237 kg, 1 in = 2.54 cm, 1 acre = 43,560 sq ft,
 * 1 ft = 0.3048 m, 1 US gallon = 231 cubic inches; the ton is the US short ton of 2,000 lb and `t` the tonne of 1,000 kg.
 */
const kgPerPound = 0.45359237;
const squareMetersPerSquareFoot = 0.3048 ** 2;
const squareMetersPerAcre = 43_560 * squareMetersPerSquareFoot;

/** Each unit's dimension and its size in that dimension's base unit (kg/m², m, m², bushel/m², l, kg/l, l/m², kg/kg). */
const table = {
  "lb/ac": { dimension: "mass per area", size: kgPerPound / squareMetersPerAcre },
  "kg/ha": { dimension: "mass per area", size: 1 / 10_000 },
  "ton/ac": { dimension: "mass per area", size: (2000 * kgPerPound) / squareMetersPerAcre },
  "t/ha": { dimension: "mass per area", size: 1000 / 10_000 },
  "lb/1000 sq ft": { dimension: "mass per area", size: kgPerPound / (1000 * squareMetersPerSquareFoot) },
  "bu/ac": { dimension: "bushels per area", size: 1 / squareMetersPerAcre },
  in: { dimension: "length", size: 0.0254 },
  cm: { dimension: "length", size: 0.01 },
  ft: { dimension: "length", size: 0.3048 },
  m: { dimension: "length", size: 1 },
  acre: { dimension: "area", size: squareMetersPerAcre },
  ha: { dimension: "area", size: 10_000 },
  "sq m": { dimension: "area", size: 1 },
  "sq ft": { dimension: "area", size: squareMetersPerSquareFoot },
  "1000 sq ft": { dimension: "area", size: 1000 * squareMetersPerSquareFoot },
  lb: { dimension: "mass", size: kgPerPound },
  kg: { dimension: "mass", size: 1 },
  ton: { dimension: "mass", size: 2000 * kgPerPound },
  t: { dimension: "mass", size: 1000 },
  gal: { dimension: "volume", size: 3.785411784 },
  l: { dimension: "volume", size: 1 },
  m3: { dimension: "volume", size: 1000 },
  "lb/gal": { dimension: "mass per volume", size: kgPerPound / 3.785411784 },
  "kg/l": { dimension: "mass per volume", size: 1 },
  "lb/1000 gal": { dimension: "mass per volume", size: kgPerPound / 3785.411784 },
  "kg/m3": { dimension: "mass per volume", size: 1 / 1000 },
  "lb/ton": { dimension: "mass per mass", size: 1 / 2000 },
  "kg/t": { dimension: "mass per mass", size: 1 / 1000 },
  "gal/ac": { dimension: "volume per area", size: 3.785411784 / squareMetersPerAcre },
  "1000 gal/ac": { dimension: "volume per area", size: 3785.411784 / squareMetersPerAcre },
  "l/ha": { dimension: "volume per area", size: 1 / 10_000 },
  "m3/ha": { dimension: "volume per area", size: 1000 / 10_000 },
  "gal/1000 sq ft": { dimension: "volume per area", size: 3.785411784 / (1000 * squareMetersPerSquareFoot) },
} as const;

export type Unit = keyof typeof table;
export type RateUnit = "lb/ac" | "kg/ha" | "ton/ac" | "t/ha" | "lb/1000 sq ft";
export type VolumeRateUnit = "gal/ac" | "l/ha" | "m3/ha" | "gal/1000 sq ft";
export type YieldUnit = "bu/ac" | "ton/ac" | "t/ha" | "lb/ac" | "kg/ha" | "lb/1000 sq ft";
export type LengthUnit = "in" | "cm";
export const rateUnits = ["lb/ac", "kg/ha", "ton/ac", "t/ha", "lb/1000 sq ft"] as const satisfies readonly RateUnit[];
export const volumeRateUnits = ["gal/ac", "l/ha", "m3/ha", "gal/1000 sq ft"] as const satisfies readonly VolumeRateUnit[];
export const yieldUnits = ["bu/ac", "ton/ac", "t/ha", "lb/ac", "kg/ha", "lb/1000 sq ft"] as const satisfies readonly YieldUnit[];
export const lengthUnits = ["in", "cm"] as const satisfies readonly LengthUnit[];

export interface Amount<U extends string = string> {
  readonly value: number;
  readonly unit: U;
}

/** A unit as it is read: records write m3, because few keyboards have a raised 3; and "2.5 1000 gal/ac" would be read as one number. */
export const unitWords = (unit: string): string => unit.replace("m3", "m³").replace("1000 gal", "thousand gal");

export const sameDimension = (from: Unit, to: Unit): boolean => table[from].dimension === table[to].dimension;

/**
 * Turn `value` from one unit into another of the same dimension.
 * Throws for unlike dimensions: a bushel has no mass until a crop is named, so that is our bug, not the user's.
 */
export const convert = (value: number, from: Unit, to: Unit): number => {
  if (from === to) return value;
  if (!sameDimension(from, to)) throw new Error(`no conversion from ${from} to ${to}`);
  return (value * table[from].size) / table[to].size;
};

const massRateOf = { "gal/ac": "lb/ac", "l/ha": "kg/ha", "m3/ha": "t/ha", "gal/1000 sq ft": "lb/1000 sq ft" } as const satisfies Record<
  VolumeRateUnit,
  RateUnit
>;

/** What a liquid spread by volume weighs, in the units of the same system: 25 gal/ac at 10.67 lb/gal are 266.75 lb/ac. */
export const massRate = ({ value, unit }: Amount<VolumeRateUnit>, poundsPerGallon: number): Amount<RateUnit> => {
  const pounds = convert(value, unit, "gal/ac") * poundsPerGallon;
  return { value: convert(pounds, "lb/ac", massRateOf[unit]), unit: massRateOf[unit] };
};

/** Atomic weights: IUPAC/CIAAW abridged values, as listed by NIST to the figures used here. */
const weight = { N: 14.007, O: 15.999, Na: 22.99, Mg: 24.305, P: 30.974, S: 32.06, K: 39.098, Ca: 40.078 } as const;

/** P to P2O5 (2.2914), K to K2O (1.2046), Mg to MgO (1.6583) and S to SO3 (2.4972), from atomic weights; printed in bulletins as 2.29, 1.2, 1.66 and 2.5. */
export const oxidePerElement = {
  P2O5: (2 * weight.P + 5 * weight.O) / (2 * weight.P),
  K2O: (2 * weight.K + weight.O) / (2 * weight.K),
  MgO: (weight.Mg + weight.O) / weight.Mg,
  SO3: (weight.S + 3 * weight.O) / weight.S,
} as const;

/** The share of nitrogen in nitrate (0.2259), from atomic weights: 30 of nitrate hold 6.78 of nitrate-N. */
export const nitrogenInNitrate = weight.N / (weight.N + 3 * weight.O);

/**
 * Units in which laboratories write soil tests, by dimension and size. Within one dimension they are one another by
 * definition: 1 mg/kg is 1 ppm by mass, 1 cmol of charge a kilogram is 1 meq/100 g, 1 mmho/cm is 1 dS/m. Between a mass of
 * soil, a volume of it and an acre there is no exact way: each asks for a density or a depth that was not measured.
 */
const writtenUnits = {
  pH: { dimension: "pH", size: 1 },
  index: { dimension: "index", size: 1 },
  ppm: { dimension: "share of mass", size: 1 },
  "mg/kg": { dimension: "share of mass", size: 1 },
  "mg/100 g": { dimension: "share of mass", size: 10 },
  "g/kg": { dimension: "share of mass", size: 1000 },
  "%": { dimension: "share of mass", size: 10_000 },
  "mg/l": { dimension: "mass per volume", size: 1 },
  "mg/100 ml": { dimension: "mass per volume", size: 10 },
  "lb/ac": { dimension: "mass per area", size: kgPerPound / squareMetersPerAcre },
  "kg/ha": { dimension: "mass per area", size: 1 / 10_000 },
  "meq/100 g": { dimension: "charge per mass", size: 10 },
  "cmol/kg": { dimension: "charge per mass", size: 10 },
  "meq/100 cm3": { dimension: "charge per volume", size: 1 },
  "dS/m": { dimension: "conductivity", size: 1000 },
  "mS/cm": { dimension: "conductivity", size: 1000 },
  "mmho/cm": { dimension: "conductivity", size: 1000 },
  "uS/cm": { dimension: "conductivity", size: 1 },
} as const;
export type WrittenUnit = keyof typeof writtenUnits;
export const writtenUnitIds = Object.keys(writtenUnits) as [WrittenUnit, ...WrittenUnit[]];

/** A soil test in another unit of the same dimension, to twelve digits; `undefined` where the two are not one by definition. */
export const convertWritten = (value: number, from: WrittenUnit, to: WrittenUnit): number | undefined => {
  if (from === to) return value;
  if (writtenUnits[from].dimension !== writtenUnits[to].dimension) return undefined;
  return Number(((value * writtenUnits[from].size) / writtenUnits[to].size).toPrecision(12));
};

/** Milligrams of a cation that bear one milliequivalent of charge, from atomic weights. */
const equivalent: Readonly<Record<string, number>> = { Ca: weight.Ca / 2, Mg: weight.Mg / 2, K: weight.K, Na: weight.Na };
const massOfCharge: Readonly<Record<string, WrittenUnit>> = { "charge per mass": "mg/100 g", "charge per volume": "mg/100 ml" };

/**
 * A cation that a laboratory writes by its charge, as mass: 1 meq/100 g of K is 391 ppm. To four figures, which are more than any extract is
 * good for; `undefined` for what is no cation or was not written by its charge.
 */
export const cationMass = (analyte: string, value: number, from: WrittenUnit, to: WrittenUnit): number | undefined => {
  const [perMeq, mass] = [equivalent[analyte], massOfCharge[writtenUnits[from].dimension]];
  if (perMeq === undefined || mass === undefined) return undefined;
  const milliequivalents = convertWritten(value, from, mass === "mg/100 g" ? "meq/100 g" : "meq/100 cm3");
  const found = milliequivalents === undefined ? undefined : convertWritten(milliequivalents * perMeq, mass, to);
  return found === undefined ? undefined : Number(found.toPrecision(4));
};
