import type { UnitChoice } from "../interpretation/unitChoices.ts";
import type { MethodId } from "../interpretation/vocabulary.ts";
import { methodMeasures, methods } from "../interpretation/vocabulary.ts";
import type { NewField } from "./newRecordsField.ts";
import { newField, wrapped } from "./newRecordsField.ts";
import type { NewFile } from "./newRecordsText.ts";
import { scalar } from "./newRecordsText.ts";

/** Extractants by which a laboratory reports phosphorus. */
export const phosphorusMethods = (Object.keys(methods) as MethodId[]).filter((id) => methodMeasures(id, "P"));

export interface NewFarm {
  readonly name: string;
  readonly units: UnitChoice;
  /** ISO 4217. */
  readonly currency: string;
  /** Ids, in order. */
  readonly guidelines: readonly string[];
  readonly lab: { readonly id: string; readonly name: string; readonly extractant: MethodId };
  readonly field: Omit<NewField, "units">;
}

/** A whole farm, as small as one can be: farm.yaml, one laboratory and one field. */
export const newFarm = (farm: NewFarm): NewFile[] => [farmFile(farm), labFile(farm), newField({ ...farm.field, units: farm.units })];

const farmFile = ({ name, units, currency, guidelines }: NewFarm): NewFile => {
  const per = units === "metric" ? "t" : "ton";
  return {
    path: "farm.yaml",
    schema: "farm",
    text: `# The farm, and what is chosen for all of its fields.
# A line that begins with # and a key is optional: take the # away and put your own value in place of the example.
name: ${scalar(name)}
#about: A sentence or two for whoever opens the site.
#address: Where the farm is.
# us (lb/ac, tons, acres), metric (kg/ha, t, ha) or garden (lb per 1,000 sq ft); a field may have units of its own.
units: ${units}
# Three letters, as ISO 4217 writes it. Every price below is in it.
currency: ${currency}
# Published guidelines, in order: the first that can answer a question answers it.
# \`npm run -s interpret -- --guidelines\` lists them.
guidelines: [${guidelines.join(", ")}]
# What the farm can buy or spread, by an id of your own. kind: lime, fertilizer or manure. price: value, per ton
# (2,000 lb), lb, t (1,000 kg) or kg; a liquid with density: { value: 10.67, unit: lb/gal } or kg/l also per gal
# or l. analysis: the guaranteed analysis, percent by weight. A liming material states what its
# label or supplier does, such as cce (calcium carbonate equivalent, percent). Manure: pounds as spread, of
# a liquid also by perThousandGal with its density.${units === "metric" ? " kg/t, times 2, are perTon; kg/m³, times 8.345, are perThousandGal." : ""}
#products:
#  ground-limestone: { kind: lime, name: ground limestone, price: { value: 45, per: ${per} }, stated: { cce: 95 } }
#  potash: { kind: fertilizer, name: "muriate of potash, 0-0-60", price: { value: 450, per: ${per} }, analysis: { N: 0, P2O5: 0, K2O: 60 } }
#  urea: { kind: fertilizer, name: "urea, 46-0-0", price: { value: 560, per: ${per} }, analysis: { N: 46, P2O5: 0, K2O: 0 } }
#  manure: { kind: manure, name: cattle manure, perTon: { N: 11, P2O5: 7, K2O: 11, ammoniumN: 3 }, species: cattle, dryMatter: 25 }
#  slurry: { kind: manure, name: dairy slurry, perThousandGal: { N: 30, P2O5: 14, K2O: 25, ammoniumN: 14 }, density: { value: 8.3, unit: lb/gal } }
`,
  };
};

/** Where the phosphorus extract is not used for potassium as a rule, ammonium acetate is. */
const potassiumMethod = (extractant: MethodId): MethodId => (["bray1", "olsen"].includes(extractant) ? "ammoniumAcetate" : extractant);

const labFile = ({ lab, units }: NewFarm): NewFile => {
  const k = potassiumMethod(lab.extractant);
  return {
    path: `labs/${lab.id}.yaml`,
    schema: "lab",
    text: `# What this laboratory measures and how, by package. Check each line against its sheet: a result is only ever read by
# guidelines made for the same method, finish and unit.
name: ${scalar(lab.name)}
packages:
  routine:
    name: routine soil test
    # What one bag costs, in the farm's currency.
    #fee: 18
    # method: ${wrapped(Object.keys(methods), "    ")}.
    # finish: icp or colorimetric, where it matters. unit: ppm (mg/kg), mg/l, lb/ac, meq/100 g, %, pH ...
    measures:
      pH: { method: water1to1, unit: pH }
      #bufferPh: { method: sikora, unit: pH }
      P: { method: ${lab.extractant}, ${lab.extractant === "mehlich3" ? "finish: icp, " : ""}unit: ppm }
      K: { method: ${k}, ${k === "mehlich3" ? "finish: icp, " : ""}unit: ppm }
      #organicMatter: { method: lossOnIgnition, unit: "%" }
      #cec: { method: cationSum, unit: meq/100 g }
  # A package may be as small as one analyte.
  ph-check:
    name: soil pH only
    measures:
      pH: { method: water1to1, unit: pH }
  nitrate:
    name: nitrate nitrogen
    measures:
      nitrateN: { method: potassiumChloride, unit: ppm }
# How the laboratory's file of results is written, for \`npm run import\`: each column by its header, with its unit or without.
# date: dayMonthYear, monthDayYear or yearMonthDay. decimal: point or comma. A column that is not wanted is ignored.
#resultFile:
#  decimal: point
#  missing: [n/a]
#  columns:
#    Label: label
#    Sampled: { date: ${units === "us" || units === "garden" ? "monthDayYear" : "dayMonthYear"} }
#    pH: { analyte: pH }
#    Phosphorus: { analyte: P }
#    Potassium: { analyte: K }
#    Invoice: ignore
`,
  };
};
