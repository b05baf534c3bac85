import { expect, it } from "vitest";
import { readFarm } from "../../../src/records/reading/readFarm.ts";
import { samplingFacts } from "../../../src/views/sampling/samplingFacts.ts";
import { samplingView } from "../../../src/views/sampling/samplingView.ts";

const demo = readFarm({ content: "content", library: "content" }).farm!;
const causeway = demo.fields.find((f) => f.id === "causeway")!;
const june = causeway.samplings.find((s) => s.id === "2025-06-11-nitrate")!;

it.each([[1, "1 hour", "1 day"], [2, "2 hours", "2 days"]])("what took %i is told in hours and days", (n, hours, days) =>
  expect(samplingFacts(demo, { ...june, nitrate: { ...june.nitrate!, hoursToLab: n, daysSinceRain: n } })).toEqual(
    expect.arrayContaining([{ term: "Time to the laboratory", value: hours }, { term: "Since heavy rain", value: days }]),
  ));

it.each([[1, "1 core"], [15, "15 cores"], [undefined, "cores not recorded"]])("a bag of %s cores", (cores, words) => {
  const sampling = { ...june, composites: june.composites.map((c) => ({ ...c, cores })) };
  expect(samplingView(demo, { ...causeway, samplings: [sampling] }, sampling).bags[0]!.cores).toBe(words);
});
