import { compareNames } from "../nameOrder.ts";

/** Where a definition comes from. None is copied from a publication; a guideline that means something else by a word says so on its page. */
export const glossarySources = {
  trade: "common practice",
  site: "as this site uses the word",
  arithmetic: "arithmetic, from atomic masses",
} as const;

export interface GlossaryTerm {
  /** Its anchor. */
  readonly id: string;
  readonly term: string;
  /** Other words that it is looked for by. */
  readonly also?: string;
  readonly text: string;
  readonly source: keyof typeof glossarySources;
}

const terms: readonly GlossaryTerm[] = [
  {
    id: "ammonium-acetate",
    term: "Ammonium acetate",
    text: "A solution that laboratories shake with soil to extract potassium, calcium and magnesium. Its numbers must not be read with classes made for another extractant.",
    source: "trade",
  },
  {
    id: "balance",
    term: "Balance of nutrients",
    also: "applied removed budget",
    text: "What was spread less what the harvest took away, of one nutrient by weight. It says which way a field's store is pushed. It does not forecast a soil test.",
    source: "site",
  },
  {
    id: "band",
    term: "Band or class",
    also: "rating low optimal deficient sufficient",
    text: "A range of test results to which a guideline gives one name, such as low, optimal or deficient. The limits and names differ from guideline to guideline.",
    source: "trade",
  },
  {
    id: "base-saturation",
    term: "Base saturation",
    text: "The share of the soil's cation exchange capacity that is taken up by calcium, magnesium, potassium and sodium, in percent.",
    source: "trade",
  },
  {
    id: "buffer-ph",
    term: "Buffer pH",
    also: "Sikora SMP Mehlich Adams-Evans",
    text: "The pH of soil stirred with a solution that resists change. It shows how much acid the soil holds in reserve, and so how much lime it takes. Soil pH says whether to lime, buffer pH how much.",
    source: "trade",
  },
  {
    id: "build-up",
    term: "Build-up",
    text: "Fertilizer beyond what the crop removes, to raise a soil test that is below the critical level over some years.",
    source: "trade",
  },
  {
    id: "carbonate-equivalent",
    term: "Calcium carbonate equivalent",
    also: "CCE",
    text: "How much acid a liming material can neutralize, with pure calcium carbonate as 100 percent. It does not say how fast: that depends on how finely the material is ground.",
    source: "trade",
  },
  {
    id: "cec",
    term: "Cation exchange capacity",
    also: "CEC meq",
    text: "How many positively charged nutrients, such as potassium and calcium, the soil can hold and give back. Clay and organic matter have much of it, sand has little. It changes slowly.",
    source: "trade",
  },
  {
    id: "comparable",
    term: "Comparable results",
    also: "series",
    text: "Results that differ only in their day: same test, method, depth and preparation, and for pH and potassium the same season. Only such results are joined by a line or called a change.",
    source: "site",
  },
  {
    id: "composite",
    term: "Composite",
    also: "bag sample",
    text: "Soil from many cores of one zone, mixed in one bag. The laboratory tests the mixture, so that one result stands for the zone.",
    source: "trade",
  },
  {
    id: "core",
    term: "Core",
    also: "probe",
    text: "One plug of soil, taken with a probe to a set depth. More cores in a bag make its result stray less.",
    source: "trade",
  },
  {
    id: "correction",
    term: "Correction",
    text: "A wrong result is never overwritten. The new value is recorded beside the old one with the reason and the day, and both are shown.",
    source: "site",
  },
  {
    id: "critical-level",
    term: "Critical level",
    text: "The soil test below which a crop is likely to yield less for want of the nutrient. Guidelines place it differently, some at the bottom and some at the top of their optimal class.",
    source: "trade",
  },
  {
    id: "depth",
    term: "Depth of sampling",
    text: "How deep the cores were taken. Nutrients and pH change with depth, so results from different depths must not be compared.",
    source: "trade",
  },
  {
    id: "drawdown",
    term: "Drawdown",
    text: "Spreading less than the crop removes, or nothing, where a soil test is high, so that the store is used.",
    source: "trade",
  },
  {
    id: "duplicate",
    term: "Duplicate bags",
    text: "Two bags taken from one zone on one day. How far their results lie apart shows how much a single result strays by itself.",
    source: "trade",
  },
  {
    id: "effective-lime",
    term: "Effective value of lime",
    also: "ENV ECCE ECC ENP ENM RNV lime score",
    text: "What a liming material is worth by weight once its purity, its fineness and, in some places, its moisture are counted. Each state has its own measure, such as ECCE or ENV. They rest on different sieves and years, so one must not be put in place of another.",
    source: "trade",
  },
  {
    id: "evidence",
    term: "Evidence",
    also: "mark read derived secondary memory",
    text: "A mark beside each published value: read in the publication itself, worked out from published figures, read in another text, or from memory. The last two are not yet checked against the publication.",
    source: "site",
  },
  {
    id: "extractable",
    term: "Extractable and total",
    also: "extractant available",
    text: "A soil test measures what a solution draws out in some minutes, a measure of what plants can reach. The total amount in the soil is many times larger and says little about fertilizer.",
    source: "trade",
  },
  {
    id: "extractant",
    term: "Extractant",
    text: "The solution that a laboratory shakes with the soil, such as Mehlich-3, Bray P1, Olsen or Morgan. Different extractants give different numbers for the same soil.",
    source: "trade",
  },
  {
    id: "guaranteed-analysis",
    term: "Guaranteed analysis",
    also: "grade 0-0-60 0-46-0",
    text: "The numbers on a fertilizer's label: percent by weight of nitrogen, phosphate and potash. 0-0-60 holds 60 percent potash.",
    source: "trade",
  },
  {
    id: "guideline",
    term: "Guideline",
    text: "Published rules that turn a soil test into a class or a rate, with the crops, methods and depths they hold for. This site keeps them as data with a source for each value.",
    source: "site",
  },
  {
    id: "lime-requirement",
    term: "Lime requirement",
    text: "The amount of pure or standard lime that brings the soil to the wanted pH, before it is adjusted for the depth and for the farm's own material.",
    source: "trade",
  },
  {
    id: "maintenance",
    term: "Maintenance",
    also: "maintenance limit",
    text: "Spreading about as much as the crop removes, so that a good soil test stays where it is. Above the maintenance limit of a guideline nothing is spread.",
    source: "trade",
  },
  {
    id: "mehlich-3",
    term: "Mehlich-3",
    text: "An acid extractant that serves for phosphorus, potassium and most other nutrients at once. Phosphorus read by ICP comes out higher than by color, so the way of reading is part of the method.",
    source: "trade",
  },
  {
    id: "mineral-nitrogen",
    term: "Mineral nitrogen",
    also: "Nmin SMN SNS soil nitrogen supply spring",
    text: "Nitrate and ammonium to the depth of roots, in kg/ha, before nitrogen is spread in spring. Germany takes it off the crop's need; Britain adds what the crop holds and humus may release, and calls the sum the soil nitrogen supply.",
    source: "trade",
  },
  {
    id: "nitrate-test",
    term: "Nitrate test",
    also: "June sidedress presidedress nitrogen",
    text: "Nitrate-nitrogen in the upper soil in early summer, deeper than a full sampling goes. It tells how much nitrogen the soil has given so far, and so whether the crop needs more. It holds for that season alone.",
    source: "trade",
  },
  {
    id: "noise",
    term: "Noise",
    text: "How far two results from one unchanged soil lie apart, because cores hit different spots and laboratories are not exact. A change smaller than the noise is not called a change.",
    source: "site",
  },
  {
    id: "organic-matter",
    term: "Organic matter",
    text: "The part of the soil that comes from living things, in percent by weight. It holds water and nutrients and gives off nitrogen as it decays.",
    source: "trade",
  },
  {
    id: "ph",
    term: "Soil pH",
    also: "acidity",
    text: "How acid the soil is: 7 is neutral, and one unit less is ten times more acid. pH moves with the season by a few tenths, so samplings are best taken in the same season.",
    source: "trade",
  },
  {
    id: "phosphate",
    term: "Phosphate and phosphorus",
    also: "P2O5 P₂O₅ P",
    text: "Soil tests report the element phosphorus (P). Fertilizers and rates are by custom given as phosphate (P₂O₅), which weighs 2.29 times as much for the same phosphorus.",
    source: "arithmetic",
  },
  {
    id: "potash",
    term: "Potash and potassium",
    also: "K2O K₂O K",
    text: "Soil tests report the element potassium (K). Fertilizers and rates are by custom given as potash (K₂O), which weighs 1.20 times as much for the same potassium.",
    source: "arithmetic",
  },
  {
    id: "ppm",
    term: "Parts per million",
    also: "ppm mg/kg",
    text: "Milligrams in a kilogram of soil. It is no amount for an area: that depends on the depth and on how heavy the soil is.",
    source: "arithmetic",
  },
  {
    id: "rate",
    term: "Rate",
    text: "How much to spread on a given area. A rate on this site is a reading of a guideline, not a permit.",
    source: "site",
  },
  {
    id: "removal",
    term: "Removal",
    text: "The nutrients that leave the field with the harvest: the yield times a published amount in each unit of it.",
    source: "trade",
  },
  {
    id: "sampling",
    term: "Sampling",
    also: "routine full sampling pH check event",
    text: "One day's soil taken from a field. A full or routine sampling tests everything in every zone; a pH check tests pH alone, between two full samplings.",
    source: "site",
  },
  {
    id: "seal",
    term: "Seal of advice",
    also: "fingerprint issued recommendation",
    text: "A number worked out from every letter of advice as it was issued. If one letter is changed later, the number no longer fits and the site is not built.",
    source: "site",
  },
  {
    id: "target-ph",
    term: "Target pH",
    text: "The pH to lime up to, chosen for the most demanding crop of the rotation.",
    source: "trade",
  },
  {
    id: "trend",
    term: "Trend",
    text: "A rise or fall over five or more comparable samplings that chance alone would seldom make. With fewer samplings the site gives the change against the noise and says what is missing.",
    source: "site",
  },
  {
    id: "yield-goal",
    term: "Yield goal",
    text: "The harvest that is planned for. Where a rate counts what the crop removes, a higher goal means a higher rate.",
    source: "trade",
  },
  {
    id: "zone",
    term: "Zone",
    also: "area of a field",
    text: "A part of a field that is sampled, tested and treated as one soil. It has a letter, a name and, where it was mapped, a boundary.",
    source: "site",
  },
];

/** The words that a landlord or a lender may not know, one place for the whole site, in the order of the alphabet. */
export const glossary: readonly GlossaryTerm[] = [...terms].sort((a, b) => compareNames(a.term, b.term));

/** The anchor of a term, for a link from the first place where it is used. Throws on a term that is not explained: a page must not lead nowhere. */
export const glossaryAnchor = (id: string): string => {
  if (!glossary.some((t) => t.id === id)) throw new Error(`the glossary has no term ${id}`);
  return id;
};
