import { describe, expect, it } from "vitest";
import { readFarm } from "../../../src/records/reading/readFarm.ts";
import type { Measurement } from "../../../src/interpretation/measurement.ts";
import type { Application, Farm, Zone } from "../../../src/records/model.ts";
import { samplingView } from "../../../src/views/sampling/samplingView.ts";
import { sharedMoves } from "../../../src/views/trends/sharedMoves.ts";
import { normals, tolerance } from "../../support/simulated.ts";
import { stillFarm, strayed } from "../../support/stillFarm.ts";

const demo = readFarm({ content: "content", library: "content" }).farm!;

const newest = (farm: Farm) => farm.fields[0]!.samplings.at(-1)!;
const says = (farm: Farm): string => sharedMoves(farm, newest(farm))!.says.join(" ");
const shares = { pH: 0.02, P: 0.13, K: 0.12, Mg: 0.1, organicMatter: 0.1 };

describe("whether all zones moved at once", () => {
  it("is told of a laboratory that is off in one test, with the sum and with what to do", () => {
    const normal = normals(3);
    const { farm } = strayed(stillFarm(9, 3), (a, _, year) => shares[a] * normal() + (a === "K" && year === 2025 ? -0.3 : 0));
    expect(says(farm)).toMatch(
      /^In the farm's zones that Gannet Soil Laboratory tested in autumn 2025, beside what was found there before: potassium went down in (all|eight of) nine, by [\d.]+ ppm on average, more than chance makes \([\d.]+ ppm\)\. What moves all zones at once is in no zone's noise: .* ask the laboratory soon to run some bags again, .* By chance alone up to one season in twenty looks like that\.$/,
    );
    const { sums } = sharedMoves(farm, newest(farm))!;
    expect(sums.map((s) => s.name)).toEqual(["Soil pH", "Phosphorus", "Potassium", "Magnesium", "Organic matter"]);
    expect(sums.filter((s) => s.found).map((s) => s.name)).toEqual(["Potassium"]);
    expect(sums[2]!.steps.map((s) => s.what)).toEqual(["Mean of the zones' changes", "Standard deviation of a zone's change", "What chance keeps the mean within"]);
    expect(sums[2]!.steps[2]!.source?.text).toContain("NIST");
  });

  it("is denied where each went its own way, and of farms where nothing changes told of one in twenty at most", () => {
    const template = stillFarm(9, 2);
    const normal = normals(4);
    const told = Array.from({ length: 300 }, () => says(strayed(template, (a) => shares[a] * normal()).farm));
    const none = "The farm's zones that Gannet Soil Laboratory tested in autumn 2025 did not move together in soil pH, phosphorus, potassium, magnesium or organic matter by more than chance makes.";
    const called = told.filter((t) => t !== none);
    expect(called.every((t) => t.includes("more than chance makes ("))).toBe(true);
    expect(called.length / 300).toBeLessThanOrEqual(0.05 + tolerance(0.05, 300));
  });

  it("cannot be told of three zones, nor of a first sampling, which has nothing before it", () => {
    expect(says(strayed(stillFarm(3, 3), () => 0).farm)).toMatch(/^Whether all zones moved at once, .* cannot be told: of those that Gannet Soil Laboratory tested in autumn 2025, fewer than four can be set beside/);
    const garden = strayed(stillFarm(1, 3), () => 0).farm;
    expect(sharedMoves(garden, newest(garden))).toBeUndefined();
    const pair = strayed(stillFarm(2, 3), () => 0).farm;
    expect(sharedMoves(pair, newest(pair))).toBeDefined();
    const { farm, field } = strayed(stillFarm(9, 3), () => 0);
    expect(sharedMoves(farm, field.samplings[0]!)).toBeUndefined();
  });

  it("leaves out of pH, calcium and their like the zones that were limed in between, and keeps them for the other tests", () => {
    const { farm } = strayed(stillFarm(9, 2), (a, _, year) => (year === 2025 && a === "pH" ? 0.3 : 0));
    expect(says(farm)).toContain("soil pH went up in all nine");
    const lime = demo.fields.flatMap((f) => f.seasons.flatMap((s) => s.applications)).find((a) => a.product.lime)!;
    const [field] = farm.fields as [Farm["fields"][number]];
    const limed = (date: string, zones: number): Farm => {
      const spread: Application = { ...lime, date, zones: field.zones.slice(0, zones).map((z) => z.id) };
      const season = { ...demo.fields[0]!.seasons[0]!, applications: [spread] };
      return { ...farm, fields: [{ ...field, seasons: [season] }] };
    };
    expect(says(limed("2025-04-01", 5))).toContain("soil pH went up in all four");
    expect(says(limed("2024-04-01", 9))).toContain("soil pH went up in all nine");
    expect(says(limed("2024-04-01", 9))).not.toContain("limed");
    // On the day of the first sampling it was spread after it, on that of the second after that too.
    expect(says(limed("2024-10-18", 5))).toContain("limed in between");
    expect(says(limed("2025-10-18", 9))).not.toContain("limed");
    expect(says(limed("2025-04-01", 5))).toContain("Soil pH and magnesium are not looked at in zones that were limed in between.");
    const all = sharedMoves(limed("2025-04-01", 9), newest(farm))!;
    expect(all.sums.map((s) => s.name)).toEqual(["Phosphorus", "Potassium", "Organic matter"]);
    // Each of the nine is told above these words to have gone up: of a test that was not looked at nothing is denied.
    expect(all.says).toEqual([
      "The farm's zones that Gannet Soil Laboratory tested in autumn 2025 did not move together in phosphorus, potassium or organic matter by more than chance makes.",
      "Soil pH and magnesium are not looked at in zones that were limed in between.",
    ]);
  });

  it("may be another laboratory, where another tested them before", () => {
    const { farm } = strayed(stillFarm(9, 3), (a, _, year) => (year === 2025 && a === "pH" ? 0.3 : 0));
    expect(says(farm)).not.toContain("another laboratory");
    const before = (year: string): Farm => {
      const ofAnother = (m: Measurement): Measurement => (m.date.startsWith(year) ? { ...m, lab: "another" } : m);
      const [field] = farm.fields as [Farm["fields"][number]];
      const samplings = field.samplings.map((s) => ({ ...s, composites: s.composites.map((c) => ({ ...c, measurements: c.measurements.map(ofAnother) })) }));
      return { ...farm, fields: [{ ...field, samplings }] };
    };
    expect(says(before("2024"))).toContain("is in no zone's noise: another laboratory than before, a laboratory's run, a dry year,");
    expect(says(before("2023"))).not.toContain("another laboratory");
  });

  it("is told an excerpt of the zones that it shows", () => {
    const { farm } = strayed(stillFarm(9, 2), () => 0);
    const shown = (someFields: boolean): string => says({ ...farm, withheld: { reader: "the landlord", parts: new Set(), years: undefined, someFields } });
    expect(shown(true)).toMatch(/^The zones shown here that Gannet/);
    expect(shown(false)).toMatch(/^The farm's zones that Gannet/);
    const few = strayed(stillFarm(3, 2), () => 0).farm;
    expect(says({ ...few, withheld: { reader: "the landlord", parts: new Set(), years: undefined, someFields: true } })).toContain("cannot be told: of those shown here that Gannet");
  });
});

describe("which changes are set beside each other", () => {
  const measured = (farm: Farm, edit: (m: Measurement, zone: string) => Measurement): Farm => {
    const [field] = farm.fields as [Farm["fields"][number]];
    const samplings = field.samplings.map((s) => ({ ...s, composites: s.composites.map((c) => ({ ...c, measurements: c.measurements.map((m) => edit(m, c.zone)) })) }));
    return { ...farm, fields: [{ ...field, samplings }] };
  };
  const unchanged = (): Farm => strayed(stillFarm(9, 2), () => 0).farm;
  const isLast = (m: Measurement): boolean => m.date.startsWith("2025");
  const places = (farm: Farm): number[] => sharedMoves(farm, newest(farm))!.sums.filter((s) => s.name === "Phosphorus").map((s) => Number(/÷ (\d+)$/.exec(s.steps[0]!.expression!)![1])).sort();
  const few = new Set(["zone-1", "zone-2", "zone-3", "zone-4"]);

  it.each<[string, (m: Measurement) => Measurement]>([
    ["laboratory", (m) => (isLast(m) ? { ...m, lab: "another" } : m)],
    ["season", (m) => (isLast(m) ? { ...m, date: "2025-04-18" } : m)],
    ["method", (m) => ({ ...m, method: "bray1" })],
    ["finish", (m) => ({ ...m, finish: "colorimetric" })],
    ["way of preparing", (m) => ({ ...m, preparation: "moist" })],
    ["unit", (m) => ({ ...m, unit: "mg/l" })],
  ])("those of one %s", (_, edit) => {
    const still = unchanged();
    expect(places(still)).toEqual([9]);
    expect(places(measured(still, (m, zone) => (few.has(zone) ? edit(m) : m)))).toEqual([4, 5]);
  });

  it("by as many tests as a sampling's own page looks at", () => {
    const { farm } = strayed(stillFarm(9, 2), () => 0.01);
    const sampling = newest(farm);
    const bound = (...analytes: string[]) => {
      const composites = sampling.composites.map((c) => ({ ...c, measurements: c.measurements.filter((m) => analytes.includes(m.analyte)) }));
      return sharedMoves(farm, { ...sampling, composites })!.sums.find((s) => s.name === "Potassium")!.steps.at(-1)!.result;
    };
    // Of three tests each is asked at its share of one in twenty, whatever page asked before.
    expect(bound("K")).not.toBe(bound("K", "P", "Mg"));
  });

  it("all of a winter and its autumn, on either side of New Year", () => {
    const still = unchanged();
    const january = measured(still, (m, zone) => (isLast(m) && few.has(zone) ? { ...m, date: "2026-01-08" } : m));
    expect(places(january)).toEqual([9]);
    expect(says(january)).toContain("tested in autumn and winter 2025–26 did not");
  });

  it("not those of a nitrate sampling", () => {
    const still = unchanged();
    expect(places(measured(still, (m, zone) => (isLast(m) && few.has(zone) ? { ...m, purpose: "nitrate" } : m)))).toEqual([5]);
    expect(sharedMoves(still, { ...newest(still), purpose: "nitrate" })).toBeUndefined();
  });

  it("not those of a result that is only bounded, nor since one", () => {
    const still = unchanged();
    const bounded = (m: Measurement): Measurement => ({ ...m, qualifier: "<" });
    expect(places(measured(still, (m, zone) => (isLast(m) && zone === "zone-1" ? bounded(m) : m)))).toEqual([8]);
    expect(places(measured(still, (m, zone) => (!isLast(m) && few.has(zone) ? bounded(m) : m)))).toEqual([5]);
  });

  it("those of zones that ended since", () => {
    const still = unchanged();
    const [field] = still.fields as [Farm["fields"][number]];
    const [ended, ...zones] = field.zones as [Zone, ...Zone[]];
    const since = { ...field, zones, formerZones: [{ ...ended, until: "2025-11-01" }] };
    expect(places({ ...still, fields: [since] })).toEqual([9]);
  });

  it("the last of a zone that was sampled twice in the season", () => {
    const still = unchanged();
    const [field] = still.fields as [Farm["fields"][number]];
    const last = newest(still);
    const again = { ...last, id: "again", date: "2025-11-20", composites: last.composites.map((c) => ({ ...c, measurements: c.measurements.map((m) => ({ ...m, date: "2025-11-20", value: m.value * 2 })) })) };
    const farm = { ...still, fields: [{ ...field, samplings: [...field.samplings, again] }] };
    expect(sharedMoves(farm, last)!.sums[1]!.steps[0]!.expression).toBe("sum of 30, 30, 30, 30, 30, 30, 30, 30, 30 ÷ 9");
  });

  // By hand, from soil-variability at pH 6.3 and fifteen cores: √((0.07 × 6.3)² ÷ 15 + 0.07²) = 0.1337, of two results √2 times that.
  it("with the noise of both results, a share of one in twenty for all tests, and half of what is printed", () => {
    const still = unchanged();
    const [pH] = sharedMoves(still, newest(still))!.sums;
    expect(pH!.steps[1]).toMatchObject({ result: "0.189" });
    expect(pH!.steps[2]!.expression).toMatch(/ × 0\.189 ÷ √9 \+ 0\.05$/);
    expect(pH!.steps[2]!.note).toContain("at 5 in 100 divided by 5, since 5 tests are looked at");
  });

  it("and tells of how many places went that way", () => {
    const one = measured(strayed(stillFarm(9, 2), (a, _, year) => (a === "K" && year === 2025 ? -0.4 : 0)).farm, (m, zone) => (m.analyte === "K" && isLast(m) && zone === "zone-1" ? { ...m, value: 141 } : m));
    expect(says(one)).toContain("potassium went down in eight of nine, by ");
  });
});

describe("a sampling's page", () => {
  const causeway = demo.fields.find((f) => f.id === "causeway")!;
  const page = (id: string) => samplingView(demo, causeway, causeway.samplings.find((s) => s.id === id)!);
  const since = (id: string, analyte: string) => page(id).results.find((r) => r.analyte.startsWith(analyte))!.cells.map((c) => c.since);

  // Worked by hand of content/fields/causeway: pH of 2023 is the mean of 6.4 and 6.4, 6.5 and 6.6, 5.9 and 5.8.
  it("tells below each result what it changed by, and of two bags what their mean did", () => {
    expect(since("2025-10-18", "Soil pH")).toEqual(["−0.1, within noise", "−0.05, within noise", "−0.15, within noise"]);
    expect(since("2023-10-17", "Soil pH")).toEqual(["mean: no change", "", "mean: −0.15, within noise", "", "mean: −0.45, more than noise", ""]);
    expect(page("2025-10-18").legend).toContain("last comparable result, of October 2023. Noise");
  });

  it("names what lime moves by itself", () =>
    expect(page("2020-10-20").moves!.says.at(-1)).toBe("Soil pH, buffer pH, calcium and magnesium are not looked at in zones that were limed in between."));

  it("says from when to when the results are that changes are counted from", () => {
    const saltings = demo.fields.find((f) => f.id === "saltings")!;
    expect(samplingView(demo, saltings, saltings.samplings.find((x) => x.id === "2018-10-09")!).legend).toContain("last comparable result, of October 2014 to October 2016. Noise");
  });

  it("speaks of a mean only of tests that both bags had", () => {
    const event = causeway.samplings.find((s) => s.id === "2023-10-17")!;
    const composites = event.composites.map((c) => (c.label === "CA-2310-D" ? { ...c, measurements: c.measurements.filter((m) => m.analyte === "K") } : c));
    const field = { ...causeway, samplings: causeway.samplings.map((s) => (s === event ? { ...s, composites } : s)) };
    const view = samplingView({ ...demo, fields: [field] }, field, field.samplings.find((s) => s.id === "2023-10-17")!);
    const first = (analyte: string) => view.results.find((r) => r.analyte.startsWith(analyte))!.cells[0]!.since;
    expect([first("Soil pH"), first("Potassium").slice(0, 6)]).toEqual(["no change", "mean: "]);
  });

  it("tells none where there is no result before it that may be compared", () => {
    expect(page("2014-10-21").results.flatMap((r) => r.cells.map((c) => c.since)).filter(Boolean)).toEqual([]);
    expect(page("2014-10-21").legend).toBe("The small line below a number is its class and the line of the record it stands on.");
    // Mehlich-3 from 2018 on, Bray P1 before.
    expect(since("2018-10-23", "Phosphorus")).toEqual(["", "", ""]);
    expect(page("2025-06-11-nitrate").moves).toBeUndefined();
  });
});
