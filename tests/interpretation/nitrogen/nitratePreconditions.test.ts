import { describe, expect, it } from "vitest";
import { advise } from "../../../src/interpretation/advise.ts";
import { historyOf } from "../../../src/interpretation/checks/nitrogenInput.ts";
import type { Measurement } from "../../../src/interpretation/measurement.ts";
import type { Outcome } from "../../../src/interpretation/outcome.ts";
import { measured } from "../../support/measured.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { pack } from "../../support/packs.ts";
import type { NitrogenQuestion } from "../../../src/interpretation/nitrogen/nitrogenCredits.ts";

/** A June test that every shipped guideline for corn can read. */
const good = {
  cropHeight: 9, cores: 18, keeping: "chilled", hoursToLab: 20, daysSinceRain: 4, rainOfNormal: 100, earlyNitrogen: 0, sinceSod: 4, fertilizerOnlyYears: 0,
  manureYears: 3, manuredSinceHarvest: "no", manuredBefore: "yes", previousCrop: "corn", texture: "siltLoam", plannedNitrogen: 180,
} as const;
type Given = NonNullable<Parameters<typeof historyOf>[0]>;

const test = (ppm: number, over: Partial<Measurement> = {}) => measured("nitrateN", ppm, { method: "potassiumChloride", purpose: "nitrate", depth: { from: 0, to: 12, unit: "in" }, ...over });

/** The nitrogen of one guideline for corn, by the whole road of the advice. */
const nitrogen = (guideline: string, ppm: number, given: Given, over: Partial<NitrogenQuestion> = {}, m: Partial<Measurement> = {}): Outcome<{ readonly rate: { readonly value: number } }> => {
  const packs = [pack(guideline)];
  const question: NitrogenQuestion = { measurements: [test(ppm, m)], facts: { crop: "corn" }, history: historyOf(given), yieldGoal: { value: 180, unit: "bu/ac" }, manure: [], ...over };
  return advise({ measurements: [], packs, facts: { crop: "corn" }, yieldGoal: question.yieldGoal, incorporated: true, materials: [], nitrogen: question }).nitrogen!;
};

const inSeason = ["us-iowa-nitrate", "us-minnesota-nitrate", "us-ohio-nitrate-2022", "us-illinois-nitrate", "us-pennsylvania-nitrate", "us-newyork-nitrate"] as const;
const tall = inSeason.filter((id) => id !== "us-illinois-nitrate");

describe("a good June test gets an answer", () => {
  // Iowa (25 - 12) x 8; Minnesota (20 - 12) x 12.3; Ohio 180 less 30; Illinois 180 less 48; Pennsylvania 0.71 x 180 - 4.9 x 12.
  it.each([["us-iowa-nitrate", 104], ["us-minnesota-nitrate", 98.4], ["us-ohio-nitrate-2022", 150], ["us-illinois-nitrate", 132], ["us-pennsylvania-nitrate", 69]] as const)("%s", (id, rate) =>
    expect(answered(nitrogen(id, 12, good)).value.rate.value).toBeCloseTo(rate, 6));
  it("New York says only where none is needed", () => {
    expect(answered(nitrogen("us-newyork-nitrate", 25, good)).value.rate.value).toBe(0);
    expectRefusal(nitrogen("us-newyork-nitrate", 24, good), /no rate is printed in New York for 21 to 24 ppm/, "a rate for 24 ppm");
    expectRefusal(nitrogen("us-newyork-nitrate", 20.9, good), /the row of New York's table below 21 ppm was not read/, "a rate for 20.9 ppm");
  });
});

describe("a June test that breaks what its calibration asks gets no rate, not even none, and hears why", () => {
  const broken = (id: string, given: Given, clause: RegExp, missing: string) => expectRefusal(nitrogen(id, 40, { ...good, ...given }), clause, missing);
  it.each(inSeason)("too few cores: %s", (id) => {
    const least = id === "us-iowa-nitrate" ? 16 : 10;
    broken(id, { cores: least - 1 }, new RegExp(`the number of cores in the bag is ${least - 1}, and .* asks for at least ${least}`), `a nitrate test where the number of cores in the bag is at least ${least}`);
  });
  it.each(tall)("corn too short: %s", (id) => broken(id, { cropHeight: 5 }, /the height of the crop is 5 in, and .* asks for 6 to 12 in/, "a nitrate test where the height of the crop is 6 to 12 in"));
  it.each(tall)("corn too tall: %s", (id) => broken(id, { cropHeight: 13 }, /the height of the crop is 13 in/, "a nitrate test where the height of the crop is 6 to 12 in"));
  it.each(inSeason.filter((id) => id !== "us-pennsylvania-nitrate"))("neither dried nor chilled, and four days on the way: %s", (id) =>
    broken(id, { keeping: "as taken", hoursToLab: 96 }, /the keeping of the bags is as taken, and .* asks that .* the time to the laboratory is at most 72 hours/, "a nitrate test where the keeping of the bags is air-dried or chilled or frozen, or the time to the laboratory is at most 72 hours"));
  it("neither dried nor chilled: Pennsylvania allows no hours without", () => broken("us-pennsylvania-nitrate", { keeping: "as taken" }, /the keeping of the bags is as taken/, "a nitrate test where the keeping of the bags is air-dried or chilled or frozen"));
  it("much fertilizer nitrogen before the test, where the publication itself forbids it", () =>
    broken("us-newyork-nitrate", { earlyNitrogen: 41 }, /the fertilizer nitrogen before the test is 41 lb\/ac, and New York PSNT asks for less than 40 lb\/ac/, "a nitrate test where the fertilizer nitrogen before the test is less than 40 lb/ac"));
  it("first year after sod, where the publication itself forbids it", () =>
    broken("us-newyork-nitrate", { sinceSod: 1 }, /the number of years since sod is 1, and New York PSNT asks for more than 1/, "a nitrate test where the number of years since sod is more than 1"));
  it("outside a history of manure", () =>
    broken("us-pennsylvania-nitrate", { manureYears: 1 }, /manured years among the five before is 1, and Pennsylvania PSNT asks for at least 2/, "a nitrate test where the number of manured years among the five before is at least 2"));
  it.each(inSeason)("another depth: %s", (id) =>
    expectRefusal(nitrogen(id, 40, good, {}, { depth: { from: 0, to: 8, unit: "in" } }), /the sample was taken 0 to 8 in deep and .* is calibrated for 0 to 12 in/, "a sample 0 to 12 in deep"));
  it.each(inSeason)("a less-than: %s", (id) => expectRefusal(nitrogen(id, 3, good, {}, { qualifier: "<" }), /the laboratory says < 3 ppm/, "nitrateN as a number"));
  it.each(inSeason)("pounds where ppm are read: %s", (id) => expectRefusal(nitrogen(id, 40, good, {}, { unit: "lb/ac" }), /the result is in lb\/ac and .* reads ppm/, "nitrateN in ppm"));
});

describe("each precondition, on either side of its edge", () => {
  const nowhere = {} as Partial<Measurement>;
  const feet = (to: number): Partial<Measurement> => ({ depth: { from: 0, to, unit: "in" } });
  it.each([
    { what: "a depth of 12 in, give or take one", id: "us-iowa-nitrate", bad: {}, good: {}, badBag: feet(10), goodBag: feet(11), because: /0 to 10 in deep .* calibrated for 0 to 12 in/, missing: "a sample 0 to 12 in deep" },
    { what: "cores", id: "us-iowa-nitrate", bad: { cores: 15 }, good: { cores: 16 }, because: /number of cores in the bag is 15/, missing: "a nitrate test where the number of cores in the bag is at least 16" },
    { what: "hours to the laboratory", id: "us-iowa-nitrate", bad: { keeping: "as taken", hoursToLab: 73 }, good: { keeping: "as taken", hoursToLab: 72 }, because: /keeping of the bags is as taken/, missing: "a nitrate test where the keeping of the bags is air-dried or chilled or frozen, or the time to the laboratory is at most 72 hours" },
    { what: "late, but dried", id: "us-iowa-nitrate", bad: { keeping: "as taken", hoursToLab: 90 }, good: { keeping: "air-dried", hoursToLab: 90 }, because: /keeping of the bags is as taken/, missing: "a nitrate test where the keeping of the bags is air-dried or chilled or frozen, or the time to the laboratory is at most 72 hours" },
    { what: "late, but chilled", id: "us-pennsylvania-nitrate", bad: { keeping: "as taken" }, good: { keeping: "chilled" }, because: /keeping of the bags is as taken/, missing: "a nitrate test where the keeping of the bags is air-dried or chilled or frozen" },
    { what: "short corn", id: "us-minnesota-nitrate", bad: { cropHeight: 5.9 }, good: { cropHeight: 6 }, because: /height of the crop is 5\.9 in/, missing: "a nitrate test where the height of the crop is 6 to 12 in" },
    { what: "tall corn", id: "us-minnesota-nitrate", bad: { cropHeight: 12.1 }, good: { cropHeight: 12 }, because: /height of the crop is 12\.1 in/, missing: "a nitrate test where the height of the crop is 6 to 12 in" },
    { what: "early fertilizer", id: "us-newyork-nitrate", bad: { earlyNitrogen: 40 }, good: { earlyNitrogen: 39.9 }, because: /fertilizer nitrogen before the test is 40 lb\/ac/, missing: "a nitrate test where the fertilizer nitrogen before the test is less than 40 lb/ac" },
    { what: "a history of manure", id: "us-pennsylvania-nitrate", bad: { manureYears: 1 }, good: { manureYears: 2 }, because: /manured years among the five before is 1/, missing: "a nitrate test where the number of manured years among the five before is at least 2" },
    { what: "the first year after sod", id: "us-newyork-nitrate", bad: { sinceSod: 1 }, good: { sinceSod: 2 }, because: /number of years since sod is 1/, missing: "a nitrate test where the number of years since sod is more than 1" },
  ] as const)("$what", (edge) => {
    const [badBag, goodBag] = "badBag" in edge ? [edge.badBag, edge.goodBag] : [nowhere, nowhere];
    expectRefusal(nitrogen(edge.id, 40, { ...good, ...edge.bad }, {}, badBag), edge.because, edge.missing);
    expect(answered(nitrogen(edge.id, 40, { ...good, ...edge.good }, {}, goodBag)).value.rate.value).toBe(0);
  });
});

describe("what the records lack is missing, and never taken for granted", () => {
  const without = (fact: keyof typeof good) => Object.fromEntries(Object.entries(good).filter(([each]) => each !== fact)) as Given;
  it.each(tall)("the height of the crop: %s", (id) => expectRefusal(nitrogen(id, 40, without("cropHeight")), /the height of the crop is not recorded/, "cropHeight"));
  it.each(inSeason)("the number of cores: %s", (id) => expectRefusal(nitrogen(id, 40, without("cores")), /the number of cores in the bag is not recorded/, "cores"));
  it.each(inSeason.filter((id) => id !== "us-pennsylvania-nitrate"))("keeping and time on the way: %s", (id) => {
    const { hoursToLab, ...given } = without("keeping");
    expect(hoursToLab).toBe(20);
    expectRefusal(nitrogen(id, 40, given), /the keeping of the bags and the time to the laboratory are not recorded/, "keeping", "hoursToLab");
  });
  it.each([["us-newyork-nitrate", "earlyNitrogen"], ["us-newyork-nitrate", "sinceSod"], ["us-pennsylvania-nitrate", "manureYears"], ["us-pennsylvania-nitrate", "keeping"]] as const)("%s: %s", (id, fact) =>
    expectRefusal(nitrogen(id, 40, without(fact)), /is not recorded/, fact));
  it("rain and manure, where Iowa's critical level hangs on them", () => {
    expectRefusal(nitrogen("us-iowa-nitrate", 20, without("rainOfNormal")), /the rain since April 1 against normal is not recorded/, "rainOfNormal");
    expectRefusal(nitrogen("us-iowa-nitrate", 10, without("manuredSinceHarvest")), /manure since the last harvest is not recorded/, "manuredSinceHarvest");
  });
  it("a rule of another publication is a caution beside the rate", () => {
    const { cautions } = answered(nitrogen("us-iowa-nitrate", 12, { ...good, earlyNitrogen: 90, sinceSod: 1, fertilizerOnlyYears: 5 }));
    expect(cautions.join(" ")).toMatch(/^Others would doubt this test: New York asks that .* less than 40 lb\/ac \(here 90 lb\/ac\) and that .* more than 1 \(here 1\); Delaware asks that .* less than 3 \(here 5\)\.$/);
  });
});

describe("a deep test asks for its depth, its yield and its years", () => {
  const deep = (id: string, given: Given = good, over: Partial<NitrogenQuestion> = {}) => nitrogen(id, 5, { organicMatter: 2, ...given }, { measurements: [test(5, { depth: { from: 0, to: 24, unit: "in" } })], ...over });
  const both = ["us-nebraska-ec117-nitrogen", "us-minnesota-west-nitrate-2002"] as const;
  it("has an answer where all of it is there", () => {
    // 35 + 1.2 x 180 - 8 x 5 - 0.14 x 180 x 2; 1.2 x 180 - 5 x 8.
    expect(answered(deep("us-nebraska-ec117-nitrogen")).value.rate.value).toBeCloseTo(160.6, 9);
    expect(answered(deep("us-minnesota-west-nitrate-2002")).value.rate.value).toBeCloseTo(176, 9);
  });
  it.each([["us-nebraska-ec117-nitrogen", "24 to 48"], ["us-minnesota-west-nitrate-2002", "24"]] as const)("one foot only: %s", (id, wanted) =>
    expectRefusal(deep(id, good, { measurements: [test(5)] }), /the sample was taken to 12 in and .* asks for 24/, `a sample ${wanted} in deep`));
  it.each(both)("a layer left out: %s", (id) =>
    expectRefusal(deep(id, good, { measurements: [test(5, { depth: { from: 0, to: 8, unit: "in" } }), test(5, { depth: { from: 12, to: 24, unit: "in" } })] }), /does not begin where the one above it ends/, "layers without a gap"));
  it.each(both)("a less-than: %s", (id) => expectRefusal(deep(id, good, { measurements: [test(2, { qualifier: "<", depth: { from: 0, to: 24, unit: "in" } })] }), /the laboratory says < 2 ppm/, "nitrateN as a number"));
  it.each(both)("no yield goal: %s", (id) => expectRefusal(deep(id, good, { yieldGoal: undefined }), /no yield goal is set/, "yieldGoal"));
  it.each(both)("the crop before not recorded: %s", (id) => expectRefusal(deep(id, { ...good, previousCrop: undefined }), /the crop before is not recorded, and .* takes its credit off/, "previousCrop"));
  it("a legume whose credit was not found", () => {
    expectRefusal(deep("us-nebraska-ec117-nitrogen", { ...good, previousCrop: "pea" }), /Nebraska EC117 gives no credit after peas/, "a credit after peas");
    expectRefusal(deep("us-minnesota-west-nitrate-2002", { ...good, previousCrop: "snapBean" }), /gives no credit after snap beans/, "a credit after snap beans");
  });
  it("manure of years that nobody recorded", () => expectRefusal(deep("us-nebraska-ec117-nitrogen", good, { manure: undefined }), /the seasons before are not all recorded/, "the seasons of the last three years"));
  it("a soil without a test and without a printed stand-in for it", () => {
    expectRefusal(deep("us-minnesota-west-nitrate-2002", good, { measurements: [] }), /nitrate was not tested/, "nitrateN");
    expectRefusal(deep("us-nebraska-ec117-nitrogen", { ...good, texture: "clay" }, { measurements: [] }), /nitrate was not tested, and Nebraska EC117 prints nothing to put in its place for this soil/, "nitrateN");
    expectRefusal(deep("us-nebraska-ec117-nitrogen", { ...good, texture: undefined }, { measurements: [] }), /the soil texture is not recorded/, "texture");
  });
  it("organic matter that nobody tested has a printed stand-in by texture, and none without the texture", () => {
    const untested = { ...good, organicMatter: undefined };
    expect(answered(deep("us-nebraska-ec117-nitrogen", untested)).value.rate.value).toBeCloseTo(160.6, 9);
    expectRefusal(deep("us-nebraska-ec117-nitrogen", { ...untested, texture: undefined }), /the soil texture is not recorded/, "texture");
  });
  // 0.14 x 180 = 25.2 lb for each percent, held between 0.5 and 3.
  it.each([[0.2, 12.6], [0.5, 12.6], [3, 75.6], [6, 75.6]])("organic matter of %s percent takes %s lb", (organicMatter, less) =>
    expect(answered(deep("us-nebraska-ec117-nitrogen", { ...good, organicMatter })).value.rate.value).toBeCloseTo(35 + 216 - 40 - less, 9));
});
