import { expect, it } from "vitest";
import { missingWords } from "../../../src/views/advice/missingWords.ts";

it.each([
  ["Zn", "a zinc test"],
  ["organicMatter", "an organic matter test"],
  ["Fe", "an iron test"],
  ["calciumSaturation", "tests of calcium, magnesium, potassium and buffer pH, for the calcium saturation"],
  ["standPercent", "the legume stand"],
  ["nitrateN as a number", "nitrate-N as a number"],
  ["K by Mehlich-3", "potassium by Mehlich-3"],
  ["pH in 1:2.5 water", "soil pH in 1:2.5 water"],
  ["exchangeableAcidity by Mehlich buffer in meq/100 g", "exchangeable acidity by Mehlich buffer in meq/100 g"],
  ["a guideline that rates bufferPh", "a guideline that rates buffer pH"],
  ["limeScore of quarry-lime", "lime score of the material"],
  ["neutralizingValue of lime-2", "neutralizing value (as CaO) of the material"],
  ["passing 60 mesh", "the share passing 60 mesh"],
  ["texture and organicMatter that agree", "texture and organic matter that agree"],
  ["soilCategory and texture that agree", "soil category and texture that agree"],
  ["a lime formula for soil pH 6.8", "a lime formula for soil pH 6.8"],
  ["the quality of lime that Vermont means", "the quality of lime that Vermont means"],
  ["a nitrate test where the height of the crop is 6 to 12 in", "a nitrate test where the height of the crop is 6 to 12 in"],
])("asks for %s in words: %s", (id, words) => expect(missingWords([id])).toEqual([words]));

it("says where else a fact is recorded", () => expect(missingWords(["species", "cec"], { species: "the species of the manure in farm.yaml" })).toEqual(["the species of the manure in farm.yaml", "the cation exchange capacity, by the laboratory or in field.yaml"]));
