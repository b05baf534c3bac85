import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { installation } from "../../../scripts/options.ts";
import type { Measurement } from "../../../src/interpretation/measurement.ts";
import type { AnalyteId } from "../../../src/interpretation/vocabulary.ts";
import type { Field } from "../../../src/records/model.ts";
import { readFarm } from "../../../src/records/reading/readFarm.ts";
import { mapParts } from "../../../src/views/maps/mapPages.ts";
import { allPaths } from "../../../src/views/site/routes.ts";
import type { YearMap } from "../../../src/views/maps/yearMap.ts";
import { yearMaps } from "../../../src/views/maps/yearMaps.ts";

/** Laboratory, method, depth, preparation and season change between its samplings; see tests/fixtures/labchange.test.ts. */
const { farm } = readFarm({ content: join(installation, "tests", "fixtures", "labchange"), library: join(installation, "content") });
const field = farm!.fields[0]!;
const view = yearMaps(farm!, field, 1);
const mapOf = (label: string, analyte: AnalyteId): YearMap => view.years.find((y) => y.label === label)!.maps.find((m) => m.analyte === analyte)!;
const newLab = "15 October 2024, New Laboratory";
const oldLab = "15 October 2024, Old Laboratory";

/** How a result was taken, written out here by hand, so that the program is not held to its own opinion. */
const wayOf = (m: Measurement): string =>
  [m.method, m.finish, m.preparation ?? "dried", m.unit, `${m.depth.from}-${m.depth.to} ${m.depth.unit}`, m.analyte === "P" ? "any" : m.date.slice(5, 7) < "07" ? "spring" : "autumn"].join("|");

describe("the maps of a field whose laboratory changed", () => {
  it("are one for each routine sampling, oldest first, named by as little of its date as tells it apart", () =>
    expect(view.years.map((y) => y.label)).toEqual(["2012", "2014", "2016", "2018", "April 2020", "October 2020", "2022", oldLab, newLab]));

  it("show the results of their own sampling and no other", () => {
    // Copied from the sampling files by hand; the mean of the two bags of 2024 is (110 + 114) / 2.
    const values = (label: string, analyte: AnalyteId): string[] => mapOf(label, analyte).zones.map((z) => z.value);
    expect(values("2012", "K")).toEqual(["150", "160"]);
    expect(values("April 2020", "pH")).toEqual(["6.4", "6.6"]);
    expect(values(oldLab, "K")).toEqual(["not sampled", "128"]);
    expect(values(newLab, "K")).toEqual(["112", "not sampled"]);
  });

  it("have their unit over their figures, where all of them have one", () => {
    const heads = (of: typeof view) => of.analytes.filter((a) => ["pH", "K"].includes(a.analyte)).map((a) => a.head);
    expect(heads(view)).toEqual(["Soil pH", "Potassium, ppm"]);
    const samplings = field.samplings.map((s, i) => (i > 0 ? s : { ...s, composites: s.composites.map((c) => ({ ...c, measurements: c.measurements.map((m) => (m.analyte === "K" ? { ...m, unit: "mg/l" as const } : m)) })) }));
    expect(heads(yearMaps(farm!, { ...field, samplings }, 1))).toEqual(["Soil pH", "Potassium"]);
  });

  it("are classed by a guideline that reads their method; otherwise they have no class, and the legend says why", () => {
    expect(mapOf("2018", "K")).toMatchObject({ zones: [{ css: "c-s2", band: "enough" }, { css: "c-s2", band: "enough" }], legend: [{ css: "c-s2", label: "enough, 100 or more" }] });
    expect(mapOf("2012", "K").zones.map((z) => [z.css, z.band])).toEqual([["c-none", "no class"], ["c-none", "no class"]]);
    expect(mapOf("2012", "K").legend).toEqual([{ css: "c-none", label: "no class, because potassium was measured by ammonium acetate and Change rules is calibrated for Mehlich-3" }]);
    expect(mapOf("October 2020", "K").legend.map((c) => c.label)).toEqual(["no class, because the laboratory extracted moist soil and Change rules is calibrated for dried soil"]);
    expect(mapOf(newLab, "K").legend.map((c) => c.css)).toEqual(["c-s2", "c-nd"]);
  });

  it.each(["pH", "K", "P"] as const)("mark every year, and only a year, whose %s must not be compared with its zone's newest", (analyte) => {
    const wayIn = (id: string, zone: string): string | undefined => {
      const found = field.samplings.find((s) => s.id === id)!.composites.find((c) => c.zone === zone)?.measurements.find((m) => m.analyte === analyte);
      return found && wayOf(found);
    };
    for (const { sampling, maps } of view.years) {
      const newest = { west: wayIn("2024-10-15", "west"), east: wayIn("2024-10-15-old", "east") };
      const otherwise = (["west", "east"] as const).filter((zone) => (wayIn(sampling, zone) ?? newest[zone]) !== newest[zone]);
      const map = maps.find((m) => m.analyte === analyte)!;
      expect(map.apart, sampling).toBe(otherwise.length > 0);
      expect(map.note.includes("† Not comparable with the newest results"), sampling).toBe(otherwise.length > 0);
    }
  });

  it("say what changed, on the older map and on the newest", () => {
    expect(mapOf("2012", "K").note).toContain("† Not comparable with the newest results: West half, because the method changed from ammonium acetate to Mehlich-3, ICP.");
    expect(mapOf("October 2020", "pH").note).toContain("† Not comparable with the newest results: the method changed from 0.01 M calcium chloride to 1:1 water.");
    expect(mapOf(newLab, "K").note).toContain("Not comparable with the newest results, and marked †: 2012 and 2014 on West half, because the method changed from ammonium acetate to Mehlich-3, ICP;");
  });

  it("tell a correction, and the crop that a class is read for", () => {
    expect(mapOf("2018", "K").note).toContain("West half was 510 before a correction: figures of another bag (20 November 2018).");
    expect(mapOf("2018", "K").note).toContain("Classes: Change rules. ");
    expect(mapOf("2022", "K").note).toContain("Read for corn in 2023.");
  });
});

const changed = (change: Partial<Field>): Field => ({ ...field, ...change });

describe("tests that no guideline rates", () => {
  /** Copper beside every potassium result, all of them copied from potassium: the files hold 95 to 180, which are six steps of 20 and three of 50. */
  const withCopper = changed({
    samplings: field.samplings.map((s) => ({
      ...s,
      composites: s.composites.map((c) => ({ ...c, measurements: [...c.measurements, ...c.measurements.filter((m) => m.analyte === "K").map((m): Measurement => ({ ...m, analyte: "Cu" }))] })),
    })),
  });
  const page = yearMaps(farm!, withCopper, 1);
  const copper = (label: string): YearMap => page.years.find((y) => y.label === label)!.maps.find((m) => m.analyte === "Cu")!;

  it("can be chosen after those of the field's own page, and lie in even steps that the legend names in the laboratory's unit", () => {
    expect(page.analytes.map((a) => a.name)).toEqual(["Soil pH", "Potassium", "Phosphorus", "Copper"]);
    expect(copper("2012")).toMatchObject({ zones: [{ css: "c-q2", value: "150.0", band: "" }, { css: "c-q2", value: "160.0", band: "" }], legend: [{ css: "c-q2", label: "150 to under 200 ppm" }] });
    expect(copper("2018").legend).toEqual([{ css: "c-q1", label: "100 to under 150 ppm" }]);
    expect(copper("2012").note).toContain("No class, because none of the chosen guidelines rates copper. The shades are even steps over all results shown here, and do not say what is low or high.");
  });

  it("are drawn even where a field was sampled once, and a sampling without them has no drawing", () => {
    expect(mapParts({ ...withCopper, samplings: withCopper.samplings.slice(0, 1) })).toHaveLength(1);
    const once = yearMaps(farm!, { ...withCopper, samplings: withCopper.samplings.map((s, i) => (i === 0 ? s : field.samplings[i]!)) }, 1);
    expect(once.years.map(({ maps }) => maps[3]!.tested)).toEqual([true, false, false, false, false, false, false, false, false]);
    expect(once.years[1]!.maps[3]!.note).toBe("Not tested in this sampling.");
  });
});

describe("samplings of another purpose", () => {
  it("have a page of their own, which compares them with one another alone", () => {
    const checked = changed({ samplings: field.samplings.map((s, i) => (i === 4 ? { ...s, purpose: "phCheck" } : s)) });
    expect(mapParts(checked).map((group) => group.map((s) => s.purpose))).toEqual([Array.from({ length: 8 }, () => "routine"), ["phCheck"]]);
    const page = yearMaps(farm!, checked, 2);
    expect(page.title).toBe("Maps of Kelp: pH checks, 2020");
    expect(page.years.map((y) => [y.label, y.maps[0]!.apart])).toEqual([["2020", false]]);
    expect([...allPaths({ ...farm!, fields: [checked] }).keys()].filter((path) => path.startsWith("fields/kelp/maps"))).toEqual(["fields/kelp/maps.html", "fields/kelp/maps-2.html"]);
  });
});

describe("what has no map", () => {

  it("is a bag whose results are awaited: its zone says so", () => {
    const waiting = changed({ samplings: field.samplings.map((s) => (s.id === "2022-10-11" ? { ...s, composites: s.composites.map((c) => (c.zone === "east" ? { ...c, measurements: [] } : c)) } : s)) });
    const year = yearMaps(farm!, waiting, 1).years.find((y) => y.sampling === "2022-10-11")!;
    expect(year.maps.map((m) => m.zones[1])).toEqual(Array.from({ length: 3 }, () => ({ css: "c-nd", value: "results awaited", band: "" })));
  });

  it("is a sampling of which nothing has come back, and a field sampled once for what its own page draws", () => {
    const unanswered = changed({ samplings: field.samplings.map((s, i) => (i === 0 ? { ...s, composites: s.composites.map((c) => ({ ...c, measurements: [] })) } : s)) });
    expect(mapParts(unanswered).flat().map((s) => s.id)).not.toContain("2012-10-10");
    expect(mapParts(changed({ samplings: field.samplings.slice(0, 1) }))).toEqual([]);
  });

  it("is a field without boundaries, as a reader gets it who is not shown positions: no page is claimed", () => {
    const unmapped = changed({ zones: field.zones.map((zone) => ({ ...zone, area: undefined, squareMeters: undefined })) });
    expect(mapParts(unmapped)).toEqual([]);
    expect([...allPaths({ ...farm!, fields: [unmapped] }).keys()].filter((path) => path.startsWith("fields/kelp/maps"))).toEqual([]);
    expect([...allPaths(farm!).keys()].filter((path) => path.startsWith("fields/kelp/maps"))).toEqual(["fields/kelp/maps.html"]);
  });
});
