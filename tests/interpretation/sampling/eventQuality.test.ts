import { readdirSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { fewestPublished } from "../../../src/interpretation/sampling/event/cores.ts";
import { careWords, eventQuality } from "../../../src/interpretation/sampling/eventQuality.ts";
import type { Guideline } from "../../../src/interpretation/guideline.ts";
import { sectionsOf } from "../../../src/interpretation/guideline.ts";
import { samplingAdvice } from "../../../src/interpretation/sampling/samplingAdvice.ts";
import type { CropId } from "../../../src/interpretation/vocabulary.ts";
import { usualDepth } from "../../../src/interpretation/sampling/usualDepth.ts";
import type { SamplingQuestion } from "../../../src/interpretation/rules/samplingWhen.ts";
import { measured } from "../../support/measured.ts";
import { installedPacks, pack, triState } from "../../support/packs.ts";
import type { Finding, FindingId, SampledPlace, SamplingEvent } from "../../../src/interpretation/sampling/event/finding.ts";

const k = measured("K", 100);
const pH = measured("pH", 6.4);
const zinc = measured("Zn", 1);

const autumn: SamplingEvent = {
  purpose: "routine",
  date: "2025-10-18",
  depth: { from: 0, to: 8, unit: "in" },
  lab: { id: "north", name: "North Laboratory" },
  measurements: [pH, k],
  bags: [{ zone: "west", cores: 15 }],
  moisture: "moist",
  pail: "plastic",
  keeping: "air-dried",
  receivedOn: "2025-10-21",
};

const place = (packs: readonly Guideline[] = [], question: Partial<SamplingQuestion> = {}, before?: SamplingEvent): SampledPlace => ({
  zones: [{ id: "west", name: "West end", area: question.area, advice: samplingAdvice(packs, { purpose: "routine", tillage: "tilled", ...question }) }],
  usual: usualDepth(question.purpose ?? "routine", { packs, crop: question.crop, sod: question.tillage === "sod" }),
  before,
});

const found = (event: SamplingEvent, where: SampledPlace, id: FindingId): Finding => {
  const finding = eventQuality(event, where).find((f) => f.id === id);
  if (!finding) throw new Error(`no finding ${id}`);
  return finding;
};

const verdicts = (event: SamplingEvent, where: SampledPlace): Partial<Record<FindingId, string>> => Object.fromEntries(eventQuality(event, where).map((f) => [f.id, f.severity]));

it("a sampling taken well has nothing against it, and without an earlier one nothing is set beside it", () => {
  expect(verdicts(autumn, place([triState], { area: { value: 20, unit: "acre" } }))).toEqual({ cores: "fine", depth: "fine", moisture: "fine", pail: "fine", way: "fine", zones: "fine", area: "fine" });
});

it("what the record does not say is told, and never judged", () => {
  const { moisture, pail, keeping, receivedOn, ...silent } = autumn;
  expect([moisture, pail, keeping, receivedOn]).not.toContain(undefined);
  const said = verdicts({ ...silent, bags: [{ zone: "west" }] }, place());
  expect(said).toMatchObject({ cores: "not recorded", moisture: "not recorded", pail: "not recorded", way: "not recorded", area: "not recorded" });
  expect(careWords(eventQuality({ ...silent, bags: [{ zone: "west" }] }, place()), ["pH", "K"])).toBeUndefined();
});

describe("cores", () => {
  // Common practice where no guideline counts: six to nine. Minnesota: 15 to 30. Both edges of each.
  it.each([
    [5, "read with care"],
    [2, "read with care"],
    [6, "fine"],
    [20, "fine"],
    [1, "not fit for the purpose"],
  ])("%i in a bag, by common practice: %s", (cores, severity) => {
    const f = found({ ...autumn, bags: [{ zone: "west", cores }] }, place(), "cores");
    expect(f.words).toContain(cores === 1 ? "A bag of one core" : `${cores} cores a bag`);
    expect([f.severity, f.source]).toEqual([severity, "common-practice"]);
  });
  it.each([
    [14, "read with care"],
    [15, "fine"],
  ])("%i in a bag, by Minnesota's 15 to 30: %s", (cores, severity) => {
    const f = found({ ...autumn, bags: [{ zone: "west", cores: 30 }, { zone: "west", cores }] }, place([pack("us-minnesota-sampling")]), "cores");
    expect([f.severity, f.source, f.evidence]).toEqual([severity, { reference: "umn-how-to-sample" }, "read"]);
  });
  it("says of as few as common practice takes that publications ask for more, which every guide that comes with the program does", () => {
    expect(found({ ...autumn, bags: [{ zone: "west", cores: 8 }] }, place(), "cores").words).toBe("8 cores a bag; common practice is 6 to 9, and published guides to sampling ask for 10 or more.");
    expect(found({ ...autumn, bags: [{ zone: "west", cores: 10 }] }, place(), "cores").words).not.toContain("published");
    const asked = readdirSync(new URL("../../../content/guidelines/", import.meta.url)).flatMap((file) => sectionsOf(installedPacks.get(file.replace(/\.yaml$/, "")), "samplingSpec").flatMap((s) => (s.cores ?? []).filter((row) => !row.when?.extent?.includes("point"))));
    expect(asked.length).toBeGreaterThan(8);
    expect(Math.min(...asked.map((row) => row.least ?? Infinity))).toBe(fewestPublished);
  });

  it("has no common practice for nitrate", () => expect(found({ ...autumn, purpose: "nitrate" }, place([], { purpose: "nitrate" }), "cores").severity).toBe("not judged"));
});

describe("depth", () => {
  // Montana: hay is sampled 12 in deep (Soil Scoop), and phosphorus of alfalfa is read from 0 to 6 in (Special Report 102): "too shallow" would doubt the depth its rate is for.
  it("that one chosen guideline asks for and another reads otherwise is not judged", () => {
    const montana = place([pack("us-montana-alfalfa"), pack("us-montana-sampling")], { tillage: "sod", crop: "alfalfa" });
    const at = (to: number) => found({ ...autumn, depth: { from: 0, to, unit: "in" } }, montana, "depth");
    expect(at(6)).toMatchObject({
      severity: "not judged",
      words: "Taken from 0 to 6 in, where the guideline asks for 0 to 12 in; the depth at which Montana alfalfa reads phosphorus and potassium is 0 to 6 in, so the chosen guidelines differ.",
    });
    expect([at(12).severity, at(3).severity]).toEqual(["fine", "read with care"]);
  });
  // Six to nine inches, and an inch let pass either way.
  it.each([
    [4.9, "in", "read with care"],
    [5, "in", "fine"],
    [10, "in", "fine"],
    [10.1, "in", "read with care"],
    [20, "cm", "fine"],
    [10, "cm", "read with care"],
  ] as const)("0 to %d %s by common practice: %s", (to, unit, severity) => expect(found({ ...autumn, depth: { from: 0, to, unit } }, place(), "depth").severity).toBe(severity));

  it("tells what is asked in the unit of the record, and leaves sod unjudged where no guideline speaks of it", () => {
    expect(found({ ...autumn, depth: { from: 0, to: 10, unit: "cm" } }, place(), "depth").words).toBe("Taken from 0 to 10 cm, where common practice is 0 to 15 or as far as 23 cm.");
    expect(found({ ...autumn, depth: { from: 0, to: 3, unit: "in" } }, place([], { tillage: "sod" }), "depth")).toMatchObject({
      severity: "not judged",
      words: "Taken from 0 to 3 in. How deep sod is sampled differs between places, and no chosen guideline says how deep to sample.",
    });
  });

  // Irish samples are taken to 10 cm: less than the plow layer of common practice, and as deep as their own guideline samples them.
  it.each([
    [10, "fine", "Taken from 0 to 10 cm; the guideline asks for 0 to 10 cm."],
    [20, "read with care", "Taken from 0 to 20 cm, where the guideline asks for 0 to 10 cm."],
  ])("0 to %i cm, where a guideline samples 10 cm: %s", (to, severity, words) => {
    const f = found({ ...autumn, depth: { from: 0, to, unit: "cm" } }, place([pack("ie-teagasc")], { crop: "springBarley" }), "depth");
    expect([f.severity, f.words, f.source]).toEqual([severity, words, { reference: "ie-teagasc-sampling" }]);
  });

  it.each([
    [4, "fine", "Taken from 0 to 4 in; the depth at which Arkansas 2016 reads phosphorus and potassium is 0 to 4 in."],
    [8, "read with care", "Taken from 0 to 8 in, where the depth at which Arkansas 2016 reads phosphorus and potassium is 0 to 4 in."],
  ])("0 to %i in, by a guideline that reads 4 in and says nothing of sampling: %s", (to, severity, words) => {
    const f = found({ ...autumn, depth: { from: 0, to, unit: "in" } }, place([pack("us-arkansas-phosphorus-2016")], { crop: "soybean" }), "depth");
    expect([f.severity, f.words, f.source]).toEqual([severity, words, { reference: "arkansas-p-2016" }]);
  });

  const june: SamplingEvent = { ...autumn, purpose: "nitrate", date: "2025-06-11" };
  it.each([
    [8, "not fit for the purpose"],
    [12, "fine"],
    [24, "not judged"],
  ])("a nitrate test of 0 to %i in, no guideline speaking: %s", (to, severity) => expect(found({ ...june, depth: { from: 0, to, unit: "in" } }, place([], { purpose: "nitrate" }), "depth").severity).toBe(severity));
  it("a nitrate test deeper than Iowa's foot is not fit, and the finding names Iowa's method", () => {
    const f = found({ ...june, depth: { from: 0, to: 24, unit: "in" } }, place([pack("us-iowa-nitrate")], { purpose: "nitrate" }), "depth");
    expect([f.severity, f.source, f.brief]).toEqual(["not fit for the purpose", { reference: "iowa-lsnt-reprint" }, "taken too deep for a nitrate test"]);
  });
});

describe("beside the sampling before", () => {
  const before: SamplingEvent = { ...autumn, date: "2023-10-17" };
  it("of the same depth, season, laboratory and methods nothing is doubtful", () => {
    expect(verdicts(autumn, place([], {}, before))).toMatchObject({ depthBefore: "fine", season: "fine", laboratory: "fine", methods: "fine" });
    expect(found(autumn, place([], {}, before), "season").words).toBe("Taken in autumn, as in October 2023.");
  });
  it("a shallower one lowers the words on every test", () => {
    const all = eventQuality({ ...autumn, depth: { from: 0, to: 6, unit: "in" } }, place([], {}, before));
    expect(careWords(all, ["pH"])).toBe("Taken shallower than before: read soil pH with care.");
    expect(all.find((f) => f.id === "depthBefore")!.words).toMatch(/^Taken shallower than before: 0 to 6 in now, 0 to 8 in \(October 2023\)\. /);
    expect(careWords(all, ["pH", "K"])).toBe("Taken shallower than before: read soil pH and potassium with care.");
  });
  it("a spring one lowers the words on pH and potassium, and not on phosphorus", () => {
    const all = eventQuality({ ...autumn, date: "2026-04-12" }, place([], {}, before));
    expect(careWords(all, ["P"])).toBeUndefined();
    expect(careWords(all, ["P", "K"])).toBe("Taken in spring, the one before in autumn: read potassium with care.");
    expect(found({ ...autumn, date: "2026-04-12", measurements: [zinc] }, place([], {}, before), "season")).toMatchObject({ severity: "fine", words: expect.stringContaining("nothing that moves with the season was tested.") as string });
  });
  it("one of the winter is as good as one of its autumn, and New Year parts nothing", () => {
    const winter: SamplingEvent = { ...before, date: "2023-12-20" };
    const words = (date: string, than: SamplingEvent): string => {
      const { severity, words } = found({ ...autumn, date }, place([], {}, than), "season");
      return `${severity}: ${words}`;
    };
    expect(words("2026-01-08", winter)).toBe("fine: Taken in winter, as in December 2023.");
    expect(words("2026-01-08", before)).toBe("fine: Taken in winter, the one before in autumn, October 2023: autumn and winter count as one season.");
    expect(words("2026-03-02", winter)).toMatch(/^read with care: Taken in spring, the one before in winter, December 2023: /);
  });
  it("names each test whose method changed, and that alone", () => {
    const f = found(autumn, place([], {}, { ...before, measurements: [pH, { ...k, method: "ammoniumAcetate" }] }), "methods");
    expect([f.severity, f.analytes]).toEqual(["read with care", ["K"]]);
    expect(f.words).toContain("potassium by Mehlich-3, ppm (before: ammonium acetate, ppm)");
  });
  it("says nothing of methods while results are awaited", () => expect(verdicts({ ...autumn, measurements: [] }, place([], {}, before))).not.toHaveProperty("methods"));
  it("another laboratory is named", () => expect(found(autumn, place([], {}, { ...before, lab: { id: "south", name: "South Laboratory" } }), "laboratory").words).toContain("North Laboratory, where South Laboratory had it in October 2023"));
});

describe("after the same crop (Iowa State, Taking Good Soil Samples, 2024: less variable results)", () => {
  const iowa = pack("us-iowa-sampling");
  const bag = (after?: CropId, zone = "west"): SamplingEvent["bags"][number] => ({ zone, cores: 15, after });
  const sixInches = { from: 0, to: 6, unit: "in" } as const;
  const then = (...bags: SamplingEvent["bags"]): SamplingEvent => ({ ...autumn, depth: sixInches, date: "2023-10-17", bags });
  const now = (...bags: SamplingEvent["bags"]): SamplingEvent => ({ ...autumn, depth: sixInches, bags });
  const twoZones = (before: SamplingEvent): SampledPlace => ({ ...place([iowa], {}, before), zones: ["west", "east"].map((id) => ({ ...place([iowa]).zones[0]!, id, name: id === "west" ? "West end" : "East end" })) });

  it("another crop than before lowers the words on what was tested", () => {
    const where = place([iowa], {}, then(bag("corn")));
    const f = found(now(bag("soybean")), where, "cropBefore");
    expect([f.severity, f.source, f.evidence]).toEqual(["read with care", { reference: "iowa-soil-sampling-2024" }, "read"]);
    expect(f.words).toBe("Taken after soybean, the one before, October 2023, after corn; the guideline asks for the same crop each time, since results vary less then.");
    expect(careWords(eventQuality(now(bag("soybean")), where), ["K"])).toBe("Taken after soybean, the one before after corn: read potassium with care.");
  });
  it("the same crop is fine", () => expect(found(now(bag("corn")), place([iowa], {}, then(bag("corn"))), "cropBefore")).toMatchObject({ severity: "fine", words: "Taken after corn, as in October 2023." }));
  it("is not asked where no chosen guideline asks it, of nitrate, or without an earlier sampling", () => {
    expect(verdicts(now(bag("soybean")), place([triState], {}, then(bag("corn"))))).not.toHaveProperty("cropBefore");
    expect(verdicts({ ...now(bag("soybean")), purpose: "nitrate" }, place([iowa], { purpose: "nitrate" }, then(bag("corn"))))).not.toHaveProperty("cropBefore");
    expect(verdicts(now(bag("soybean")), place([iowa]))).not.toHaveProperty("cropBefore");
  });
  it("a crop that the record does not say is told, and not judged", () => {
    const f = found(now(bag("soybean")), place([iowa], {}, then(bag())), "cropBefore");
    expect([f.severity, f.words]).toEqual(["not recorded", "The crop before the one in October 2023 is not recorded; the guideline asks for the same crop each time, since results vary less then."]);
  });
  it("zones are set beside themselves: two that changed places are both named, and one that is new is not judged", () => {
    const swapped = found(now(bag("corn"), bag("soybean", "east")), twoZones(then(bag("soybean"), bag("corn", "east"))), "cropBefore");
    expect(swapped.words).toContain("West end after corn (before: after soybean) and East end after soybean (before: after corn)");
    expect(swapped.brief).toBe("taken after another crop than before");
    expect(found(now(bag("corn"), bag("soybean", "east")), twoZones(then(bag("corn"))), "cropBefore").severity).toBe("fine");
    expect(found(now(bag("corn"), bag("soybean", "east")), twoZones(then(bag("corn"), bag("corn", "east"))), "cropBefore").words).toContain("October 2023, after corn, in East end;");
  });
});

describe("handling", () => {
  it("dry soil casts doubt on pH and potassium, by a text that repeats Iowa State", () => {
    const f = found({ ...autumn, moisture: "dry" }, place(), "moisture");
    expect([f.severity, f.analytes, f.evidence]).toEqual(["read with care", ["pH", "K"], "secondary"]);
  });
  it("a metal pail spoils zinc and nothing else (Iowa State PM 287)", () => {
    const metal = eventQuality({ ...autumn, pail: "metal", measurements: [pH, k, zinc] }, place());
    expect([careWords(metal, ["Zn"]), careWords(metal, ["K"])]).toEqual(["Mixed in a metal pail: read zinc with care.", undefined]);
    expect(found({ ...autumn, pail: "metal" }, place(), "pail").severity).toBe("fine");
  });
  // British Columbia allows 48 hours to the laboratory, else drying.
  it.each([
    [48, "as taken", "fine"],
    [49, "as taken", "not fit for the purpose"],
    [200, "chilled", "fine"],
  ] as const)("a nitrate bag %i hours on the way, %s: %s", (hoursToLab, keeping, severity) => {
    const event: SamplingEvent = { ...autumn, purpose: "nitrate", hoursToLab, keeping };
    expect(found(event, place([pack("ca-britishcolumbia-handling")], { purpose: "nitrate" }), "way").severity).toBe(severity);
  });
  it("counts days by the calendar, over the end of a month", () => {
    expect(found({ ...autumn, date: "2024-02-28" , receivedOn: "2024-03-01" }, place(), "way").words).toBe("To the laboratory in 2 days, air-dried.");
    expect(found({ ...autumn, receivedOn: "2025-10-19" }, place(), "way").words).toBe("To the laboratory in 1 day, air-dried.");
    expect(found({ ...autumn, receivedOn: autumn.date }, place(), "way").words).toBe("To the laboratory on the same day, air-dried.");
    expect(found({ ...autumn, hoursToLab: 1 }, place(), "way").words).toBe("To the laboratory in 1 hour, air-dried.");
    expect(found({ ...autumn, hoursToLab: 1.5 }, place(), "way").words).toBe("To the laboratory in 1.5 hours, air-dried.");
  });
  it("a nitrate bag of plastic, neither cool nor dry, is read with care", () => expect(found({ ...autumn, purpose: "nitrate", bag: "plastic", keeping: "as taken" }, place([], { purpose: "nitrate" }), "bag").severity).toBe("read with care"));
});

describe("ground", () => {
  // Tri-State: 25 acres for a bag at the most; 60 acres call for three.
  it.each([
    [25, 1, "fine"],
    [25.5, 1, "read with care"],
    [60, 2, "read with care"],
    [60, 3, "fine"],
  ])("%d acres in %i bags: %s", (value, bags, severity) => {
    const event = { ...autumn, bags: Array.from({ length: bags }, () => ({ zone: "west", cores: 15 })) };
    expect(found(event, place([triState], { area: { value, unit: "acre" } }), "area").severity).toBe(severity);
  });
  it("a zone left out of a full sampling is told, and of a check it is no fault", () => {
    const two = { ...place(), zones: [...place().zones, { ...place().zones[0]!, id: "east", name: "East end" }] };
    expect(found(autumn, two, "zones").words).toBe("Not sampled: East end. What is said of the field rests on older results there.");
    expect(found({ ...autumn, purpose: "phCheck" }, two, "zones").severity).toBe("fine");
  });
});
