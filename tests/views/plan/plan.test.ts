import { join } from "node:path";
import { gpx as readGpx } from "@tmcw/togeojson";
import { DOMParser } from "@xmldom/xmldom";
import type { FeatureCollection, Point } from "geojson";
import { describe, expect, it } from "vitest";
import { installation } from "../../../scripts/options.ts";
import type { Farm, Field } from "../../../src/records/model.ts";
import { readFarm } from "../../../src/records/reading/readFarm.ts";
import { duePlans } from "../../../src/views/plan/duePlans.ts";
import { planView } from "../../../src/views/plan/plan.ts";
import type { PlanRequest } from "../../../src/views/plan/planComposites.ts";
import { planSampling } from "../../../src/views/plan/planComposites.ts";
import { planGeoJson, planGpx, planLabelsCsv } from "../../../src/views/plan/planFiles.ts";
import { planText } from "../../../src/views/terminal/planText.ts";
import { referencesView } from "../../../src/views/guidelines/referencesView.ts";
import type { MapModel } from "../../../src/views/maps/map.ts";
import type { FarmFolder } from "../../support/farmFolder.ts";
import { farmFolder } from "../../support/farmFolder.ts";

const library = join(installation, "content");
const demo = readFarm({ content: library, library }).farm!;
const field = (id: string): Field => demo.fields.find((f) => f.id === id)!;
const routine: PlanRequest = { purpose: "routine", date: "2025-10-28", seed: 1 };
const nitrate: PlanRequest = { purpose: "nitrate", date: "2026-06-10", seed: 1 };

const tiny = (spoil: (folder: FarmFolder) => unknown = () => undefined, guidelines = "[small-guide, us-minnesota-sampling]"): { farm: Farm; north: Field } => {
  const folder = farmFolder().change("farm.yaml", "[small-guide]", guidelines);
  spoil(folder);
  const { farm, problems } = folder.read({ library });
  if (!farm) throw new Error(JSON.stringify(problems));
  return { farm, north: farm.fields[0]! };
};
const square = (zone: string, west: number, east: number, north: number): string =>
  JSON.stringify({ type: "Feature", properties: { zone }, geometry: { type: "Polygon", coordinates: [[[west, 44], [east, 44], [east, north], [west, north], [west, 44]]] } });
const zones = (...features: string[]): string => `{ "type": "FeatureCollection", "features": [${features.join(",")}] }`;

describe("the plan of a field", () => {
  it("says in meters on a metric farm what a guideline asks for in feet", () => {
    const metric: Farm = { ...demo, units: "metric" };
    expect(planView(metric, field("netloft"), routine).notes).toEqual(["Upper and Lower: cores stay 15 m from every edge. North Dakota sampling asks for 30 m, which would leave less than half of the zone."]);
    // As printed, and in the farm's own unit where that is another one.
    const asked = (farm: Farm) => planView(farm, field("netloft"), routine).zones[0]!.steps.find((s) => s.what === "Distance of a core from an edge")!;
    expect(asked(metric).result).toBe("100 ft, which is 30 m");
    const kept = (id: string) => planView(demo, field(id), routine).zones[0]!.steps.find((s) => s.what === "Kept in this zone")!;
    expect([kept("netloft"), kept("ropewalk")].map((s) => [s.result, s.note])).toEqual([["50 ft", "The largest part of it that leaves half of the zone to sample"], ["100 ft", undefined]]);
    // A text about North Dakota's advice, not its own publication: so it is marked.
    expect(asked(demo)).toMatchObject({ result: "100 ft", source: { anchor: "ndsu-sampling-tips-2021" }, evidence: { grade: "secondary" } });
  });

  it("is a bag a zone, as many cores and as deep as last time, within the area that Tri-State allows", () => {
    const view = planView(demo, field("netloft"), routine);
    expect(view.lede).toBe("Take 15 cores from each of two zones, 0 to 8 in deep, into a bag each.");
    expect(view.why).toBe("Last sampled 12 October 2021; the next sampling was due October 2025.");
    // Tri-State 2020: 25 acres at most for one composite (web summary 3486).
    expect(view.zones.map((z) => [z.area, z.bags, z.each, z.cores, z.spec])).toEqual([
      ["4.3 acres", "1", "4.3 acres", "15", "Tri-State 2020: largest area of one composite, 25 acres"],
      ["4.1 acres", "1", "4.1 acres", "15", "Tri-State 2020: largest area of one composite, 25 acres"],
    ]);
    expect(view.plan.bags.map((b) => [b.label, b.points.length])).toEqual([["NE-A-2510-1", 15], ["NE-B-2510-1", 15]]);
    expect(view.cautions.map((c) => c.text)).toEqual(["Have buried lines located before a probe goes into the ground."]);
    // What goes for both zones is said once.
    expect(view.notes).toEqual(["Upper and Lower: cores stay 50 ft from every edge. North Dakota sampling asks for 100 ft, which would leave less than half of the zone."]);
    expect(planText(view)).toContain("A Upper, 4.3 acres: one bag of 15 cores, 50 ft from the edges.\nB Lower, 4.1 acres: one bag of 15 cores, 50 ft from the edges.\nNumber of bags, in every zone: Tri-State 2020: largest area of one composite, 25 acres.\n");
    // The spreads behind "what more cores buy" are cited like all else.
    expect(view.precision!.steps).toHaveLength(view.precision!.heads.length);
    expect(view.precision!.steps.every((s) => s.source !== undefined && s.evidence !== undefined)).toBe(true);
    const cited = view.cited.map((r) => r.id);
    for (const { source } of view.precision!.spreads) expect(cited).toContain((source as { reference: string }).reference);
  });

  it("keeps season, depth, laboratory, tests and cores, and says where one would change", () => {
    const kept = planView(demo, field("netloft"), routine).kept;
    expect(kept.map((k) => [k.what, k.kept])).toEqual([["Season", true], ["Depth", true], ["Laboratory", true], ["Tests", true], ["Cores in a bag", true]]);
    const spring = planView(demo, field("netloft"), { ...routine, date: "2026-04-10" }).kept[0]!;
    expect(spring).toMatchObject({ last: "autumn or winter (July to January)", now: "spring (February to June)", kept: false, verdict: "pH and potassium move with the season: neither can be compared with 12 October 2021. Wait for autumn if that matters." });
  });

  it("follows what most of its zones were last sampled by, where one was sampled alone since, and says what changes for that one", () => {
    const causeway = field("causeway");
    const newest = causeway.samplings.findLast((s) => s.purpose === "routine")!;
    const [alone, ...rest] = newest.composites;
    const lab = [...demo.labs.values()].find((l) => l !== newest.lab)!;
    const since = { ...newest, id: "2026-03-12", date: "2026-03-12", lab, packageId: Object.keys(lab.packages)[0]!, depth: { ...newest.depth, to: newest.depth.to + 4 }, composites: [alone!] };
    const moved: Field = { ...causeway, samplings: [...causeway.samplings, since] };
    const name = causeway.zones.find((z) => z.id === alone!.zone)!.name;
    const at = { ...routine, date: "2029-10-20" };
    const view = planView({ ...demo, fields: demo.fields.map((f) => (f === causeway ? moved : f)) }, moved, at);
    expect(rest.length).toBeGreaterThan(1);
    expect([view.plan.last, view.plan.order]).toEqual([newest, { lab: newest.lab, packageId: newest.packageId }]);
    expect(view.why).toBe(`Last sampled 18 October 2025 and ${name} on 12 March 2026; the next sampling is due October 2029.`);
    expect(view.lede).toContain("0 to 8 in deep");
    expect(view.kept.filter((k) => !k.kept).map((k) => k.what)).toEqual(["Season", "Depth", "Laboratory", "Tests"].map((what) => `${what}, ${name}`));
    // Alone it follows its own.
    expect(planSampling(demo, moved, { ...at, zones: [alone!.zone] })).toMatchObject({ last: since, others: [], order: { lab } });
  });

  it("says where no guideline tells when a sampling is due", () => {
    const causeway: Field = { ...field("causeway"), guidelines: [] };
    expect(planView(demo, causeway, routine).why).toBe("Last sampled 18 October 2025; no chosen guideline says when the next is due.");
  });

  it("parts a zone that is larger than one composite may stand for, and warns that the bags look like duplicates", () => {
    // Late-spring nitrate test: 10 acres at most; Apron has 17.2.
    const view = planView(demo, field("causeway"), nitrate);
    expect(view.lede).toBe("Take 18 cores for each of four bags, from three zones, 0 to 12 in deep.");
    expect(planView(demo, field("causeway"), { ...nitrate, zones: ["apron"] }).lede).toBe("Take 18 cores for each of two bags, from Apron, 0 to 12 in deep.");
    expect(view.plan.bags.map((b) => [b.label, b.mark, b.points.length])).toEqual([["CA-A-2606-N1", "A", 18], ["CA-B-2606-N1", "B1", 18], ["CA-B-2606-N2", "B2", 18], ["CA-C-2606-N1", "C", 18]]);
    expect(view.zones[1]!.notes.join(" ")).toContain("two bags of one zone on one day are taken for duplicates");
    expect(view.depth.text).toBe("0 to 12 in");
    const said = view.tasks.flatMap((t) => t.rows.map((r) => r.text)).join(" ");
    expect(said).toContain("paper or cloth bags");
    expect(said).toContain("Have it at the laboratory within 48 h");
    // Iowa's own rule: corn 6 to 12 in tall.
    expect(said).toMatch(/Not before the crop is 6 in tall\. Not after the crop is 12 in tall\./);
    expect(view.kept.map((k) => k.what)).not.toContain("Season");
  });

  it("takes as many cores as a wanted error asks for", () => {
    // scipy 1.10.1: CV 10, within 15 at 0.95: 5 cores (tests/cases/coresNeeded.yaml).
    const { bags } = planSampling(demo, field("netloft"), { ...routine, wanted: { cv: 10, error: 15 } });
    expect(bags.map((b) => [b.cores, b.points.length])).toEqual([[5, 5], [5, 5]]);
  });

  it("is told in the units of the field: Illinois asks for 7 in, 17.8 cm", () => {
    const { farm, north } = tiny((f) => f.remove("fields/north/samplings"), "[small-guide, us-illinois-sampling]");
    const metric = planView({ ...farm, units: "metric" }, north, routine);
    expect(metric.lede).toBe("Take 10 cores from each of two zones, 0 to 17.8 cm deep, into a bag each.");
    expect(planGpx({ ...farm, units: "metric" }, north, metric.plan)).toContain("Sample 0 to 17.8 cm deep.");
    expect(metric.zones[0]!.area).toBe("3.6 ha");
    const garden = planView(farm, { ...north, units: "garden" }, routine);
    // 8.81 acres, as the list of labels gives it, of 43,560 sq ft each: 383,546 to 383,981.
    expect(garden.zones[0]!.area).toMatch(/^383,[5-9]\d\d sq ft$/);
    expect(planLabelsCsv(farm, { ...north, units: "garden" }, garden.plan)).toContain(",depth_to_in,depth_to_most_in,area_sq_ft,");
  });

  it("tells what more cores would buy", () => {
    const { precision } = planView(demo, field("netloft"), routine);
    // Not of pH: a percent of a logarithm is no error that anyone wants to know.
    expect(precision!.heads).toEqual(["Phosphorus, CV 46%", "Potassium, CV 39%", "Organic matter, CV 28%"]);
    expect(precision!.steps.map((s) => `${s.what}: ${s.result}`)).toEqual(["Phosphorus", "Potassium", "Organic matter"].map((name, i) => `${name}, spread between single cores (CV): ${[46, 39, 28][i]}%`));
    // (t x 39 / 20)^2, t from a table: 17 cores, t 2.120, want 17.1 and are too few; 18, t 2.110, want 16.9 and are enough.
    expect(precision!.rows.find((r) => r.within === "20%")!.cores[1]).toBe("18");
  });
});

describe("the map sheet", () => {
  const map = (view: ReturnType<typeof planView>) => view.map!.walks.flatMap((w) => w.cores);
  it("names every core where there is room", () => expect(map(planView(demo, field("netloft"), routine)).every((c) => c.named)).toBe(true));

  it("lays no name over another where cores crowd, and keeps where each walk begins", () => {
    const crowded = map(planView(demo, field("netloft"), { ...routine, wanted: { error: 8, cv: 40 } }));
    const named = crowded.filter((c) => c.named);
    expect(named.length).toBeLessThan(crowded.length);
    for (const first of ["A1", "B1"]) expect(named.map((c) => c.name)).toContain(first);
    for (const [i, a] of named.entries()) for (const b of named.slice(i + 1)) expect(Math.abs(a.x - b.x) >= 20 || Math.abs(a.y - b.y) >= 13, `${a.name} over ${b.name}`).toBe(true);
  });
});

describe("what cores stay away from", () => {
  // Along the west edge of the tiny farm's field, 44.000 to 44.002 north; a degree of longitude has 80.2 km there.
  const road = "where: [[-37.0042, 44.0], [-37.0042, 44.002]]";
  const avoiding = (lines: string, guidelines?: string) => tiny((f) => f.change("fields/north/field.yaml", "name: North Field", `name: North Field\navoid:\n${lines}`), guidelines);

  it("is told with its distance, drawn on the map, and kept", () => {
    const { farm, north } = avoiding(`  - { what: the gravel road, kind: gravelRoad, ${road} }\n  - { what: the old lime pile, distance: { value: 60, unit: ft }, where: [[-37.001, 44.001]] }`);
    const view = planView(farm, north, routine);
    // Minnesota: 300 ft from a gravel or crushed-limestone road, whose dust changes the pH.
    expect(view.avoid).toEqual(["Cores stay 300 ft away from the gravel road, as Minnesota sampling asks.", "Cores stay 60 ft away from the old lime pile."]);
    expect(view.map!.avoid.map((a) => [a.what, a.path.startsWith("M")])).toEqual([["the gravel road", true], ["the old lime pile", true]]);
    // The sheet is wide enough for the road, 16 m west of the zones; each number lies on the sheet.
    expect(view.map!.avoid.map((a) => a.off)).toEqual([false, false]);
    expect(view.map!.model.at([-37.0042, 44.001]).x).toBeGreaterThan(0);
    for (const { at } of view.map!.avoid) expect([at.x >= 0 && at.x <= view.map!.model.width, at.y >= 0 && at.y <= view.map!.model.height]).toEqual([true, true]);
    // It grows to that side alone, and a spot's number stands in it.
    const margins = ({ at, width, height }: MapModel, edge: number) => [at([edge, 44]).x, width - at([-37, 44]).x, at([-37, 44.002]).y, height - at([-37, 44]).y];
    const without = margins(planView(tiny().farm, tiny().north, routine).map!.model, -37.004);
    for (const [i, margin] of margins(view.map!.model, -37.0042).entries()) expect(Math.abs(margin - without[i]!)).toBeLessThan(1);
    expect(view.map!.avoid[1]!.at).toEqual(view.map!.model.at([-37.001, 44.001]));
    expect(view.cited.map((r) => r.id)).toContain("umn-how-to-sample");
    expect(planText(view)).toContain("Cores stay 60 ft away from the old lime pile.");
    const east = view.plan.bags[1]!.points;
    expect(east.length).toBeGreaterThan(0);
    for (const [lon, lat] of east) expect(Math.hypot((lon! + 37.001) * 80_206, (lat! - 44.001) * 111_105)).toBeGreaterThan(18.2);
    // 300 ft are 91.4 m; the road lies 16 m west of the zone, which is 160 m wide, so that just over half of it stays.
    for (const [lon] of view.plan.bags[0]!.points) expect((lon! + 37.0042) * 80_206).toBeGreaterThan(91.3);
  });

  it("is named beside the map where it lies too far from the zones to be on it", () => {
    const { farm, north } = avoiding(`  - { what: the quarry road, kind: gravelRoad, where: [[-37.02, 44.0], [-37.02, 44.002]] }`);
    const { map } = planView(farm, north, routine);
    expect(map!.avoid.map((a) => a.off)).toEqual([true]);
    const coming = avoiding("  - { what: the quarry road, kind: gravelRoad, where: [[-37.03, 44.0], [-37.02, 44.0], [-37.0042, 44.001]] }");
    expect(planView(coming.farm, coming.north, routine).map!.avoid.map((a) => a.off)).toEqual([false]);
    // A quarter of its width at most is given away to it.
    const [west, east] = [map!.model.at([-37.004, 44.001]).x, map!.model.at([-37, 44.001]).x];
    expect(east - west).toBeGreaterThan(0.75 * (map!.model.width - 80));
  });

  it("lends the guideline of its distance to the page of references, also where a plan is for nitrate alone", () => {
    const { farm, north } = avoiding(`  - { what: the gravel road, kind: gravelRoad, ${road} }`, "[small-guide, us-iowa-nitrate, us-iowa-sampling]");
    const own = { ...farm, fields: [{ ...north, plan: [{ ...north.plan[0]!, season: 2026, crop: "corn" as const }] }], today: "2026-04-20" };
    expect(duePlans(own, own.fields[0]!).map((p) => p.purpose)).toEqual(["nitrate"]);
    const cited = planView(own, own.fields[0]!, duePlans(own, own.fields[0]!)[0]!.request).cited.map((r) => r.id);
    expect(cited).toContain("umn-how-to-sample");
    const listed = referencesView(own).map((r) => r.reference.id);
    expect(cited.filter((id) => !listed.includes(id))).toEqual([]);
  });

  it("is kept in part where the whole distance would leave less than half of the zone, and it is said", () => {
    const { farm, north } = avoiding(`  - { what: the railway, distance: { value: 120, unit: m }, ${road} }`);
    expect([planView(farm, north, routine).notes.filter((n) => n.includes("percent"))]).toEqual([["West end: cores keep 75 percent of the distances from the railway; the whole of them would leave less than half of the zone."]]);
  });

  it("without a distance anywhere is named, and not silently kept", () => {
    const { farm, north } = avoiding(`  - { what: the gravel road, kind: gravelRoad, ${road} }`);
    const none = { ...farm, allGuidelines: new Map() };
    expect(planView(none, { ...north, guidelines: [] }, routine).avoid).toEqual(["Stay away from the gravel road: no guideline at hand says how far, and field.yaml gives no distance, so cores may fall on it."]);
  });

  it.each([
    ["  - { what: a road, where: [[-37.0042, 44.0]] }", /field\.yaml:\d+:\d+: avoid\[1\]\.distance: is missing; give a distance, or a kind whose distance a guideline prints/],
    ["  - { what: a road, kind: gravelRoad, where: [[44.0, -37.0042]] }", /field\.yaml:\d+:\d+: avoid\[1\]\.where\[1\]: lies \d+ km from the field's zones; longitude stands first, then latitude/],
    ["  - { what: a road, kind: gravelRoad, where: [] }", /avoid\[1\]\.where/],
    ["  - { what: a road, kind: graveRoad, where: [[-37.0042, 44.0]] }", /avoid\[1\]\.kind: .*did you mean gravelRoad\?/],
    ["  - { what: a road, kind: gravelRoad, far: 3, where: [[-37.0042, 44.0]] }", /avoid\[1\]\.far: is not a key known here/],
  ])("is refused where it is written wrong: %s", (line, message) => {
    const lines = farmFolder().change("fields/north/field.yaml", "name: North Field", `name: North Field\navoid:\n${line}`).lines();
    expect(lines).toHaveLength(1);
    expect(lines[0]).toMatch(message);
  });
});

describe("bad ground and gaps in the records", () => {
  it("a field without boundaries has a plan without positions, and says so", () => {
    const { farm, north } = tiny((f) => f.remove("fields/north/zones.geojson"));
    const view = planView(farm, north, routine);
    expect(view.unplaced).toEqual(["No positions in West end, because zone West end has no boundary in zones.geojson.", "No positions in East end, because zone East end has no boundary in zones.geojson."]);
    expect([view.map, view.positions]).toEqual([undefined, []]);
    expect(view.zones[0]).toMatchObject({ area: "not mapped", bags: "1", cores: "20", setback: "no positions" });
    expect(view.zones[0]!.spec).toMatch(/^One, because /);
    expect(planGpx(farm, north, view.plan)).not.toMatch(/<wpt|<rte/);
    expect(planText(view)).toContain("No positions in West end");
  });

  it("a zone too narrow, or too small for its cores, has none, and the other zone its own", () => {
    const narrow = tiny((f) => f.write("fields/north/zones.geojson", zones(square("west", -37.004, -37.002, 44.00001), square("east", -37.002, -37, 44.002))));
    const view = planView(narrow.farm, narrow.north, routine);
    expect(view.unplaced).toEqual(["No positions in West end, because zone West end is too narrow: even a small part of the distance to its edges leaves less than half of it."]);
    expect(view.plan.bags.map((b) => b.points.length)).toEqual([0, 15]);
    const small = tiny((f) => f.write("fields/north/zones.geojson", zones(square("west", -37.00003, -37, 44.00002), square("east", -37.002, -37.001, 44.002))));
    expect(planView(small.farm, small.north, routine).unplaced).toEqual(["No positions in West end, because zone West end is too small for 20 cores: they would stand within half a meter of each other."]);
  });

  it("no guideline and no earlier number: common practice, and for nitrate no number, and why", () => {
    const { farm, north } = tiny(undefined, "[small-guide]");
    const view = planView(farm, north, routine);
    expect(view.zones.map((z) => [z.cores, z.steps.at(0)!.what])).toEqual([["20", expect.anything()], ["9", "The upper end of common practice"]]);
    const nothing = planView(farm, north, { ...nitrate, date: "2026-06-01" });
    expect(nothing.kept).toEqual([]);
    expect(nothing.zones[0]!.cores).toBe("No number, because none of the chosen guidelines says how many cores to take for nitrate sampling, and no sampling of this kind is recorded that took a number of cores");
    expect(nothing.unplaced).toEqual([`No positions in West end and East end, because ${nothing.zones[0]!.cores.replace(/^No number, because /, "")}.`]);
    // Common practice: the top foot for the June test.
    expect([nothing.depth.text, nothing.depth.steps[0]!.what]).toEqual(["0 to 12 in", "Common practice for the test in June; one before planting goes deeper"]);
    expect(planText(nothing)).toMatch(/A West end, 8\.8 acres: one bag\.\nB East end, 8\.8 acres: one bag\.\nNumber of bags, in every zone: One, because none of the chosen guidelines says /);
    // Of one zone alone, in its own line.
    expect(planText(planView(farm, north, { ...nitrate, date: "2026-06-01", zones: ["west"] }))).toContain("A West end, 8.8 acres: one bag. One, because none of the chosen guidelines says ");
  });

  it("a label that is taken is passed over", () => {
    const { farm, north } = tiny((f) => f.change("fields/north/samplings/2025-10-18.yaml", '"0021"', '"no-a-2510-1"'));
    expect(planSampling(farm, north, routine).bags.map((b) => b.label)).toEqual(["NO-A-2510-2", "NO-B-2510-1"]);
  });
});

describe("the files", () => {
  const plan = planSampling(demo, field("causeway"), nitrate);

  it("hold the same cores: GPX as another program reads it, and GeoJSON", () => {
    const { features } = readGpx(new DOMParser().parseFromString(planGpx(demo, field("causeway"), plan), "text/xml"));
    const waypoints = features.filter((f) => f.geometry.type === "Point");
    const { features: points } = JSON.parse(planGeoJson(field("causeway"), plan)) as FeatureCollection<Point, { core: string; label: string }>;
    expect(points).toHaveLength(72);
    expect(waypoints.map((w) => [(w.properties as { name: string }).name, w.geometry])).toEqual(points.map((p) => [p.properties.core, p.geometry]));
    expect(new Set(points.map((p) => p.properties.core)).size).toBe(72);
    expect(points.filter((p) => p.properties.label === "CA-B-2606-N2").map((p) => p.properties.core)[17]).toBe("B2-18");
  });

  it("are the same bytes for the same seed, and other places for another", () => {
    const at = (seed: number): string => planGpx(demo, field("netloft"), planSampling(demo, field("netloft"), { ...routine, seed })).replace(/Seed \d+/, "");
    expect(at(1)).toBe(at(1));
    expect(at(1)).not.toBe(at(2));
  });

  it("the list of labels names both depths where there is a choice", () => {
    // Common practice of a first sampling: 0 to 6 or 9 in.
    const { farm, north } = tiny((f) => f.remove("fields/north/samplings"), "[us-iowa-nitrate]");
    const rows = (units: "us" | "metric") => planLabelsCsv({ ...farm, units }, north, planSampling({ ...farm, units }, north, routine)).split("\r\n").slice(0, 2).map((row) => row.split(",").slice(7, 10).join());
    expect(rows("us")).toEqual(["depth_from_in,depth_to_in,depth_to_most_in", "0,6,9"]);
    expect(rows("metric")).toEqual(["depth_from_cm,depth_to_cm,depth_to_most_cm", "0,15.2,22.9"]);
  });

  it("the list of labels keeps commas in their cell and starts no formula", () => {
    const { farm, north } = tiny((f) => f.change("fields/north/field.yaml", "name: North Field", 'name: "=1+1, \\"North\\""').write("farm.yaml", `name: "@Tiny, Farm"\nunits: us\ncurrency: USD\nguidelines: [small-guide, us-minnesota-sampling]\nproducts:\n  potash: { kind: fertilizer, name: muriate of potash, analysis: { N: 0, P2O5: 0, K2O: 60 } }\n`));
    const [head, first] = planLabelsCsv(farm, north, planSampling(farm, north, routine)).split("\r\n");
    expect(head).toBe("label,farm,field,zone,planned_for,purpose,cores,depth_from_in,depth_to_in,depth_to_most_in,area_acres,laboratory,package,tests");
    expect(first).toBe(`NO-A-2510-1,"'@Tiny, Farm","'=1+1, ""North""",West end,2025-10-28,routine,20,0,8,,8.81,North Laboratory,Basic test,"Soil pH, Buffer pH, Phosphorus, Potassium"`);
  });
});
