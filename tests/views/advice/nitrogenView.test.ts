import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import type { Analysis } from "../../../src/interpretation/products.ts";
import { readFarm } from "../../../src/records/reading/readFarm.ts";
import { handledCautions } from "../../../src/views/advice/nitrogenHandled.ts";
import { nitrogenElsewhere, nitrogenRows } from "../../../src/views/advice/nitrogenView.ts";
import { zonePurchase } from "../../../src/views/advice/zonePurchase.ts";
import { latestAdvice } from "../../../src/views/advice/sample.ts";
import { seasonGaps } from "../../../src/views/season/seasonGaps.ts";
import { samplingView } from "../../../src/views/sampling/samplingView.ts";
import { fieldView } from "../../../src/views/field/field.ts";
import { seasonZones } from "../../../src/views/season/seasonZones.ts";
import { farmTasks } from "../../../src/views/home/homeTasks.ts";
import { farmFolder } from "../../support/farmFolder.ts";
import { pack } from "../../support/packs.ts";
import { paths, tinyFarm } from "../../support/tinyFarm.ts";

const content = fileURLToPath(new URL("../../../content", import.meta.url));
const rowsOf = (fieldId: string, zoneId: string, today?: string) => {
  const { farm } = readFarm({ content, today });
  const field = farm!.fields.find((f) => f.id === fieldId)!;
  return nitrogenRows(farm!, latestAdvice(farm!, field, field.zones.find((z) => z.id === zoneId)!)!);
};

describe("nitrogen on a field's page", () => {
  it("is told for the crop that stood at the test, with its guideline, its evidence and what New York would say", () => {
    const [row, ...rest] = rowsOf("causeway", "outwash");
    expect(rest).toEqual([]);
    expect(row).toMatchObject({ subject: "Nitrogen (N)", value: "", unit: "", guideline: { id: "us-iowa-nitrate" }, evidence: { grade: "secondary" } });
    expect(row!.detail).toBe("72 lb/ac for corn 2025, now past, from the nitrate test of 11 June 2025");
    // It stands with the working: nobody acts on a rate of the past.
    expect(row!.doubts).toEqual(["Others would doubt this test: New York asks that the fertilizer nitrogen before the test is less than 40 lb/ac (here 89.7 lb/ac); Delaware asks that the number of years on fertilizer nitrogen alone is less than 3 (here 11)"]);
    expect(rowsOf("causeway", "outwash", "2025-06-11")[0]!.detail).toContain("Others would doubt this test: New York asks");
    expect(row!.steps.at(-1)).toMatchObject({ expression: "(25 − 16) × 8 lb per ppm", result: "72 lb N/ac" });
    expect(row!.steps.every((step) => step.source)).toBe(true);
  });
  it("is zero where the soil has enough", () => expect(rowsOf("causeway", "knoll")[0]).toMatchObject({ detail: expect.stringMatching(/^0 lb\/ac for corn 2025/) as string, none: undefined }));
  it("is refused in words where the next corn has no test", () =>
    expect(rowsOf("netloft", "upper")[0]).toMatchObject({ value: "", none: "No nitrogen rate for corn 2026, because nitrate was not tested.", missing: ["a nitrate test"] }));
  it.each(["2025-06-11", "2025-08-10"])("stands as a rate to spread on %s, while it can be spread beside the crop", (today) =>
    expect(rowsOf("causeway", "outwash", today)[0]).toMatchObject({ value: "72", unit: "lb/ac", detail: expect.stringMatching(/^for corn 2025, from/) as string }));
  it("is a rate of the past from then on", () =>
    expect(rowsOf("causeway", "outwash", "2025-08-11")[0]).toMatchObject({ value: "", detail: expect.stringMatching(/^72 lb\/ac for corn 2025, now past, from/) as string }));
  it("warns of handling nitrogen while it can be spread, and of ammonia only where the farm may have it", () => {
    const { farm } = readFarm({ content, today: "2025-06-11" });
    const warned = (today: string, only: (product: string) => boolean = () => true): string[] => {
      const on = { ...farm!, today, products: new Map([...farm!.products].filter(([id]) => only(id))) };
      const field = on.fields.find((f) => f.id === "causeway")!;
      return latestAdvice(on, field, field.zones.find((z) => z.id === "outwash")!)!.advice.cautions.filter((id) => ["anhydrousAmmonia", "nitrateAndWells"].includes(id));
    };
    // The demo's list has urea alone; a list without nitrogen tells nothing.
    expect(warned("2025-06-11")).toEqual(["nitrateAndWells"]);
    expect(warned("2025-06-11", (id) => !id.includes("urea"))).toEqual(["anhydrousAmmonia", "nitrateAndWells"]);
    // Nor do phosphates, which bring nitrogen beside: who sidedresses corn buys another for it.
    const phosphate = (analysis: Analysis) => ({ ...farm!, products: new Map([["map", { ...farm!.products.get("urea")!, fertilizer: { ...farm!.products.get("urea")!.fertilizer!, analysis } }]]) });
    const handled = (analysis: Analysis) => handledCautions(phosphate(analysis), ["anhydrousAmmonia"], false);
    expect([{ N: 11, P2O5: 52 }, { N: 18, P2O5: 46 }, { N: 10, P2O5: 10, K2O: 10 }].map(handled)).toEqual([["anhydrousAmmonia"], ["anhydrousAmmonia"], ["anhydrousAmmonia"]]);
    expect([{ N: 28 }, { N: 21, S: 24 }, { N: 27, P2O5: 5, K2O: 5 }].map(handled)).toEqual([[], [], []]);
    expect(handledCautions(farm!, ["ammoniumNitrate"], false)).toEqual(["ammoniumNitrate"]);
    expect(handledCautions(farm!, ["ammoniumNitrate"], true)).toEqual([]);
    expect(warned("2025-10-28", (id) => !id.includes("urea"))).toEqual(["nitrateAndWells"]);
  });
  it("is not asked of a crop without a rule", () => expect(rowsOf("saltings", "west-lea")).toEqual([]));
  it("is history a year after the test", () => {
    expect(rowsOf("causeway", "outwash", "2026-06-11")).toHaveLength(1);
    expect(rowsOf("causeway", "outwash", "2026-06-12")).toEqual([]);
  });
});

// A wheat grower of Kansas had nitrate tested in August: a page without a word of nitrogen reads as if the crop needed none.
const unread = (crop: string, guidelines = "us-kansas-mf2586-2003") =>
  farmFolder()
    .change(paths.farm, "guidelines: [small-guide]", `guidelines: [${guidelines}]`)
    .change(paths.field, "crop: corn\n    yieldGoal: { value: 180, unit: bu/ac }", `crop: ${crop}\n    yieldGoal: { value: 60, unit: bu/ac }`)
    .change(paths.lab, "packages:\n", "packages:\n  nitrate:\n    name: nitrate\n    measures:\n      nitrateN: { method: potassiumChloride, unit: ppm }\n")
    .write("fields/north/samplings/2025-10-20.yaml", "date: 2025-10-20\npurpose: nitrate\nlab: north-lab\npackage: nitrate\ndepth: { from: 0, to: 24, unit: in }\ncomposites:\n  - { label: N1, zone: west, results: { nitrateN: 7 } }\n")
    .read({ library: content }).farm!;
it("nitrate that was tested and that no chosen guideline reads for the crop is said to be so", () => {
  const farm = unread("wheat");
  const [field] = farm.fields;
  const rows = (zone: string) => nitrogenRows(farm, latestAdvice(farm, field!, field!.zones.find((z) => z.id === zone)!)!);
  expect(rows("west")).toMatchObject([
    { none: "No nitrogen rate for wheat 2026, from the nitrate test of 20 October 2025, because none of the chosen guidelines reads it for wheat.", missing: ["a guideline that tells nitrogen for wheat, or your own plan for it"] },
  ]);
  expect(rows("east")).toEqual([]);
  expect(seasonGaps(farm).filter((g) => g.text.includes("nitrogen")).map((g) => g.places.map((p) => p.words))).toEqual([["North Field, West end"], ["North Field, East end"]]);
});

it("is said once of a zone, where a guideline holds nitrogen of other crops", () => {
  const gaps = seasonGaps(unread("wheat", "us-kansas-mf2586-2003, us-iowa-nitrate")).filter((g) => g.text.startsWith("No nitrogen rate for wheat"));
  expect(gaps.flatMap((g) => g.places.map((p) => p.words)).toSorted()).toEqual(["North Field, East end", "North Field, West end"]);
});

// Two feet are sent for their chloride and sulfur too: a legume that takes its nitrogen from the air is not short of a guideline for it.
it("of a legume that makes its own nitrogen no word asks for a guideline", () => {
  const farm = unread("soybean");
  expect(nitrogenRows(farm, latestAdvice(farm, farm.fields[0]!, farm.fields[0]!.zones[0]!)!)).toEqual([]);
  expect(seasonGaps(farm).filter((g) => g.text.includes("nitrogen"))).toEqual([]);
});

it("the page of a nitrate sampling says what each bag called for, and by whose rule", () => {
  const { farm } = readFarm({ content });
  const field = farm!.fields.find((f) => f.id === "causeway")!;
  const [line] = samplingView(farm!, field, field.samplings.find((s) => s.purpose === "nitrate")!).results;
  expect(line!.classes).toBe("nitrogen by Iowa late-spring nitrate");
  expect(line!.cells.map((c) => [c.value, c.below.replace(/, line.*/, "")])).toEqual([
    ["27", "0 lb/ac of nitrogen called for"],
    ["32", "0 lb/ac of nitrogen called for"],
    ["16", "72 lb/ac of nitrogen called for"],
  ]);
});

// § 4 (1) no. 5 asks for the manure of the year before, and annex 4, table 7 for the crop before: no more than one season.
it("a farm's first year gets the limit of Germany's ordinance by the season before alone, and is told what to record without it", () => {
  const folder = (seasons: readonly number[]) => {
    const farm = farmFolder()
      .write(paths.farm, tinyFarm[paths.farm]!.replace("units: us", "units: metric").replace("[small-guide]", "[de-ordinance-2017]"))
      .write(paths.field, tinyFarm[paths.field]!.replace("crop: corn\n    yieldGoal: { value: 180, unit: bu/ac }", "crop: winterWheat\n    yieldGoal: { value: 8, unit: t/ha }").replace("siltLoam,", "siltLoam, organicMatter: 2.5,"))
      .change(paths.lab, "packages:\n", "packages:\n  nmin:\n    name: mineral nitrogen\n    measures:\n      mineralN: { method: calciumChlorideNitrogen, unit: kg/ha }\n")
      .write("fields/north/samplings/2026-02-20.yaml", "date: 2026-02-20\npurpose: nitrate\nlab: north-lab\npackage: nmin\ndepth: { from: 0, to: 90, unit: cm }\ncomposites:\n  - { label: N1, zone: west, results: { mineralN: 45 } }\n")
      .remove("fields/north/seasons");
    for (const year of seasons) farm.write(`fields/north/seasons/${year}.yaml`, `season: ${year}\ncrops:\n  - { crop: winterOilseedRape, harvested: ${year}-07-25 }\n`);
    return farm.read({ library: content }).farm!;
  };
  const row = (seasons: readonly number[]) => {
    const farm = folder(seasons);
    const [field] = farm.fields;
    return nitrogenRows(farm, latestAdvice(farm, field!, field!.zones.find((z) => z.id === "west")!)!)[0]!;
  };
  expect(row([2025])).toMatchObject({ value: "175", none: undefined });
  expect(row([2024, 2025])).toMatchObject({ value: "175" });
  expect(row([2024])).toMatchObject({ value: "", missing: ["the crop before, in its season's file"] });
  expect(row([])).toMatchObject({ value: "", missing: ["the crop before, in its season's file"] });
});

// Germany's ordinance, annex 4: winter wheat 230 at 8 t/ha, less 45 in the soil and 10 after rape; no test of phosphorus is asked for it.
it("a field with a test of mineral nitrogen and no routine sampling is told its limit, and what is lacking for the rest", () => {
  const folder = farmFolder()
    .write(paths.farm, tinyFarm[paths.farm]!.replace("units: us", "units: metric").replace("[small-guide]", "[de-ordinance-2017]"))
    .write(paths.field, tinyFarm[paths.field]!.replace("crop: corn\n    yieldGoal: { value: 180, unit: bu/ac }", "crop: winterWheat\n    yieldGoal: { value: 8, unit: t/ha }").replace("siltLoam,", "siltLoam, organicMatter: 2.5,"))
    .change(paths.lab, "packages:\n", "packages:\n  nmin:\n    name: mineral nitrogen\n    measures:\n      mineralN: { method: calciumChlorideNitrogen, unit: kg/ha }\n")
    .remove("fields/north/samplings")
    .remove("fields/north/seasons")
    .write("fields/north/seasons/2025.yaml", "season: 2025\ncrops:\n  - { crop: winterOilseedRape, harvested: 2025-07-25 }\n")
    .write("fields/north/samplings/2026-02-20.yaml", "date: 2026-02-20\npurpose: nitrate\nlab: north-lab\npackage: nmin\ndepth: { from: 0, to: 90, unit: cm }\ncomposites:\n  - { label: N1, zone: west, results: { mineralN: 45 } }\n");
  const { farm } = folder.read({ library: content });
  const [field] = farm!.fields;
  const view = fieldView(farm!, field!);
  expect(view.lede).toBe("Sample this field: it has no routine sampling yet. Nitrogen, by German ordinance: at most 175 kg/ha on West end.");
  expect(view.adviceFrom).toBe("Worked from the newest routine sampling of each zone, or where there is none from its test of nitrogen, for its next crop.");
  expect(view.zones.map((row) => [row.sampled, row.cells[0]!.cell.why])).toEqual([["never", "not sampled"], ["never", "not sampled"]]);
  expect(view.advice.map(({ zone, sampled, old, rows }) => [zone.id, sampled, old, rows.map((r) => [r.subject, r.value, r.none])])).toEqual([
    ["west", "20 February 2026", false, [["Nitrogen (N)", "175", undefined], ["All else", "", "No advice but on nitrogen, because there is no routine sampling."]]],
  ]);
  expect(farmTasks(farm!).map((task) => [task.text, task.detail])).toEqual([
    ["Sample for the first time", "It has no routine sampling."],
    ["A limit of nitrogen", "Nitrogen, by German ordinance: at most 175 kg/ha on West end."],
  ]);
  expect(seasonGaps(farm!).map((g) => g.text)).toEqual([
    "No advice but on nitrogen, because there is no routine sampling.",
    "No nitrogen to spread, because German ordinance says the most that is allowed, and not how much to give.",
    "No advice, because there is no routine sampling.",
  ]);
});

describe("nitrogen by Britain's guide", () => {
  // RB209 2023, table 4.17, deep clayey soil: 190 at index 2 and 8 t/ha; table 4.7: 30 in 1,000 shoots; 4 % of organic matter add nothing, 5 % up to 10.
  const british = (organicMatter = 3, nitrate = "nitrate: { shoots: 1000 }\n", date = "2026-02-20", depth = 90, category = "deepClayey") =>
    farmFolder()
      .write(paths.farm, tinyFarm[paths.farm]!.replace("units: us", "units: metric").replace("[small-guide]", "[uk-rb209-2023]"))
      .write(paths.field, tinyFarm[paths.field]!.replace("crop: corn\n    yieldGoal: { value: 180, unit: bu/ac }", "crop: winterWheat\n    yieldGoal: { value: 8, unit: t/ha }").replace("siltLoam,", `siltyClayLoam, category: ${category}, organicMatter: ${organicMatter},`))
      .change(paths.lab, "packages:\n", "packages:\n  smn:\n    name: mineral nitrogen\n    measures:\n      mineralN: { method: potassiumChloride, unit: kg/ha }\n")
      .write(`fields/north/samplings/${date}.yaml`, `date: ${date}\npurpose: nitrate\nlab: north-lab\npackage: smn\ndepth: { from: 0, to: ${depth}, unit: cm }\n${nitrate}composites:\n  - { label: N1, zone: west, results: { mineralN: 65 } }\n`)
      .remove("fields/north/seasons")
      .write("fields/north/seasons/2025.yaml", "season: 2025\ncrops:\n  - { crop: winterOilseedRape, harvested: 2025-07-25 }\n")
      .read({ library: content });
  const first = (...given: Parameters<typeof british>) => {
    const { farm, problems } = british(...given);
    expect(problems.filter((p) => p.severity === "error")).toEqual([]);
    const field = farm!.fields[0]!;
    return { farm: farm!, field, zone: latestAdvice(farm!, field, field.zones[0]!)! };
  };

  it("is told with the supply and its index, on the field's page, the sampling's and among what to do", () => {
    const { farm, field, zone } = first();
    const [row] = nitrogenRows(farm, zone);
    expect(row).toMatchObject({ value: "190", unit: "kg/ha", guideline: { id: "uk-rb209-2023" } });
    expect(row!.detail).toMatch(/^for winter wheat 2026, from the nitrogen test of 20 February 2026, at a supply of 95 kg\/ha, index 2\. /);
    const [line] = samplingView(farm, field, field.samplings.find((s) => s.purpose === "nitrate")!).results;
    expect(line!.cells[0]!.below).toMatch(/^190 kg\/ha of nitrogen called for, at a supply of 95 kg\/ha, index 2/);
    expect(fieldView(farm, field).lede).toContain("Apply nitrogen on West end");
    expect(farmTasks(farm).find((task) => task.text.startsWith("Apply nitrogen"))).toMatchObject({ detail: expect.stringContaining("Nitrogen (N): 190 kg/ha on West end.") as string, by: { guidelines: [{ id: "uk-rb209-2023" }] } });
  });
  it("is a range where humus may release more, and is bought by its lower end", () => {
    const { farm, zone } = first(5.1);
    // 95 to 106: index 2, or 3 with 160.
    expect(nitrogenRows(farm, zone)[0]).toMatchObject({ value: "160 to 190", unit: "kg/ha" });
    const fed = { ...farm, products: new Map([["an", { id: "an", product: {} as never, fertilizer: { id: "an", name: "ammonium nitrate", analysis: { N: 40, P2O5: 0, K2O: 0 } } } as never]]) };
    const { outcome } = zonePurchase(fed, zone);
    // 160 kg/ha in a fertilizer of 40 % are 400, which are 356.9 lb/ac.
    expect(outcome?.kind === "answer" && outcome.value.products[0]!.rate.value).toBeCloseTo(356.9, 1);
  });
  it.each<[string, string, number, string, string, string?]>([
    ["in November to 60 cm", "2025-11-10", 60, "fine", "190"],
    ["in November to 90 cm", "2025-11-10", 90, "fine", "190"],
    ["in February to 60 cm", "2026-02-20", 60, "not fit for the purpose", ""],
    // Over rock as deep as roots go; table 4.17, shallow soil: 210 at index 2.
    ["in February to 40 cm of a shallow soil", "2026-02-20", 40, "fine", "210", "shallow"],
  ])("a sample taken %s is judged as it is read", (_, date, depth, verdict, value, category) => {
    const { farm, field, zone } = first(3, "nitrate: { cropNitrogen: { value: 30, unit: kg/ha } }\n", date, depth, category);
    const { quality } = samplingView(farm, field, field.samplings.find((s) => s.purpose === "nitrate")!);
    expect(quality.rows.find((r) => r.id === "depth")!.verdict).toBe(verdict);
    expect(nitrogenRows(farm, zone)[0]!.value).toBe(value);
  });
  it("counts what was spread since the test: it is told, and only the rest is due", () => {
    const { farm, field } = first();
    const an = { id: "an", product: { kind: "fertilizer", name: "ammonium nitrate" }, fertilizer: { id: "an", name: "ammonium nitrate", analysis: { N: 34.5, P2O5: 0, K2O: 0 } } } as never;
    const dressed = (...given: (readonly [string, number])[]) => {
      const applications = given.map(([date, value]) => ({ date, product: an, rate: { value, unit: "kg/ha" }, zones: [field.zones[0]!.id] }));
      const of = { ...field, seasons: [...field.seasons, { ...field.seasons[0]!, season: 2026, crops: [], applications: applications as never }] };
      const now = { ...farm, today: "2026-05-10", fields: [of] };
      return { now, of, row: nitrogenRows(now, latestAdvice(now, of, of.zones[0]!)!)[0]! };
    };
    const one = dressed(["2026-03-02", 200], ["2026-05-11", 200], ["2026-02-20", 200]);
    expect(one.row).toMatchObject({ value: "190", detail: expect.stringContaining("Since the test 69 kg/ha of fertilizer nitrogen was spread, and not taken off this.") as string });
    expect(farmTasks(one.now).find((task) => task.text.startsWith("Apply nitrogen"))!.detail).toContain("Nitrogen (N): 121 kg/ha on West end.");
    // Beside a rate that has it taken off, or whose test saw it, it is not told that it was not.
    expect(farmTasks(one.now).map((task) => task.detail).join(" ")).not.toContain("not taken off");
    expect(seasonZones(one.now).flatMap((z) => z.lines.flatMap((line) => line.already))).toEqual([]);
    const all = dressed(["2026-03-02", 200], ["2026-04-10", 400]);
    expect(all.row.value).toBe("190");
    expect(farmTasks(all.now).some((task) => task.text.startsWith("Apply nitrogen"))).toBe(false);
  });
  it("says of a crop whose nitrogen is not held that it is not, since no line of it could be taken for none needed", () => {
    const { farm, field } = first();
    const told = (crop: string, guidelines = field.guidelines) => {
      const plan = field.plan.map((p) => ({ ...p, crop, straw: undefined })) as never;
      return seasonGaps({ ...farm, fields: [{ ...field, plan, guidelines }] }).filter((g) => g.text.includes("tells nitrogen")).map((g) => [g.text, g.missing]);
    };
    expect(told("potatoes")).toContainEqual(["No nitrogen rate for potatoes 2026, because none of the chosen guidelines, as held here, tells nitrogen for potatoes.", ["a guideline that tells nitrogen for potatoes, or your own plan for it"]]);
    expect(told("winterWheat")).toEqual([]);
    expect(told("clover")).toEqual([]);
    // So where no guideline of nitrogen was chosen at all, as in a garden: phosphate and potash are told, and nitrogen would seem forgotten or not needed.
    expect(told("potatoes", field.guidelines.filter((g) => g.id !== "uk-rb209-2023"))).toEqual([["No nitrogen rate, because none of the chosen guidelines tells nitrogen.", ["a guideline for nitrogen, or your own plan for it"]]]);
    // So of pasture in Oklahoma, whose table of nitrogen is held for corn, wheat and sorghum.
    const oklahoma = pack("us-oklahoma-osu");
    expect(told("grassPasture", [oklahoma])).toContainEqual(["No nitrogen rate for grass pasture 2026, because none of the chosen guidelines, as held here, tells nitrogen for grass pasture.", [nitrogenElsewhere("grass pasture")]]);
    expect(told("wheat", [oklahoma])).toEqual([]);
  });
  it("asks for the shoots of the cereal that stood, and says where they are recorded", () => {
    const { farm, zone } = first(3, "");
    expect(nitrogenRows(farm, zone)[0]).toMatchObject({ value: "", missing: ["shoots on a square meter, or cropNitrogen, under nitrate in the sampling's file"] });
  });
});

it("what a law allows at most is told as that, on the field's page and on the sampling's", () => {
  // Germany's ordinance, annex 4: winter wheat 230 at 8 t/ha, less 45 in the soil and 10 after rape.
  const folder = farmFolder()
    .write(paths.farm, tinyFarm[paths.farm]!.replace("units: us", "units: metric").replace("[small-guide]", "[de-ordinance-2017]"))
    .write("fields/north/field.yaml", tinyFarm["fields/north/field.yaml"]!.replace("crop: corn\n    yieldGoal: { value: 180, unit: bu/ac }", "crop: winterWheat\n    yieldGoal: { value: 8, unit: t/ha }").replace("siltLoam,", "siltLoam, organicMatter: 2.5,"))
    .change(paths.lab, "packages:\n", "packages:\n  nmin:\n    name: mineral nitrogen\n    measures:\n      mineralN: { method: calciumChlorideNitrogen, unit: kg/ha }\n")
    .write("fields/north/samplings/2026-02-20.yaml", "date: 2026-02-20\npurpose: nitrate\nlab: north-lab\npackage: nmin\ndepth: { from: 0, to: 90, unit: cm }\ncomposites:\n  - { label: N1, zone: west, results: { mineralN: 45 } }\n");
  for (const year of [2023, 2024, 2025]) folder.write(`fields/north/seasons/${year}.yaml`, `season: ${year}\ncrops:\n  - { crop: ${year === 2025 ? "winterOilseedRape" : "winterWheat"}, harvested: ${year}-08-01, yield: { value: 4, unit: t/ha } }\n`);
  const { farm, problems } = folder.read({ library: content });
  expect(problems.filter((p) => p.severity === "error")).toEqual([]);
  const field = farm!.fields[0]!;
  const [row] = nitrogenRows(farm!, latestAdvice(farm!, field, field.zones[0]!)!);
  expect(row).toMatchObject({ value: "175", unit: "kg/ha", detail: expect.stringMatching(/^at most, for winter wheat 2026, from the nitrogen test of 20 February 2026\. This is what the German ordinance counts/) as string });
  // The first sentence of the field's page and the home page's line tell it: "no advice" would not be true.
  const only = { ...farm!, fields: [{ ...field, zones: field.zones.slice(0, 1) }] };
  expect(fieldView(only, only.fields[0]!).lede).toMatch(/^(.* )?Nitrogen, by German ordinance: at most 175 kg\/ha\. No lime rate, because /);
  expect(fieldView(farm!, field).lede).toContain("Nitrogen, by German ordinance: at most 175 kg/ha on West end.");
  expect(farmTasks(only).map((task) => [task.kind, task.text, task.detail.slice(0, 51)])).toEqual([["question", "A limit of nitrogen", "Nitrogen, by German ordinance: at most 175 kg/ha. N"]]);
  // § 3 (3) and § 4: manure counts toward it. What was spread since the test stands beside the limit, or it is spread up to it once more.
  const slurry = { id: "slurry", product: { kind: "manure", name: "cattle slurry" } } as never;
  const an = { id: "an", product: { kind: "fertilizer", name: "ammonium nitrate" }, fertilizer: { id: "an", name: "ammonium nitrate", analysis: { N: 34.5, P2O5: 0, K2O: 0 } } } as never;
  const applications = [["2026-02-22", slurry, 20, "t/ha"], ["2026-02-18", slurry, 9, "t/ha"], ["2026-03-02", an, 200, "kg/ha"]].map(([date, product, value, unit]) => ({ date, product, rate: { value, unit }, zones: [field.zones[0]!.id] }));
  const manured = { ...field, zones: field.zones.slice(0, 1), seasons: [...field.seasons, { ...field.seasons[0]!, season: 2026, crops: [], applications: applications as never }] };
  const later = { ...farm!, today: "2026-03-10", fields: [manured] };
  expect(nitrogenRows(later, latestAdvice(later, manured, manured.zones[0]!)!)[0]!.detail).toContain("Since the test 69 kg/ha of fertilizer nitrogen and 20 t/ha of cattle slurry on 22 February 2026 were spread, and not taken off this.");
  expect(farmTasks(later)[0]!.detail).toContain("at most 175 kg/ha. Spread since the test, and not taken off: 69 kg/ha of fertilizer nitrogen and 20 t/ha of cattle slurry on 22 February 2026.");
  // No fertilizer is bought up to it, and no rate map holds it.
  const fed = { ...farm!, products: new Map([...farm!.products, ["urea", { id: "urea", product: {} as never, fertilizer: { id: "urea", name: "urea", analysis: { N: 46, P2O5: 0, K2O: 0 } } } as never]]) };
  expect(zonePurchase(fed, latestAdvice(fed, field, field.zones[0]!)!)).toMatchObject({ lacking: [], outcome: undefined });
  expect(seasonGaps(farm!).find((g) => g.text.includes("nitrogen to spread"))).toMatchObject({ text: "No nitrogen to spread, because German ordinance says the most that is allowed, and not how much to give.", places: [{ words: "North Field, West end", anchor: "west-n" }] });
  const [line] = samplingView(farm!, field, field.samplings.find((s) => s.purpose === "nitrate")!).results;
  expect(line!.cells[0]!.below).toMatch(/^at most 175 kg\/ha of nitrogen allowed/);
});
