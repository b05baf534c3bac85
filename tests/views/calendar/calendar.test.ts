import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { installation } from "../../../scripts/options.ts";
import { readFarm } from "../../../src/records/reading/readFarm.ts";
import { calendarView, nextSamplings } from "../../../src/views/calendar/calendar.ts";
import { duePlans } from "../../../src/views/plan/duePlans.ts";
import { duePlanView } from "../../../src/views/plan/plan.ts";
import { planLabelsCsv } from "../../../src/views/plan/planFiles.ts";
import { intervalOf } from "../../../src/views/calendar/nextSamplings.ts";
import { nextOrder } from "../../../src/views/calendar/testingFees.ts";
import { farmTesting, fieldTesting, testingRow } from "../../../src/views/calendar/testingCosts.ts";
import { farmWorth, worthView } from "../../../src/views/calendar/worthView.ts";
import { farmFolder } from "../../support/farmFolder.ts";
import { answered } from "../../support/outcomes.ts";
import { pack } from "../../support/packs.ts";
import { paths } from "../../support/tinyFarm.ts";

const read = (folder: string[], today?: string) => readFarm({ content: join(installation, ...folder), library: join(installation, "content"), ...(today && { today }) }).farm!;
const demo = read(["content"]);
const field = (id: string) => demo.fields.find((f) => f.id === id)!;
const view = calendarView(demo);
const season = (label: string) => view.seasons.find((s) => s.label === label)!;

describe("the demo farm's calendar, from 28 October 2025", () => {
  it("puts the seasons in order, what is overdue in the first", () => {
    expect(view.seasons.map((s) => s.label)).toEqual(["Autumn 2025", "June 2026", "Spring 2027", "June 2027", "Autumn 2027", "Autumn 2029"]);
    expect(view.seasons.flatMap((s) => s.entries.filter((e) => e.overdue).map((e) => `${s.label} ${e.field.id}`))).toEqual(["Autumn 2025 netloft"]);
  });

  it("takes in the winter at hand what was due in autumn, under a plain anchor", () => {
    const [first] = calendarView(read(["content"], "2026-01-10")).seasons;
    expect([first!.label, first!.id, first!.entries.map((e) => e.field.id)]).toEqual(["Winter 2025–26", "winter-2025-26", ["netloft"]]);
  });

  it("keeps each field to its season, by its guideline's longest interval", () => {
    // Sampled in October 2025, every 3 to 4 years: autumn 2029. Three bags at $18 and two: $54 and $36.
    expect(season("Autumn 2029").entries.map((e) => [e.field.id, e.what, e.bags, e.cost])).toEqual([["causeway", "Full sampling", 3, "$54"], ["saltings", "Full sampling", 2, "$36"]]);
    expect(season("Autumn 2029").total).toBe("Five bags, $90 to the laboratory");
    expect(season("Autumn 2029").entries[0]!.why.join(" ")).toContain("Tri-State 2020: every 3 to 4 years. Last sampled 18 October 2025: keep to autumn, because soil pH and potassium move with the season.");
  });

  it("checks pH between, where lime is called for, in the season of the last check", () => {
    expect(season("Spring 2027").entries.map((e) => [e.field.id, e.what, e.where, e.cost])).toEqual([["causeway", "pH check", "Outwash", "$5"]]);
  });

  it("asks for a June test where corn is planned, by the height of the corn and no date", () => {
    expect(season("June 2026").entries.map((e) => [e.field.id, e.what, e.bags])).toEqual([["netloft", "Nitrate sampling", 2]]);
    // Iowa: corn 6 to 12 in tall.
    expect(season("June 2026").entries[0]!.why[1]).toBe("Not before it stands 6 in, nor after 12 in, measured to the center of the whorl (Iowa late-spring nitrate).");
  });

  it("asks of each plan that is due the fee that the plan's own page shows, of the laboratory and package on its lists", () => {
    const due = demo.fields.flatMap((f) => duePlans(demo, f));
    expect(due.map((d) => [d.field.id, d.purpose])).toEqual([["netloft", "routine"], ["netloft", "nitrate"]]);
    for (const plan of due) {
      const entry = view.seasons.flatMap((s) => s.entries).find((e) => e.field === plan.field && e.purpose === plan.purpose)!;
      const facts = duePlanView(demo, plan).facts;
      expect(facts.find((f) => f.term === "Fee")!.value.split(",")[0]).toBe(entry.cost);
    }
    // No nitrate sampling of Netloft is on record: the cheapest package with nitrate, at the laboratory it goes to.
    const order = nextOrder(demo, field("netloft"), "nitrate")!;
    expect([order.lab.name, order.lab.packages[order.packageId]!.fee]).toEqual(["Fulmar Soil Laboratory", 8]);
    expect(planLabelsCsv(demo, field("netloft"), duePlanView(demo, due[1]!).plan).split("\r\n")[1]).toMatch(/,Fulmar Soil Laboratory,[^,]+,Nitrate-N$/);
  });

  it("tells the fee of one bag once", () => {
    const one = { ...field("netloft"), zones: field("netloft").zones.slice(0, 1) };
    const plan = duePlans({ ...demo, fields: [one] }, one).find((d) => d.purpose === "nitrate")!;
    expect(duePlanView({ ...demo, fields: [one] }, plan).facts.find((f) => f.term === "Fee")!.value).toBe("$8");
  });

  it("tells a fee of 12.50 to the cent: two bags at $13 would not make $25", () => {
    const odd = farmFolder().change("labs/north-lab.yaml", "fee: 12\n", "fee: 12.5\n").change(paths.guideline, "  - id: lime\n", "  - id: interval\n    kind: samplingSpec\n    purpose: routine\n    years:\n      - { most: 4, source: { reference: bulletin-1 }, evidence: memory }\n  - id: lime\n").read().farm!;
    const { seasons, costs } = calendarView(odd);
    const said = JSON.stringify([seasons, costs.map((c) => ({ ...c, field: undefined }))]);
    expect(said).toContain("$25");
    expect(said).toContain("$12.50");
    expect(said).not.toContain("$13");
  });

  it("tells an interval that has a longest wait alone", () =>
    expect(intervalOf({ ...field("causeway"), guidelines: [pack("us-pennsylvania-agronomy-guide")] }).words).toBe("Penn State: at least every 3 years."));

  it("guesses no package of several for a first full sampling", () => {
    const folder = farmFolder().remove("fields/north/samplings").remove("fields/north/seasons");
    const order = (f: typeof folder) => nextOrder(f.read().farm!, f.read().farm!.fields[0]!, "routine");
    expect(order(folder)?.packageId).toBe("basic");
    folder.change("labs/north-lab.yaml", "packages:", "packages:\n  second: { name: second, measures: { P: { method: mehlich3, unit: ppm } } }");
    expect(order(folder)).toBeUndefined();
  });

  it("tells what one sampling more would show", () => {
    expect(season("Autumn 2029").entries[1]!.why.at(-1)).toBe("If the change seen is real, one more sampling, taken as before, would show it four times out of five: potassium on West lea and East lea.");
  });

  it("moves with the day it speaks from, and with no clock", () => {
    const later = calendarView(read(["content"], "2026-07-01"));
    expect(later.seasons.map((s) => s.label)).toEqual(["Autumn 2026", "Spring 2027", "June 2027", "Autumn 2027", "Autumn 2029"]);
    expect(later.seasons[0]!.entries[0]!.why).toContain("It was due in autumn 2025.");
  });
});

it("says that a sampling was due when its page says so, where the zones were sampled in different seasons", () => {
  const bag = (zone: string) => `  - { label: "${zone}", zone: ${zone}, results: { pH: 6.2, P: 20, K: 110 } }`;
  const event = (date: string, zone: string) => ["date: " + date, "purpose: routine", "lab: north-lab", "package: basic", "depth: { from: 0, to: 8, unit: in }", "composites:", bag(zone), ""].join("\n");
  const farm = farmFolder()
    .change("farm.yaml", "[small-guide]", "[us-tristate-974-2020]")
    .remove("guidelines")
    .remove("fields/north/samplings")
    .write("fields/north/samplings/2021-04-15.yaml", event("2021-04-15", "west"))
    .write("fields/north/samplings/2024-10-10.yaml", event("2024-10-10", "east"))
    .read({ library: join(installation, "content"), today: "2025-10-28" }).farm!;
  // Four years from April 2021; it is kept to the autumn of the newest sampling, and that is not over.
  expect(nextSamplings(farm)[0]).toMatchObject({ overdue: true, slot: { year: 2025, part: "autumn" } });
  expect(nextSamplings(farm)[0]!.why).toContain("It was due in spring 2025.");
});

describe("open questions", () => {
  it("names two zones that more bags would settle, and says when a field was never sampled", () => {
    const bag = (zone: string, pH: number, P: number, K: number) => `  - { label: "${zone}", zone: ${zone}, cores: 20, results: { pH: ${pH}, P: ${P}, K: ${K} } }`;
    const folder = farmFolder().remove("fields/north/samplings");
    const bare = folder.read({ library: join(installation, "content") }).farm!;
    expect(nextSamplings(bare)[0]).toMatchObject({ overdue: true, why: ["It was never fully sampled. Take it in the season it can be taken in every time."] });
    // One common sampling: too little to tell whether the two differ.
    folder.write("fields/north/samplings/2025-10-14.yaml", ["date: 2025-10-14", "purpose: routine", "lab: north-lab", "package: basic", "depth: { from: 0, to: 8, unit: in }", "composites:", bag("west", 6.2, 20, 110), bag("east", 6.5, 24, 121)].join("\n"));
    const one = folder.read({ library: join(installation, "content") }).farm!;
    expect(nextSamplings(one)[0]!.why).toContain("Open: whether West end and East end may share a bag. Bags of both from one day add to what is known.");
  });
});

describe("what testing costs", () => {
  it("is bags x fee / acres / years", () => {
    const { bags, fee, years, acres, cost } = answered(fieldTesting(demo, field("causeway"))).value;
    expect([bags, fee, years]).toEqual([3, 18, 4]);
    expect(cost).toBeCloseTo((3 * 18) / acres / 4, 12);
    expect(testingRow(demo, field("causeway"))).toMatchObject({ each: "$54", perYear: "$0.41 an acre", sum: "3 × $18.00 ÷ 32.9 acres ÷ 4 years" });
  });

  it("adds up over the farm: (54 + 36 + 18 + 36) / 4 = 36 dollars a year", () => {
    expect(farmTesting(demo).perYear).toBeCloseTo(36, 12);
    expect(view.farmCost).toBe("Full sampling of the whole farm costs $36 a year to the laboratory, $0.56 an acre and year.");
  });

  it("tells what a zone more or fewer changes, by bags for the area", () => {
    // 18 / 4 / 32.9 = 0.137. Tri-State 2020 asks for a bag of 25 acres at most: Knoll and Apron have 9.7 and 17.2, and together need two still.
    expect(testingRow(demo, field("causeway")).change).toBe("Two zones merged save nothing or $18 each time, by which two they are, and one split in two costs $18; a bag of $18 is $0.14 an acre and year.");
    expect(testingRow(demo, field("ropewalk")).change).toMatch(/^A zone split in two costs \$18 more each time; a bag/);
  });

  it("is in the units of the farm, and says why there is none", () => {
    const tiny = farmFolder().read({ library: join(installation, "content") }).farm!;
    expect(testingRow(tiny, tiny.fields[0]!).sum).toBe("No cost, because none of the chosen guidelines gives an interval for routine sampling.");
    const metric = read(["tests", "fixtures", "metric"]);
    expect(testingRow(metric, metric.fields.find((f) => f.id === "shingle")!).sum).toBe("1 × £25.00 ÷ 2.0 ha ÷ 5 years");
    expect(testingRow(metric, metric.fields.find((f) => f.id === "longstrand")!).perYear).toMatch(/^£\d+\.\d\d a hectare$/);
  });
});

describe("whether testing is worth it", () => {
  it("is told zone by zone, with its sum", () => {
    const { zones, says } = worthView(demo, field("netloft"));
    // 180 bu corn: 63 lb P2O5 at 610 / 920 and 36 lb K2O at 450 / 1,200 a lb = 41.77 + 13.50 = 55.27; less 2 x 18 / 8.3 / 4 = 1.08.
    expect(zones[0]!.says).toBe("For corn 2026: $0 an acre of phosphate and potash by the results, $55 an acre to replace the harvest; after the laboratory $54 an acre is left each year.");
    expect(zones[0]!.steps.at(-1)!.result).toBe("$54.19");
    expect(says).toMatch(/^Over the whole field, a year: phosphate and potash cost \$461 less than replacing the harvests, the laboratory \$9: \$452 is left\.$/);
  });

  it("says where more is spent than without, and why no comparison can be made", () => {
    expect(worthView(demo, field("saltings")).says).toContain("more is spent than without testing");
    expect(worthView(demo, field("ropewalk"))).toEqual(expect.objectContaining({ says: "", zones: [expect.objectContaining({ says: "No comparison, because there is no phosphate rate: Tri-State 2020 has no rule for grass pasture.", steps: [] })] }));
  });

  it("says that a goal is lacking whatever the crop is called, and where rounded sums seem not to add up", () => {
    const netloft = field("netloft");
    const without = { ...netloft, plan: netloft.plan.map((p) => ({ ...p, crop: "tomato" as const, yieldGoal: undefined })), guidelines: [] };
    expect(worthView({ ...demo, fields: [without] }, without).zones[0]!.says).toMatch(/no yield goal is set for tomatoes\.$/);
    const scaled = (factor: number): string => {
      const causeway = field("causeway");
      const smaller = { ...causeway, zones: causeway.zones.map((z) => ({ ...z, squareMeters: z.squareMeters! * factor })) };
      return worthView({ ...demo, fields: [smaller] }, smaller).says;
    };
    expect(scaled(1)).toMatch(/cost \$87 more than .*, lime costs \$96, the laboratory \$14: \$196 more is spent than without testing, each rounded\.$/);
    expect(scaled(0.8)).toMatch(/cost \$69 more than .*, lime costs \$77, the laboratory \$14: \$160 more is spent than without testing\.$/);
  });

  it("takes the rates of advice that was issued from the sampling, for the same crop", () => {
    // The kept advice of 5 November 2020, of Knoll for wheat 2021: 36.75 lb/ac of phosphate and no potash, as the file says.
    const whole = field("causeway");
    const cut = { ...whole, samplings: whole.samplings.filter((s) => s.date <= "2020-10-20") };
    const then = { ...demo, today: "2020-11-30", fields: [cut] };
    const kept = whole.recommendations[0]!.record.zones[0]!;
    const [p2o5, k2o] = ["p2o5", "k2o"].map((q) => kept.answers.find((a) => a.question === q)!.figures!["value"] as number);
    const zone = worthView(then, cut).zones[0]!;
    expect(zone.says).toContain("by the results, as issued on 5 November 2020,");
    expect([p2o5, k2o]).toEqual([36.75, 0]);
    expect(zone.steps[0]!.result).toBe("36.8 P₂O₅ and 0 K₂O");
  });

  it("counts the lime that the field's page advises: the first of the farm's with a rate", () => {
    const ground = demo.products.get("ground-limestone")!;
    const unknown = { ...ground, id: "wood-ash", lime: { ...ground.lime!, id: "wood-ash", stated: {}, analysis: undefined } };
    const two = { ...demo, products: new Map([["wood-ash", unknown], ...demo.products]) };
    expect(worthView(two, field("causeway")).says).toBe(worthView(demo, field("causeway")).says);
    // Where none has one, what is missing is told, and not that none is listed.
    const told = worthView({ ...demo, products: new Map([...demo.products, ["ground-limestone", { ...unknown, id: "ground-limestone" }]]) }, field("causeway")).zones.map((z) => z.steps.map((s) => s.note).join(" ") + z.says).join(" ");
    expect(told).not.toContain("lists no liming material");
  });

  it("calls no lime free whose cost is not known", () => {
    const unpriced = { ...demo, products: new Map([...demo.products].map(([id, p]) => [id, p.lime ? { ...p, lime: { ...p.lime, pricePerTon: undefined } } : p])) };
    expect(worthView(unpriced, field("causeway")).says).toMatch(/replacing the harvests, the laboratory \$14: .* Not in the sum: lime on Outwash\.$/);
    // What is so of one zone is not told of the field, wherever that zone stands.
    const turned = { ...field("causeway"), zones: field("causeway").zones.toReversed() };
    expect(worthView(unpriced, turned).says).toMatch(/ Not in the sum: lime on Outwash\.$/);
    expect(worthView(unpriced, turned).zones[0]!.says).toContain("Lime is not in the sum, because ");
    const { says, rows } = farmWorth(unpriced);
    expect(says).toMatch(/ Not in the sum: Ropewalk; lime on Outwash of Causeway\.$/);
    // Knoll and Apron need none, and neither does Netloft.
    expect(rows.slice(0, 2).map((r) => r.lime)).toEqual(["$0, in part", "$0"]);
    const none = { ...unpriced, fields: [{ ...field("causeway"), zones: field("causeway").zones.slice(2) }] };
    expect(farmWorth(none).rows[0]!.lime).toBe("not known");
  });

  it("says once for the whole field what is so of each zone: that no guideline has a word on lime", () => {
    const unlimed = { ...demo, fields: demo.fields.map((f) => (f.id === "saltings" ? { ...f, targetPh: undefined, guidelines: [{ ...f.guidelines[0]!, sections: f.guidelines[0]!.sections.filter((s) => s.kind !== "targetPh") }] } : f)) };
    const { says, zones } = worthView(unlimed, unlimed.fields.find((f) => f.id === "saltings")!);
    const because = "Lime is not in the sum, because none of the chosen guidelines says when to lime.";
    expect(says.split(because)).toHaveLength(2);
    expect(says).not.toContain("Not in the sum:");
    expect(zones).toHaveLength(2);
    expect(zones.filter((z) => z.says.includes("Lime is not in the sum"))).toEqual([]);
    // Of the farm it is told beside the other fields, and of one field alone by one word.
    expect(farmWorth(unlimed).says).toMatch(/ Not in the sum: Ropewalk; lime on West lea of Saltings and East lea of Saltings\.$/);
    const saltings = unlimed.fields.find((f) => f.id === "saltings")!;
    expect(farmWorth({ ...unlimed, fields: [saltings] }).says).toMatch(/ Not in the sum: lime\.$/);
    const again = { ...saltings, id: "again", zones: saltings.zones.map((z) => ({ ...z })) };
    expect(farmWorth({ ...unlimed, fields: [saltings, again] }).says).toMatch(/ Not in the sum: lime\.$/);
  });

  it("sums the fields, and names the one it leaves out", () => {
    const { says, rows } = farmWorth(demo);
    expect(says).toBe("Over the farm, a year: phosphate and potash cost $181 less than replacing the harvests, lime costs $96, the laboratory $32: $53 is left. Not in the sum: Ropewalk.");
    // -196 + 452 - 203 = 53.
    expect(rows.map((r) => r.none ?? r.left)).toEqual(["−$196", "$452", expect.stringMatching(/^not told, because/), "−$203"]);
  });
});
