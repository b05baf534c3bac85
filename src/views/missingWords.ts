import type { AnalyteId } from "../interpretation/vocabulary.ts";
import { analyteInSentence, analytes } from "../interpretation/vocabulary.ts";

const missingLabels: Record<string, string> = {
  cec: "the cation exchange capacity, by the laboratory or in field.yaml",
  crop: "a planned crop in field.yaml",
  yieldGoal: "a yield goal in the plan of field.yaml",
  subsoilPh: "the subsoil pH in field.yaml",
  straw: "straw in the plan of field.yaml: removed or incorporated",
  soilPh: "a soil pH test in water",
  sodium: "a sodium test, in ppm",
  calciumSaturation: "tests of calcium, magnesium, potassium and buffer pH, for the calcium saturation",
  soilCategory: "the soil's category in field.yaml",
  targetPh: "targetPh in field.yaml",
  texture: "the soil texture in field.yaml",
  soilClass: "the soil class in field.yaml: mineral, mineralOrganic or organic",
};

/** What would settle a question, as a person would ask for it. */
export const missingWords = (missing: readonly string[]): string[] =>
  missing.map((id) => missingLabels[id] ?? (id in analytes ? testOf(id as AnalyteId) : id));

/** "a zinc test", "an organic matter test" */
const testOf = (id: AnalyteId): string => {
  const name = analyteInSentence(id);
  return `${/^[aeiou]/.test(name) ? "an" : "a"} ${name} test`;
};
