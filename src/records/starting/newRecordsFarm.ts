import type { Guideline } from "../../interpretation/guideline.ts";
import { plain } from "../../interpretation/show.ts";
import type { UnitChoice } from "../../interpretation/unitChoices.ts";
import { oxidePerElement } from "../../interpretation/units.ts";
import type { AnalyteId, MethodId } from "../../interpretation/vocabulary.ts";
import { analytes, limeIndices, methodMeasures, methods } from "../../interpretation/vocabulary.ts";
import type { WayRead } from "../../interpretation/waysRead.ts";
import { waysRead } from "../../interpretation/waysRead.ts";
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
  /** In order. */
  readonly guidelines: readonly Guideline[];
  readonly lab: { readonly id: string; readonly name: string; readonly extractant: MethodId };
  readonly field: Omit<NewField, "units">;
}

/** A whole farm, as small as one can be: farm.yaml, one laboratory and one field. */
export const newFarm = (farm: NewFarm): NewFile[] => [farmFile(farm), labFile(farm), newField({ ...farm.field, units: farm.units })];

const farmFile = ({ name, units, currency, guidelines }: NewFarm): NewFile => {
  const per = units === "metric" ? "t" : "ton";
  const manure =
    units === "metric"
      ? {
          solid: "perTonne: { N: 5.5, P2O5: 3.5, K2O: 5.5, ammoniumN: 1.5 }",
          liquid: "perCubicMeter: { N: 3.6, P2O5: 1.7, K2O: 3, ammoniumN: 1.7 }, density: { value: 1, unit: kg/l }",
        }
      : {
          solid: "perTon: { N: 11, P2O5: 7, K2O: 11, ammoniumN: 3 }",
          liquid: "perThousandGal: { N: 30, P2O5: 14, K2O: 25, ammoniumN: 14 }, density: { value: 8.3, unit: lb/gal }",
        };
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
guidelines: [${guidelines.map((g) => g.id).join(", ")}]
# What the farm can buy or spread, by an id of your own. kind: lime, fertilizer or manure. price: value, per ton
# (2,000 lb), lb, t (1,000 kg) or kg; a liquid with density: { value: 10.67, unit: lb/gal } or kg/l also per gal
# or l. analysis: the guaranteed analysis, percent by weight. A liming material states what its
# label or supplier does, such as cce (calcium carbonate equivalent, percent). Manure: its analysis as spread, by
# the one measure that its laboratory prints: perTonne (kg/t), perTon (lb per US ton), or of a liquid with density
# perCubicMeter (kg/m³) or perThousandGal (lb per 1,000 US gallons); with P and K in place of P2O5 and K2O where its sheet states elements.
#products:
#  ground-limestone: { kind: lime, name: ground limestone, price: { value: 45, per: ${per} }, stated: { ${limeIndex(guidelines)} } }
#  potash: { kind: fertilizer, name: "muriate of potash, 0-0-60", price: { value: 450, per: ${per} }, analysis: { N: 0, P2O5: 0, K2O: 60 } }
#  urea: { kind: fertilizer, name: "urea, 46-0-0", price: { value: 560, per: ${per} }, analysis: { N: 46, P2O5: 0, K2O: 0 } }
#  manure: { kind: manure, name: cattle manure, ${manure.solid}, species: cattle, dryMatter: 25 }
#  slurry: { kind: manure, name: dairy slurry, ${manure.liquid} }
`,
  };
};

/** What a limestone is stated by: the measure of the first of the guidelines that has a lime rate, a tenth below the pure. */
const limeIndex = (packs: readonly Guideline[]): string => {
  const index = packs.flatMap((p) => p.sections.flatMap((s) => ("material" in s && s.material ? [s.material.index] : [])))[0];
  return index === undefined ? "cce: 95" : `${index}: ${Math.floor(limeIndices[index].pure * 0.9)}`;
};

/** By what the first of the guidelines that read phosphorus reads it, be it only for a limit that a law sets. */
export const phosphorusReadBy = (packs: readonly Guideline[]): MethodId | undefined =>
  [...packs.flatMap((p) => waysRead(p, "P")), ...packs.flatMap((p) => p.environmentalLimits ?? [])][0]?.method;

/** Extractants of laboratories in Germany and its neighbors, which measure pH in calcium chloride and print oxides in 100 g. */
const lactates: ReadonlySet<MethodId> = new Set(["calciumAcetateLactate", "doubleLactate", "electroUltrafiltration"]);

/** The way of the first of the guidelines that read the analyte, by that method if one is given; with a choice of finish, ICP. */
const readAs = (packs: readonly Guideline[], analyte: AnalyteId, method?: MethodId): WayRead | undefined => {
  const ways = packs
    .map((p) => waysRead(p, analyte).filter((w) => w.preparation !== "moist" && (method ?? w.method) === w.method))
    .find((w) => w.length > 0);
  return ways?.find((w) => w.method === ways[0]!.method && w.finish === "icp") ?? ways?.[0];
};

/** How an analyte is measured, as YAML: as the guidelines read it by that method, else as is usual. */
const measuring = (packs: readonly Guideline[], analyte: AnalyteId, method: MethodId): string => {
  const read = readAs(packs, analyte, method);
  const finish = read?.finish ?? (method === "mehlich3" ? "icp" : undefined);
  return `{ method: ${method}, ${finish ? `finish: ${finish}, ` : ""}unit: ${read?.unit ?? analytes[analyte].unit} }`;
};

/** Where the phosphorus extract is not used for potassium as a rule, what the guidelines read is, or else ammonium acetate. */
const potassiumMethod = (packs: readonly Guideline[], extractant: MethodId): MethodId => {
  if (readAs(packs, "K", extractant) || !["bray1", "olsen"].includes(extractant)) return extractant;
  return readAs(packs, "K")?.method ?? "ammoniumAcetate";
};

/** Further tests that the guidelines read, a line each. */
const others = (packs: readonly Guideline[]): string =>
  (["exchangeableAcidity", "Ca", "Mg", "S", "Na", "Al", "Zn", "B", "Mn", "Cu"] as const)
    .map((analyte) => {
      const read = readAs(packs, analyte);
      return read ? `      #${analyte}: ${measuring(packs, analyte, read.method)}\n` : "";
    })
    .join("");

const labFile = ({ lab, units, guidelines }: NewFarm): NewFile => {
  const as = (analyte: AnalyteId, usual: MethodId): string => measuring(guidelines, analyte, readAs(guidelines, analyte)?.method ?? usual);
  const mineral = readAs(guidelines, "nitrateN") ? undefined : readAs(guidelines, "mineralN");
  const byLactate = lactates.has(lab.extractant);
  const pH = as("pH", byLactate ? "calciumChloride" : "water1to1");
  const [ofP, ofK] = [oxidePerElement.P2O5, oxidePerElement.K2O].map((oxide) => plain(10 / oxide, 2));
  const buffer = units !== "metric" || readAs(guidelines, "bufferPh") ? `      #bufferPh: ${as("bufferPh", "sikora")}\n` : "";
  return {
    path: `labs/${lab.id}.yaml`,
    schema: "lab",
    text: `# What this laboratory measures and how, by package. A result is only ever read by guidelines made for the same method,
# finish and unit. So methods and units stand here as your guidelines read them, as far as they do. Check each line
# against the laboratory's sheet and put what it really does.
name: ${scalar(lab.name)}
packages:
  routine:
    name: routine soil test
    # What one bag costs, in the farm's currency.
    #fee: 18
    # method: ${wrapped(Object.keys(methods), "    ")}.
    # finish: icp or colorimetric, where it matters. unit: ppm (mg/kg), mg/l, lb/ac, meq/100 g, %, pH ...
${byLactate ? `    # Results are of the element: where the sheet counts oxides, 1 mg of P2O5 in 100 g is ${ofP} ppm of P, and of K2O ${ofK} ppm of K.\n` : ""}    measures:
      pH: ${pH}
${buffer}      P: ${measuring(guidelines, "P", lab.extractant)}
      K: ${measuring(guidelines, "K", potassiumMethod(guidelines, lab.extractant))}
${others(guidelines)}      #organicMatter: { method: lossOnIgnition, unit: "%" }
      #cec: { method: cationSum, unit: meq/100 g }
  # A package may be as small as one analyte.
  ph-check:
    name: soil pH only
    measures:
      pH: ${pH}
  nitrate:
    name: ${mineral ? "mineral nitrogen, the sum of the layers" : "nitrate nitrogen"}
    measures:
      ${mineral ? `mineralN: ${measuring(guidelines, "mineralN", mineral.method)}` : `nitrateN: ${as("nitrateN", "potassiumChloride")}`}
# How the laboratory's file of results is written, for \`npm run import\`: each column by its header, with its unit or without.
# date: dayMonthYear, monthDayYear or yearMonthDay. decimal: point or comma. A column that is not wanted is ignored.
# A day that is not of the sampling says of: receipt or of: report; report is what the laboratory calls its report.
#resultFile:
#  decimal: ${byLactate ? "comma" : "point"}
#  missing: [n/a]
#  columns:
#    Label: label
#    Sampled: { date: ${units === "us" || units === "garden" ? "monthDayYear" : "dayMonthYear"} }
#    Reported: { date: ${units === "us" || units === "garden" ? "monthDayYear" : "dayMonthYear"}, of: report }
#    Report: report
#    pH: { analyte: pH }
${byLactate ? "#    P2O5: { analyte: P, unit: mg/100 g, as: P2O5 }\n#    K2O: { analyte: K, unit: mg/100 g, as: K2O }" : "#    Phosphorus: { analyte: P }\n#    Potassium: { analyte: K }"}
#    Invoice: ignore
`,
  };
};
