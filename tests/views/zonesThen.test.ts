import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { dueOf } from "../../src/views/calendar/due.ts";
import { homeView } from "../../src/views/home/home.ts";
import { farmNeeds } from "../../src/views/season/fieldNeeds.ts";
import { farmFolder } from "../support/farmFolder.ts";
import { balanceView } from "../../src/views/balance/balance.ts";
import { balanceCsv } from "../../src/views/balance/balanceCsv.ts";
import { fieldView } from "../../src/views/field/field.ts";
import { freeze } from "../../src/views/issued/freeze.ts";
import { mapParts } from "../../src/views/maps/mapPages.ts";
import { duePlans } from "../../src/views/plan/duePlans.ts";
import { duePlanView } from "../../src/views/plan/plan.ts";
import { planSampling } from "../../src/views/plan/planComposites.ts";
import { fieldRows } from "../../src/views/results/rows.ts";
import { samplingView } from "../../src/views/sampling/samplingView.ts";
import { timelineYears } from "../../src/views/field/timeline.ts";
import { yearMaps } from "../../src/views/maps/yearMaps.ts";
import { installation } from "../../scripts/options.ts";
import type { Field } from "../../src/records/model.ts";
import { fieldAsOf, onGroundBefore, onGroundOf } from "../../src/views/zonesThen.ts";
import { mergedFarm } from "../support/mergedFarm.ts";
import { bandedAmmonia } from "../../src/views/advice/bandedAmmonia.ts";
import { cropBefore } from "../../src/views/advice/cropBefore.ts";
import { earlierLime } from "../../src/views/advice/earlierLime.ts";
import { manureFound, nitrateHistory } from "../../src/views/advice/nitrateHistory.ts";
import { nextCrop } from "../../src/views/advice/nextCrop.ts";
import { paths } from "../support/tinyFarm.ts";

const content = join(installation, "content");

const read = () => {
  const farm = mergedFarm().read({ library: content }).farm!;
  return { farm, field: farm.fields[0]! };
};

describe("a field two of whose zones were merged in October 2023", () => {
  it("is advised, mapped and counted by the zone it has now", () => {
    const { farm, field } = read();
    const view = fieldView(farm, field);
    expect(view.zones.map((z) => z.zone.id)).toEqual(["long"]);
    expect(view.advice.map((a) => a.zone.id)).toEqual(["long"]);
    expect(view.facts).toContainEqual({ term: "Last limed", value: "20 April 2023, 1.5 ton/ac on West end" });
    expect(view.facts).toContainEqual({ term: "Zones drawn anew", value: "Strip was given up as a zone, on 1 March 2022. West end and East end were merged into Long piece, on 1 October 2023." });
  });

  it("keeps the history of the zones it had, each with its end, and asks for no more samplings of them", () => {
    const { farm, field } = read();
    const [ph] = fieldView(farm, field).trends;
    expect(ph!.model.panels.map((p) => [p.zone.name, p.segments.flatMap((s) => s.points.map((q) => q.label)).join(" ")])).toEqual([
      ["Long piece", "6.2 6.1"],
      ["West end (until October 2023)", "6.1 6.2"],
      ["East end (until October 2023)", "6.4 6.3"],
      ["Strip (until March 2022)", "5.9"],
    ]);
    expect(ph!.model.panels[0]!.verdict.says).toMatch(/two so far.*more samplings/);
    expect(ph!.model.panels[1]!.verdict.says).toMatch(/: two, and five are the fewest/);
    expect(ph!.model.panels[1]!.verdict.says).not.toMatch(/more sampling/);
    expect(ph!.model.caption).toContain("No line runs from a zone to one that followed it.");
    expect(fieldRows(field).filter((r) => r.measurement.analyte === "pH").map((r) => `${r.sampling.date.slice(0, 4)} ${r.zone.id}`)).toEqual(["2019 west", "2019 east", "2019 strip", "2021 west", "2021 east", "2023 long", "2025 long"]);
  });

  it("judges a sampling by the zones of its day: the strip was left out in 2021, and nothing since", () => {
    const { farm, field } = read();
    const seen = field.samplings.map((s) => samplingView(farm, field, s)).map((v) => [v.bags.map((b) => b.zone.name).join(", "), v.missing]);
    expect(seen).toEqual([["West end, East end, Strip", undefined], ["West end, East end", "Not sampled in this event: Strip."], ["Long piece", undefined], ["Long piece", undefined]]);
  });

  it("reads a sampling of the eve of the change for the crop that the new zone bore, on its page and its maps", () => {
    const bag = (zone: string) => `  - { label: "${zone} eve", zone: ${zone}, cores: 20, results: { pH: 6.1, bufferPh: 6.8, K: 99 } }\n`;
    const farm = mergedFarm().write("fields/north/samplings/2023-09-20.yaml", `date: 2023-09-20\npurpose: routine\nlab: north-lab\npackage: basic\ndepth: { from: 0, to: 8, unit: in }\ncomposites:\n${bag("west")}${bag("east")}`).read({ library: content }).farm!;
    const [field] = farm.fields;
    const view = samplingView(farm, field!, field!.samplings.find((s) => s.id === "2023-09-20")!);
    expect(view.classesNote).toMatch(/corn 2024/);
    expect(view.classesNote).not.toMatch(/No crop/);
  });

  it("knows what the ground of the new zone bore and was given before it was one, where all of it was", () => {
    const spread = (zones = "") => {
      const farm = mergedFarm()
        .change("farm.yaml", "products:\n", "products:\n  manure:\n    kind: manure\n    name: solid manure\n    perTon: { N: 11, P2O5: 7, K2O: 11 }\n  ammonia:\n    kind: fertilizer\n    name: anhydrous ammonia\n    analysis: { N: 82, P2O5: 0, K2O: 0 }\n")
        .write("fields/north/seasons/2024.yaml", `season: 2024\ncrops:\n  - { crop: soybean }\napplications:\n${[["manure", "20, unit: ton/ac"], ["ammonia", "100, unit: lb/ac"], ["ground-limestone", "1, unit: ton/ac"]].map(([product, rate]) => `  - { date: 2023-09-25, product: ${product}${zones}, rate: { value: ${rate} } }\n`).join("")}`)
        .write("fields/north/seasons/2023.yaml", "season: 2023\ncrops:\n  - { crop: corn, harvested: 2023-09-18 }\n")
        .read({ library: content });
      expect(farm.problems.filter((p) => p.severity === "error").map((p) => p.message)).toEqual([]);
      const [field] = farm.farm!.fields;
      const long = field!.zones[0]!;
      const history = nitrateHistory(field!, long, 2024, "2024-06-10", undefined, undefined);
      return {
        crop: cropBefore(field!, "long", "2023-10-14"),
        previous: history.previousCrop?.value,
        manured: history.manuredSinceHarvest?.value,
        found: manureFound(field!, long, 2024, "2024-06-10").map((m) => m.tonsPerAcre),
        years: nitrateHistory(field!, long, 2025, "2025-06-10", undefined, undefined).fertilizerOnlyYears?.value,
        lime: earlierLime(field!, "long", "2023-10-14")?.map((l) => l.rate),
        banded: bandedAmmonia(field!, long, { purpose: "nitrate", date: "2024-06-10" }),
      };
    };
    expect(spread()).toMatchObject({ crop: "corn", previous: "corn", manured: "yes", found: [20], lime: [1], banded: "yes" });
    // Of ground that was fed or limed in part, "none" would be as wrong as the whole of it; ammonia on a part asks for the cores that it asks for on all.
    expect(spread(", zones: [west]")).toEqual({ crop: "corn", previous: "corn", manured: undefined, found: [], years: undefined, lime: undefined, banded: "yes" });
  });

  it("draws the maps of a year with the zones of that year", () => {
    const { farm, field } = read();
    expect(mapParts(field).map((part) => part.map((s) => s.date.slice(0, 4)))).toEqual([["2023", "2025"], ["2019", "2021"]]);
    const [now, then] = [yearMaps(farm, field, 1), yearMaps(farm, field, 2)];
    expect([now.outline.zones.map((z) => z.id), then.outline.zones.map((z) => z.id)]).toEqual([["long"], ["west", "east", "strip"]]);
    expect(then.years[0]!.maps.find((m) => m.analyte === "pH")!.zones.map((z) => z.value)).toEqual(["6.1", "6.4", "5.9"]);
  });

  it("sums a balance over the seasons of each zone alone: potash spread before the change is not the new zone's", () => {
    const { farm, field } = read();
    // 100 lb of 60 % in April 2023 on the zones of then; 50 lb in November on the zone that followed.
    const applied = balanceCsv(farm, field).split("\n").filter((line) => line.includes(",K2O,")).map((line) => line.split(",").slice(0, 6).join(","));
    expect(balanceView(farm, field)).toBeDefined();
    expect(applied).toEqual(["north,long,K2O,2024,corn,30", "north,west,K2O,2023,corn,60", "north,east,K2O,2023,corn,60"]);
  });

  it("tells the change on its day, and a harvest of the whole field without naming zones", () => {
    const { field } = read();
    const told = timelineYears(field).flatMap((y) => y.entries.map((e) => `${e.date} ${e.kind}: ${e.text}`));
    expect(told).toContain("2023-10-01 zones: West end and East end were merged into Long piece");
    expect(told).toContain("2022-03-01 zones: Strip was given up as a zone");
    expect(told).toContain("2023 harvested: Corn, 160 bu/ac");
  });

  it("plans and issues advice for the zone of today, and replays what was issued for another", () => {
    const { farm, field } = read();
    expect(planSampling(farm, field, { purpose: "routine", date: "2026-10-15", seed: 1 }).zones.map((z) => z.zone.id)).toEqual(["long"]);
    const issue = (date: string, sampling: number) => freeze(farm, field, field.samplings[sampling]!, { for: "x", issued: date, print: (pack) => ({ id: pack.id }) as never })?.zones.map((z) => z.zone);
    expect(issue("2025-11-01", 3)).toEqual(["long"]);
    expect(issue("2021-11-01", 1)).toEqual(["west", "east"]);
    expect(issue("2025-11-01", 1)).toBeUndefined();
  });
});

it("ground is followed through zones that ended themselves, and to those yet to be drawn, from any day", () => {
  const zone = (id: string, since?: string, until?: string, ...formerly: string[]) => ({ id, since, until, ...(formerly.length > 0 && { formerly }) });
  const field = { zones: [zone("mid", "2024-03-01", "2026-03-01", "west")], formerZones: [zone("west", undefined, "2024-03-01")], laterZones: [zone("long", "2026-03-01", undefined, "mid")] } as unknown as Field;
  for (const day of ["2024-02-29", "2024-03-01"]) {
    expect(onGroundOf(fieldAsOf(field, day), "west", ["long"])).toBe(true);
    expect(onGroundBefore(fieldAsOf(field, day), "mid", ["west"])).toBe(true);
  }
  const ended = { zones: field.laterZones, formerZones: [...field.formerZones, ...field.zones], laterZones: [] } as unknown as Field;
  expect([onGroundOf(ended, "west", ["long"]), onGroundBefore(ended, "long", ["west"]), onGroundOf(ended, "long", ["west"]), onGroundBefore(ended, "west", ["long"])]).toEqual([true, true, false, false]);
});

it("the crop planned for a zone to come is the next one of the ground it takes over, where all of that ground gets it", () => {
  const next = (zones: string, plan: string) => {
    const { farm, problems } = farmFolder().write(paths.field, `name: North\nzones:\n  west: { letter: A, name: West, until: 2026-03-01 }\n  east: { letter: B, name: East }\n${zones}plan:\n${plan}`).remove(paths.zones).read();
    expect(problems).toEqual([]);
    return nextCrop(farm!.fields[0]!, "west", farm!.today, true)?.crop;
  };
  const long = "  long: { letter: C, name: Long, since: 2026-03-01, formerly: [west] }\n";
  const split = "  top: { letter: C, name: Top, since: 2026-03-01, formerly: [west] }\n  foot: { letter: D, name: Foot, since: 2026-03-01, formerly: [west] }\n";
  expect(next(long, "  - { season: 2026, crop: corn }\n")).toBe("corn");
  expect(next(long, "  - { season: 2026, crop: corn, zones: [east] }\n")).toBeUndefined();
  expect(next(split, "  - { season: 2026, crop: corn, zones: [top, foot] }\n")).toBe("corn");
  expect(next(split, "  - { season: 2026, crop: corn, zones: [top] }\n")).toBeUndefined();
});

it("new zones that nobody has sampled yet are told as that, and the field not as one that never was", () => {
  const folder = mergedFarm();
  for (const day of ["2023-10-14", "2025-10-18"]) folder.remove(`fields/north/samplings/${day}.yaml`);
  const farm = folder.read({ library: content }).farm!;
  const field = farm.fields[0]!;
  expect(dueOf(farm, field).words).toBe("now: not sampled since the zones were drawn anew");
  expect(fieldView(farm, field).facts).toContainEqual({ term: "Last full sampling", value: "none since the zones were drawn anew" });
  expect(fieldView(farm, field)).toMatchObject({ lede: "Sample this field: it was not sampled since its zones were drawn anew.", why: "New zones are advised from samplings of their own." });
  const [plan] = duePlans(farm, field);
  expect(duePlanView(farm, plan!).why).toBe("Last sampled 14 October 2021; the next sampling is due now: not sampled since the zones were drawn anew.");
  const home = homeView(farm);
  expect(home.lede).toContain("Sample North Field: none of its zones was sampled since they were drawn anew.");
  expect(home.tasks[0]).toMatchObject({ text: "Sample the new zones", detail: "None of its zones was sampled since they were drawn anew." });
  expect([...farmNeeds(farm).values()][0]![0]!.words).toBe("not sampled since the zones were drawn anew");
  // The new zone by itself, whose ground others were.
  expect(dueOf(farm, field, field.zones[0]).redrawn).toBe(true);
  const first = farmFolder().remove("fields/north/samplings").read().farm!;
  expect(dueOf(first, first.fields[0]!)).toMatchObject({ never: true, redrawn: false, words: "now: never sampled" });
});
