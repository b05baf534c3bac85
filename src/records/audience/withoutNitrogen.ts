import { isNitrogenTest, nitrogenTests } from "../../interpretation/nitrogen/nitrateNitrogen.ts";
import type { Analysis } from "../../interpretation/products.ts";
import { convert } from "../../interpretation/units.ts";
import type { AnalyteId } from "../../interpretation/vocabulary.ts";
import type { Application, Farm, FarmProduct, Lab, PlannedCrop, Sampling } from "../model.ts";
import { everyField } from "./everyField.ts";

/** Percent by weight of all that a product brings beside nitrogen; manure's lb per ton as percent. */
const restOf = ({ fertilizer, manure }: FarmProduct): Analysis => {
  if (fertilizer) return { ...fertilizer.analysis, N: 0 };
  return manure ? { N: 0, P2O5: manure.perTon.P2O5 / 20, K2O: manure.perTon.K2O / 20 } : { N: 0 };
};

const holdsNitrogen = ({ fertilizer, manure }: FarmProduct): boolean =>
  fertilizer ? (fertilizer.analysis.N ?? 0) > 0 : manure !== undefined;

/**
 * What was spread without the nitrogen in it. Under the product's own name its analysis, and so its nitrogen, could be looked up: it becomes
 * the pounds of its other nutrients, of a product that is not named. `undefined` where it held nothing else.
 */
const spreadWithout = (a: Application): Application | undefined => {
  if (!holdsNitrogen(a.product)) return a;
  const rest = restOf(a.product);
  const share = Object.values(rest).reduce((sum, percent) => sum + percent, 0);
  if (share === 0) return undefined;
  const analysis = Object.fromEntries(
    Object.entries(rest).map(([nutrient, percent]) => [nutrient, Number(((100 * percent) / share).toFixed(4))]),
  ) as unknown as Analysis;
  const name = "nutrients of a product that also held nitrogen (left out for this reader)";
  const { origin } = a;
  const unit = a.rate.unit === "kg/ha" || a.rate.unit === "t/ha" ? "kg/ha" : "lb/ac";
  const product: FarmProduct = {
    id: "left-out",
    origin,
    product: { kind: "fertilizer", name, analysis: analysis as never },
    fertilizer: { id: "left-out", name, analysis, source: { record: origin } },
  };
  return { ...a, product, volume: undefined, rate: { value: Math.round((convert(a.rate.value, a.rate.unit, unit) * share) / 100), unit } };
};

const starterWithout = (p: PlannedCrop): PlannedCrop => ({
  ...p,
  starter: p.starter && (p.starter.fertilizer.analysis.N ?? 0) > 0 ? undefined : p.starter,
});

/** A laboratory without the packages that test nothing else. */
const labWithout = (lab: Lab): Lab => ({
  ...lab,
  packages: Object.fromEntries(
    Object.entries(lab.packages).filter(
      ([, { measures }]) => !Object.keys(measures).every((analyte) => nitrogenTests.includes(analyte as AnalyteId)),
    ),
  ),
});

/** A sampling without its nitrate; `undefined` where it held nothing else, so that no bag seems to be awaited that was not. */
const testedWithout = (s: Sampling): Sampling | undefined => {
  const composites = s.composites
    .map((c) => ({ ...c, measurements: c.measurements.filter((m) => !isNitrogenTest(m)) }))
    .filter((c, i) => c.measurements.length > 0 || s.composites[i]!.measurements.length === 0);
  if (s.purpose === "nitrate" || composites.length === 0) return undefined;
  const measures = Object.fromEntries(Object.entries(s.measures).filter(([analyte]) => !nitrogenTests.includes(analyte as AnalyteId)));
  return { ...s, composites, lab: labWithout(s.lab), measures, nitrate: undefined };
};

/** No nitrate test, no nitrogen spread, and nothing on the list that holds any, so that no rate, credit or balance of it can be worked out. */
export const withoutNitrogen = (farm: Farm): Farm =>
  everyField(
    { ...farm, products: new Map([...farm.products].filter(([, product]) => !holdsNitrogen(product))) },
    {
      planned: starterWithout,
      sampling: testedWithout,
      crop: (c) => ({ ...c, stand: undefined }),
      application: spreadWithout,
    },
  );
