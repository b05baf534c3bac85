import { join } from "node:path";
import { expect, it } from "vitest";
import { installation } from "../../../scripts/options.ts";
import type { Farm, Field } from "../../../src/records/model.ts";
import type { Measurement } from "../../../src/interpretation/measurement.ts";
import { forAudience } from "../../../src/records/audience/forAudience.ts";
import { readFarm } from "../../../src/records/reading/readFarm.ts";
import { byNeed, fieldList } from "../../../src/views/home/fieldList.ts";
import { homeView } from "../../../src/views/home/home.ts";
import { fieldView } from "../../../src/views/field/field.ts";
import { homeMap } from "../../../src/views/home/homeMap.ts";
import { advisedFarm } from "../../support/archived.ts";
import { farmFolder } from "../../support/farmFolder.ts";
import { library } from "../../support/gardenFarm.ts";
import { paths, tinyFarm } from "../../support/tinyFarm.ts";
import { manyFields } from "../../support/manyFields.ts";

const demo = readFarm({ content: library, library }).farm!;

it("says first what to do and why, the most urgent kinds of work in one sentence each", () => {
  const view = homeView(demo);
  expect(view.lede).toBe("Sample Netloft again: it was last sampled in October 2021. Lime Outwash on Causeway, where soil pH is 5.7. Spread potash on Causeway and Saltings, where potassium is low.");
  expect(view.rest).toBe("Besides: phosphorus low on one field and no rate of lime, phosphate or potash on one field.");
  expect(view.tasks.map((t) => [t.kind, t.field.name])).toEqual([
    ["sampling", "Netloft"],
    ["lime", "Causeway"],
    ["potassium", "Causeway"],
    ["potassium", "Saltings"],
    ["question", "Ropewalk"],
  ]);
  expect(view.tasks[2]!.detail).toContain("Potassium and phosphorus are deficient on Knoll and Outwash.");
});

it("tells, wherever a person is told what to spread, what was spread since the sampling and is not taken off", () => {
  const spread = (applications: string) => farmFolder(Object.entries(advisedFarm)).write("fields/north/seasons/2026.yaml", `season: 2026\napplications:\n${applications}`).read().farm!;
  // Advised by the sampling of 18 October 2025: 1.9 ton/ac of lime on West end, potash on both zones.
  const lime = "  - { date: 2025-11-20, product: ground-limestone, rate: { value: 1.9, unit: ton/ac } }\n";
  const limed = spread(lime);
  const already = "Spread already, and not taken off: 1.9 ton/ac of ground limestone on 20 November 2025.";
  expect(homeView(limed).lede).toMatch(/^Lime West end on North Field, where soil pH is 6\.2; lime was spread there since the sampling\./);
  expect(homeView(limed).tasks.map((t) => [t.kind, t.detail.includes(already.replace(/\.$/, " on West end."))])).toEqual([["lime", true], ["crop", false]]);
  const page = fieldView(limed, limed.fields[0]!);
  expect(page.why).toContain(already.replace(/\.$/, " on West end."));
  // Nothing is said of it where no lime is called for.
  expect(page.advice.map((a) => a.already)).toEqual([already, undefined]);

  const potash = (zones: string, rate: number) => `  - { date: 2026-04-20, product: potash, zones: ${zones}, rate: { value: ${rate}, unit: lb/ac } }\n`;
  const fed = spread(potash("[west]", 138) + potash("[east]", 37));
  expect(homeView(fed).tasks[1]!.detail).toContain("Spread already, and not taken off: 138 lb/ac of muriate of potash on 20 April 2026 on West end; 37 lb/ac of muriate of potash on 20 April 2026 on East end.");
  expect(homeView(fed).lede).toBe("Lime West end on North Field, where soil pH is 6.2. Fertilizer for the next crop is advised on North Field; some was spread there since the sampling.");
  expect(homeView(spread("  []\n")).lede).not.toContain("since the sampling");

  // Of many fields how many.
  const many = manyFields(limed, 5);
  expect(homeView(many).lede).toContain("Lime five fields, where the guidelines call for it; on five of them lime was spread since the sampling.");
});

it("lists work of one urgency in the order of the list of fields: the longest untested first", () => {
  const saltings = demo.fields.find((f) => f.id === "saltings")!;
  // A field like Saltings, before it by name, and sampled two days after it.
  const samplings = saltings.samplings.map((s) => (s.date === "2025-10-18" ? { ...s, date: "2025-10-20" } : s));
  const farm = { ...demo, fields: [{ ...saltings, id: "attic", name: "Attic", samplings }, saltings] };
  expect(homeView(farm).tasks.map((t) => t.field.name)).toEqual(["Saltings", "Attic"]);
  expect(byNeed(fieldList(farm)).map((r) => r.field.name)).toEqual(["Saltings", "Attic"]);
});

it("names the nutrients that are low besides phosphorus and potassium, each with its fields", () => {
  // Iowa 2013: zinc by DTPA is low below 0.5 ppm and marginal below 0.9; nothing but zinc is low.
  const folder = farmFolder().change("farm.yaml", "[small-guide]", "[us-iowa-pm1688-2013]").change(paths.lab, "      K: {", "      Zn: { method: dtpa, unit: ppm }\n      K: {");
  folder.write(paths.sampling, `date: 2025-10-18\npurpose: routine\nlab: north-lab\npackage: basic\ndepth: { from: 0, to: 6, unit: in }\ncomposites:\n${["west", "east"].map((z) => `  - { label: ${z}, zone: ${z}, results: { pH: 6.9, P: 60, K: 300, Zn: 0.3 } }\n`).join("")}`);
  const { farm, problems } = folder.read({ library });
  expect(problems).toEqual([]);
  const { lede, rest } = homeView(farm!);
  expect(lede).toBe("Zinc is low on North Field.");
  expect(rest).toBe("Besides: no rate of lime on one field.");
  const twice = { ...farm!, fields: [farm!.fields[0]!, { ...farm!.fields[0]!, id: "south", name: "South Field", zones: farm!.fields[0]!.zones.map((z) => ({ ...z })) }] };
  expect(homeView(twice).lede).toBe("Zinc is low on North Field and South Field.");
  expect(homeView(twice).rest).toBe("Besides: no rate of lime on two fields.");
});

it("names several such nutrients in one sentence, counts many fields, and tells a single question by its name", () => {
  const field = (id: string, name: string, results: string, plan: string): [string, string][] => [
    [`fields/${id}/field.yaml`, tinyFarm[paths.field]!.replace("North Field", name).replace(/plan:[^]*/, plan)],
    [`fields/${id}/samplings/2025-10-18.yaml`, `date: 2025-10-18\npurpose: routine\nlab: north-lab\npackage: basic\ndepth: { from: 0, to: 6, unit: in }\ncomposites:\n${["west", "east"].map((z) => `  - { label: ${id}${z}, zone: ${z}, results: { ${results} } }\n`).join("")}`],
  ];
  const home = (...fields: [string, string][][]) => {
    const folder = farmFolder().change("farm.yaml", "[small-guide]", "[small-guide, us-newjersey-rutgers, us-iowa-pm1688-2013]").remove("fields");
    folder.write(paths.lab, tinyFarm[paths.lab]!.replace("      K: {", "      Cu: { method: mehlich3, unit: ppm }\n      Zn: { method: mehlich3, unit: ppm }\n      K: {"));
    for (const [file, text] of fields.flat()) folder.write(file, text);
    const { farm, problems } = folder.read({ library });
    expect(problems.filter((p) => p.severity === "error")).toEqual([]);
    return homeView(farm!);
  };
  const alfalfa = "plan: [{ season: 2026, crop: alfalfa }]\n";
  const both = (id: string, name: string) => field(id, name, "pH: 6.9, P: 100, K: 400, Zn: 0.2, Cu: 0.2", alfalfa);
  const zinc = (id: string, name: string) => field(id, name, "pH: 6.9, P: 100, K: 400, Zn: 0.2, Cu: 5", alfalfa);
  expect(home(both("a", "Ash"), zinc("b", "Birch"), zinc("c", "Cedar")).lede).toBe("Zinc is low on Ash, Birch and Cedar, and copper on Ash.");
  expect(home(both("a", "Ash"), zinc("b", "Birch"), zinc("c", "Cedar"), zinc("d", "Elm")).lede).toBe("Zinc is low on four fields and copper on Ash.");
  expect(home(both("a", "Ash"), both("b", "Birch"), zinc("c", "Cedar")).lede).toBe("Zinc is low on Ash, Birch and Cedar, and copper on Ash and Birch.");
  expect(home(both("a", "Ash"), both("b", "Birch")).lede).toBe("Zinc and copper are low on Ash and Birch.");
  // Below the three most urgent kinds of work.
  const poor = (zn: string, more: [string, string][] = []) => home(field("p", "Poplar", `pH: 5.4, bufferPh: 6.4, P: 5, K: 20, ${zn}`, "targetPh: { value: 6.5, reason: a test }\nplan: [{ season: 2026, crop: corn }]\n"), more);
  const unplanned = field("r", "Rowan", "pH: 6.9", "");
  const unlimed = field("s", "Sorrel", "pH: 6.9, P: 100, K: 400", "plan: [{ season: 2026, crop: corn }]\n");
  expect([poor("Zn: 0.2, Cu: 5"), poor("Zn: 0.2, Cu: 0.2"), poor("Zn: 5", unplanned), poor("Zn: 5", [...unplanned, ...unlimed])].map((view) => view.rest)).toEqual([
    "Besides: zinc low on one field.",
    "Besides: another nutrient low on one field.",
    "Besides: no rate of lime, phosphate or potash on one field.",
    "Besides: a question open on two fields.",
  ]);
});

it("sets a comma between fields whose zones are named, which hold an 'and' of their own", () => {
  const causeway = demo.fields.find((f) => f.id === "causeway")!;
  const sour = (zone: string, m: Measurement): Measurement => (zone === "apron" && m.analyte === "pH" ? { ...m, value: 5.7 } : m);
  const samplings = causeway.samplings.map((s) => ({ ...s, composites: s.composites.map((c) => ({ ...c, measurements: c.measurements.map((m) => sour(c.zone, m)) })) }));
  const fields = ["Causeway", "Dike"].map((name) => ({ ...causeway, id: name, name, samplings, zones: causeway.zones.map((z) => ({ ...z })) }));
  expect(homeView({ ...demo, fields }).lede).toContain("Lime Apron and Outwash on Causeway, and Apron and Outwash on Dike, where soil pH is 5.7.");
});

it("adds the acres up that the fields show: 32.9 and 8.3 owned, 11.9 and 10.7 rented; all but Netloft sampled in time", () => {
  const facts = Object.fromEntries(homeView(demo).facts.map((f) => [f.term, f.value]));
  expect(facts["Land"]).toBe("63.8 acres");
  expect(facts["Tenure"]).toBe("41.3 acres owned and 22.6 acres rented, each rounded");
  expect(facts["Sampled within the guideline's interval"]).toBe("55.5 acres of 63.8");
  // Added up by field and by zone, these differ in their last binary digit.
  const measured = [38577.1, 62686.3, 65905.5, 70932.2, 53866.3, 28029.1, 81593.4, 37191.2].values();
  const uneven = { ...demo, fields: demo.fields.map((f) => ({ ...f, zones: f.zones.map((z) => ({ ...z, squareMeters: measured.next().value }) ) })) };
  expect(homeView(uneven).facts.find((f) => f.term.startsWith("Sampled within"))!.value).toMatch(/^[\d.]+ acres of [\d.]+$/);
  // Ropewalk, 11.9 acres, by a guideline without an interval: it is neither in time nor late.
  const some = { ...demo, fields: demo.fields.map((f) => (f.id === "ropewalk" ? { ...f, guidelines: [demo.allGuidelines.get("soil-chemistry")!] } : f)) };
  expect(homeView(some).facts.find((f) => f.term.startsWith("Sampled within"))!.value).toBe("43.6 acres of 52.0, the rest having no interval");
});

it("tells no share of 0 acres where the one field that is due is not mapped, and the others have no interval", () => {
  const plain = { guidelines: [demo.allGuidelines.get("soil-chemistry")!] };
  const fields = demo.fields.map((f) => (f.id === "netloft" ? { ...f, ...plain, samplings: [], zones: f.zones.map((z) => ({ ...z, squareMeters: undefined })) } : { ...f, ...plain }));
  expect(homeView({ ...demo, fields }).facts.map((f) => f.term)).not.toContain("Sampled within the guideline's interval");
});

it("gives no land of 0 acres to a tenure whose fields are not mapped", () => {
  const fields = demo.fields.map((f) => (f.tenure?.kind === "rented" ? { ...f, zones: f.zones.map((z) => ({ ...z, squareMeters: undefined })) } : f));
  const facts = Object.fromEntries(homeView({ ...demo, fields }).facts.map((f) => [f.term, f.value]));
  expect(facts["Land"]).toBe("41.3 acres, without two not mapped");
  expect(facts["Tenure"]).toBe("41.3 acres owned");
});

it("of a large farm shows only what matters most: fields are counted, lines few, and no map of specks", () => {
  const view = homeView(manyFields(demo, 20));
  expect(view.lede).toBe("Lime 20 fields, where the guidelines call for it. Spread potash on 20 fields, where potassium is low. Spread phosphate on 20 fields, where phosphorus is low.");
  expect(view.tasks).toHaveLength(8);
  expect(view.more).toBe(32);
  expect(view.zones).toBeUndefined();
  expect(view.urgent).toHaveLength(12);
  const map = homeMap(manyFields(demo, 134));
  expect(map).toEqual({ model: undefined, note: "No map of the whole farm, because its 402 zones could not be told apart on one page. Each field has its own." });
});

it("of a middling farm draws the map without numbers, and marks with a letter where lime is due", () => {
  const { model, note } = homeMap(manyFields(demo, 21));
  expect(new Set(model!.zones.map((z) => `${z.css} ${z.lines.join()}`))).toEqual(new Set(["c-v3 ", "c-v2 L"]));
  expect(model!.names).toEqual([]);
  expect(note).toContain("L: lime due.");
});

it("where a field lies far from the others, prints no name and no letter on the map over another, and says so", () => {
  const moved = (position: unknown): unknown => (Array.isArray(position) && typeof position[0] === "number" ? [position[0] + 0.1, (position[1] as number) + 0.05] : (position as unknown[]).map(moved));
  const fields = demo.fields.map((f) => (f.id === "saltings" ? { ...f, zones: f.zones.map((z) => ({ ...z, area: { ...z.area!, coordinates: moved(z.area!.coordinates) } as NonNullable<typeof z.area> })) } : f));
  const { model, note } = homeMap({ ...demo, fields });
  expect(model!.names.map((n) => n.text)).toEqual(["Saltings"]);
  expect(model!.zones.flatMap((z) => z.lines)).toEqual([]);
  expect(note).toContain("The numbers have no room here and stand on the fields' own pages. Names that have no room are left out; each field's own page has a map.");
  const near = homeMap(demo);
  expect(near.model!.names.map((n) => n.text)).toEqual(["Causeway", "Netloft", "Ropewalk", "Saltings"]);
  expect(near.model!.zones.map((z) => z.lines.join())).toEqual(["A · 6.3", "B · 6.5", "C · 5.7", "A · 6.4", "B · 6.7", "6.2", "A · 6.5", "B · 6.7"]);
  expect(near.model!.zones[2]!.title).toBe("Causeway, Outwash: pH 5.7");
  expect(near.model!.legend.map((c) => c.label)).toEqual(["lime due", "in range", "no class by its guidelines"]);
  expect(near.note).not.toContain("room");
});

it("of a farm where nothing was sampled asks for samples, of one that no guideline answers says what is open, and of one without fields says so", () => {
  const { farm } = farmFolder().remove("fields/north/samplings").remove("fields/north/seasons").read();
  expect(homeView(farm!).lede).toBe("Sample North Field: it has no routine sampling yet.");
  const [north] = farm!.fields;
  expect(homeView({ ...farm!, fields: [north!, { ...north!, id: "netloft", name: "Netloft" }] }).lede).toContain("Sample every zone of Netloft and North Field, which are due.");
  const ropewalk = { ...demo, fields: demo.fields.filter((f) => f.id === "ropewalk") };
  expect([homeView(ropewalk).lede, homeView(ropewalk).rest]).toEqual(["No work is advised now; on Ropewalk a question must be settled first.", ""]);
  expect(homeView({ ...farm!, fields: [] }).lede).toBe("No field is recorded yet.");
});

it("counts nothing that is left out for a reader as a question open, and says what is left out", () => {
  const { lede, rest, tasks } = homeView(forAudience(demo, demo.audiences.get("landlord")!));
  expect([lede, rest]).toEqual(["Potassium is low on Saltings.", ""]);
  expect(tasks.map((t) => [t.kind, t.text, t.detail])).toEqual([["question", "No rates are shown", "Rates that rest on a yield are left out for this reader."]]);
});

it("does not say of a zone that is low that it gets what is spread on another one", () => {
  // West end is low and has no yield goal to work a rate from; East end is fed what its harvest takes.
  const { farm, problems } = farmFolder()
    .change("farm.yaml", "[small-guide]", "[us-tristate-974-2020]")
    .change("fields/north/field.yaml", "    yieldGoal: { value: 180, unit: bu/ac }\n", "    zones: [west]\n  - { season: 2026, crop: corn, zones: [east], yieldGoal: { value: 180, unit: bu/ac } }\n")
    .read({ library });
  expect(problems).toEqual([]);
  const { lede, tasks } = homeView(farm!);
  expect(lede).toContain("Potassium is low on North Field.");
  expect(lede).not.toContain("Spread potash");
  expect(tasks.find((t) => t.text.startsWith("Apply"))).toMatchObject({ kind: "potassium", text: "Apply potash on East end", detail: expect.stringMatching(/^Potassium and phosphorus are deficient on West end\..* Potash \(K₂O\): \d+ lb\/ac on East end\..* No potash rate is shown for West end\./) as string });
});

it("draws no map where no boundary is on record or the reader is not shown it, and says so instead of what the map would show", () => {
  const bare = { ...demo, fields: demo.fields.map((f) => ({ ...f, zones: f.zones.map((z) => ({ ...z, area: undefined })) })) };
  expect(homeMap(bare)).toEqual({ model: undefined, note: "No map, because no zone has a boundary on record." });
  expect(homeMap(forAudience(demo, demo.audiences.get("lender")!))).toEqual({ model: undefined, note: "The map is left out for this reader." });
});

// Common practice: lime shortly before potatoes brings on scab, and the nutrients of manure come off what is bought.
it("tells beside the work on the first page what would make it wrong: lime before potatoes, and manure that no rate counts", () => {
  const metric = readFarm({ content: join(installation, "tests", "fixtures", "metric"), library }).farm!;
  const detail = (farm: Farm, start: string): string => homeView(farm).tasks.find((t) => t.field.id === "longstrand" && t.text.startsWith(start))!.detail;
  expect(detail(metric, "Spread")).not.toContain("scab");
  expect(detail(metric, "Apply")).toContain("What manure for this crop brings is not taken off.");
  const field = metric.fields.find((f) => f.id === "longstrand")!;
  const on = (over: Partial<Field>): Farm => ({ ...metric, fields: [{ ...field, ...over }] });
  const potatoes = on({ plan: field.plan.map((p) => ({ ...p, crop: "potatoes", straw: undefined, yieldGoal: { value: 50, unit: "t/ha" } })) as never });
  expect(detail(potatoes, "Spread")).toContain("Where it can wait, spread it after them");
  const unmanured = on({ seasons: field.seasons.map((s) => ({ ...s, applications: [] })) });
  expect(detail(unmanured, "Apply")).not.toContain("manure");
  // What was spread since the sampling is told by its amount instead.
  const spread = { ...field.seasons.at(-1)!.applications[0]!, date: "2026-02-10" };
  const since = on({ seasons: [...field.seasons, { ...field.seasons.at(-1)!, season: 2026, crops: [], applications: [spread] }] });
  expect(detail(since, "Apply")).toMatch(/Spread already, and not taken off: 30 m³\/ha of cattle slurry on 10 February 2026 on West half\.$/);
});

it("says that lime which is due without a rate is not in what lime and fertilizer cost", () => {
  const metric = readFarm({ content: join(installation, "tests", "fixtures", "metric"), library }).farm!;
  const cost = (farm: Farm): string => homeView(farm).facts.find((f) => f.term === "Lime and fertilizer to buy")!.value;
  expect(cost(metric)).not.toContain("without");
  const { products } = metric;
  const unlimed = { ...metric, products: new Map([...products].filter(([, p]) => p.product.kind !== "lime")) };
  expect(cost(unlimed)).toMatch(/^about [^,]\S+, without lime that is due and has no rate$/);
});
