import { factLabel, nitrateNumbers, nitrateWords } from "../../interpretation/rules/nitrateFacts.ts";
import type { NitrateFact } from "../../interpretation/rules/nitrateFacts.ts";
import type { AnalyteId, LimeIndexId } from "../../interpretation/vocabulary.ts";
import { analyteInSentence, analytes, limeIndices } from "../../interpretation/vocabulary.ts";

/** Where a field's own records hold what a rule asks for. */
const inTheRecords: Readonly<Record<string, string>> = {
  cec: "the cation exchange capacity, by the laboratory or in field.yaml",
  crop: "a planned crop in field.yaml",
  yieldGoal: "a yield goal in the plan of field.yaml",
  subsoilPh: "the subsoil pH in field.yaml",
  straw: "straw in the plan of field.yaml: removed or incorporated",
  soilPh: "a soil pH test in water",
  sodium: "a sodium test, in ppm",
  sodiumByVolume: "a sodium test, in mg/l",
  calciumSaturation: "tests of calcium, magnesium, potassium and buffer pH, for the calcium saturation",
  soilCategory: "the soil's category in field.yaml",
  targetPh: "targetPh in field.yaml",
  texture: "the soil texture in field.yaml",
  soilClass: "the soil class in field.yaml: mineral, mineralOrganic or organic",
};

/** "a zinc test", "an organic matter test" */
const testOf = (id: AnalyteId): string => {
  const name = analyteInSentence(id);
  return `${/^[aeiou]/.test(name) ? "an" : "a"} ${name} test`;
};

const nameOf = (id: string): string => (id in analytes ? analyteInSentence(id as AnalyteId) : id);

/** "potassium by Mehlich-3" of "K by Mehlich-3", "texture and organic matter that agree": a reader knows the names, and no ids. */
const withoutIds = (words: string): string =>
  words
    .replace(/^(\w+) of .*$/, (all, id: string) => (id in limeIndices ? `${limeIndices[id as LimeIndexId].label} of the material` : all))
    .replace(/^passing /, "the share passing ")
    .replace(/^\w+(?= (as|by|in|on) )|(?<= that rates )\w+$/, nameOf)
    .replace(/\b(organic|soil)(Matter|Class|Category)\b/g, (_, first: string, second: string) => `${first} ${second.toLowerCase()}`);

/** What would settle a question, as a person would ask for it. `places` says where else than in field.yaml a fact is recorded. */
export const missingWords = (missing: readonly string[], places: Readonly<Record<string, string>> = {}): string[] =>
  missing.map((id) => {
    const place = places[id] ?? inTheRecords[id];
    if (place !== undefined) return place;
    if (id in analytes) return testOf(id as AnalyteId);
    return id in nitrateNumbers || id in nitrateWords ? factLabel(id as NitrateFact) : withoutIds(id);
  });
