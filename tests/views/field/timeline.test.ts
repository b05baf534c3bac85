import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { installation } from "../../../scripts/options.ts";
import { readFarm } from "../../../src/records/reading/readFarm.ts";
import type { Field } from "../../../src/records/model.ts";
import { timelineView, timelineYears } from "../../../src/views/field/timeline.ts";
import { farmFolder } from "../../support/farmFolder.ts";
import { paths } from "../../support/tinyFarm.ts";

const tiny = (extra: Readonly<Record<string, string>> = {}): Field => {
  const folder = farmFolder();
  for (const [file, text] of Object.entries(extra)) folder.write(file, text);
  return folder.read().farm!.fields[0]!;
};
const told = (field: Field): string[] => timelineYears(field).flatMap((y) => y.entries.map((e) => `${e.date} ${e.kind}: ${e.text}`));

describe("a field's timeline", () => {
  it("is one thread, newest first, with a correction on its own day", () =>
    expect(told(tiny())).toEqual([
      "2025-11-01 correction: Potassium of East end, bag 0022, sampled 18 October 2025",
      "2025-10-18 sampling: Routine sampling, two bags, North Laboratory",
      "2025-10-10 harvest: Harvest of corn, 171 bu/ac".replace("harvest:", "harvested:"),
      "2025-05-06 planted: Corn planted",
      "2025-04-28 fertilizer: Muriate of potash, 100 lb/ac on West end",
      "2024-10-14 sampling: Routine sampling, two bags, North Laboratory",
    ]));

  it("tells a liquid in the gallons it was recorded by", () => {
    const liquid = farmFolder().change(paths.farm, "K2O: 60 }", "K2O: 15 }\n    density: { value: 12, unit: lb/gal }").change(paths.season, "value: 100, unit: lb/ac", "value: 25, unit: gal/ac");
    expect(told(liquid.read().farm!.fields[0]!)).toContain("2025-04-28 fertilizer: Muriate of potash, 25 gal/ac on West end");
  });

  it("strikes the old value and keeps the reason", () => {
    const fix = timelineYears(tiny())[0]!.entries[0]!;
    expect(fix).toMatchObject({ corrected: { was: "128", now: "138 ppm" }, note: "The sheet says 138.", to: "fields/north/samplings/2025-10-18.html", where: "fields/north/samplings/2025-10-18.yaml:21" });
  });

  it("names the file and the line of every entry but a sampling, which is a file of its own", () => {
    for (const entry of timelineYears(tiny()).flatMap((y) => y.entries)) expect(entry.where).toMatch(entry.kind === "sampling" ? /\.yaml$/ : /\.yaml:\d+$/);
  });

  it("puts what has no day last in its year, and joins crops of one day", () => {
    const crops = `season: 2023
crops:
  - { crop: corn, zones: [west], planted: 2023-05-02, harvested: 2023-10-01, yield: { value: 150, unit: bu/ac } }
  - { crop: corn, zones: [east], planted: 2023-05-02, harvested: 2023-10-01, yield: { value: 140, unit: bu/ac } }
  - { crop: grassPasture, zones: [east], note: grazed }
`;
    const years = timelineYears(tiny({ "fields/north/seasons/2023.yaml": crops }));
    expect(years.map((y) => y.year)).toEqual(["2025", "2024", "2023"]);
    expect(years[2]!.entries.map((e) => `${e.date} ${e.text}${e.note ? ` (${e.note})` : ""}`)).toEqual([
      "2023-10-01 Harvest of corn: West end 150 bu/ac and East end 140 bu/ac",
      "2023-05-02 Corn planted",
      "2023 Grass pasture on East end, yield not recorded (grazed)",
    ]);
  });

  it("gives every entry an anchor of its own", () => {
    const twice = "season: 2024\napplications:\n  - { date: 2024-04-20, product: potash, rate: { value: 50, unit: lb/ac } }\n  - { date: 2024-04-20, product: potash, rate: { value: 60, unit: lb/ac } }\n";
    const ids = timelineYears(tiny({ "fields/north/seasons/2024.yaml": twice })).flatMap((y) => y.entries.map((e) => e.id));
    expect(new Set(ids).size).toBe(ids.length);
    expect(ids).toEqual(expect.arrayContaining(["2024-04-20-fertilizer", "2024-04-20-fertilizer-2"]));
  });

  it("takes in advice as it was issued, and counts the kinds that occur", () => {
    const view = timelineView(tiny(), [{ date: "2025-11-02", text: "Advice for 2026", file: "fields/north/recommendations/2025-11-02.yaml" }]);
    expect(view.years[0]!.entries[0]).toMatchObject({ kind: "advice", text: "Advice for 2026", where: "fields/north/recommendations/2025-11-02.yaml" });
    expect(view.kinds.map((k) => [k.kind, k.count])).toEqual([["sampling", 2], ["advice", 1], ["correction", 1], ["fertilizer", 1], ["planted", 1], ["harvested", 1]]);
    expect(view.period).toBe("2024 to 2025");
  });

  it("links advice that was kept to its own page, on the day it was issued", () => {
    const { farm } = readFarm({ content: join(installation, "content") });
    const causeway = farm!.fields.find((f) => f.id === "causeway")!;
    const advice = timelineYears(causeway).flatMap((y) => y.entries.filter((e) => e.kind === "advice"));
    expect(advice).toMatchObject([
      {
        date: "2020-11-05",
        text: "Advice for the farm, for the wheat of 2021, from the sampling of 20 October 2020",
        to: "fields/causeway/recommendations/2020-11-05.html",
        where: "fields/causeway/recommendations/2020-11-05.yaml",
      },
    ]);
  });

  it("says that there is nothing where there is nothing", () => {
    const folder = farmFolder();
    for (const file of ["fields/north/samplings/2024-10-14.yaml", "fields/north/samplings/2025-10-18.yaml", "fields/north/seasons/2025.yaml"]) folder.remove(file);
    const { farm } = folder.read();
    expect(timelineView(farm!.fields[0]!)).toMatchObject({ lede: "Nothing is recorded of this field yet.", years: [], kinds: [], period: "no records yet" });
  });
});
