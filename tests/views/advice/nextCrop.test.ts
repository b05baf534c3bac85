import { describe, expect, it } from "vitest";
import { nextCrop } from "../../../src/views/advice/nextCrop.ts";
import { latestAdvice } from "../../../src/views/advice/sample.ts";
import { fieldList } from "../../../src/views/home/fieldList.ts";
import { farmFolder } from "../../support/farmFolder.ts";
import { paths } from "../../support/tinyFarm.ts";

const plan = `name: North Field
soil: { texture: siltLoam, cec: 14 }
zones:
  west: { letter: A, name: West end }
  east: { letter: B, name: East end }
plan:
  - { season: 2025, crop: corn, yieldGoal: { value: 150, unit: bu/ac } }
  - { season: 2026, crop: soybean, yieldGoal: { value: 50, unit: bu/ac } }
`;

/** A farm whose newest day is 12 May 2025, with this line as the crop of its season 2025. */
const farmWith = (crop: string) =>
  farmFolder()
    .write(paths.field, plan)
    .remove(paths.zones)
    .remove(paths.sampling)
    .write("fields/north/samplings/2025-05-12.yaml", `date: 2025-05-12\npurpose: routine\nlab: north-lab\npackage: basic\ndepth: { from: 0, to: 6, unit: in }\ncomposites:\n  - { label: "A", zone: west, results: { pH: 6, K: 90 } }\n`)
    .write(paths.season, `season: 2025\ncrops:\n  - ${crop}\n`)
    .read().farm!;

describe("the crop that comes next", () => {
  it.each([
    ["stands", "{ crop: corn }", "corn 2025"],
    ["is harvested, its day not written down", "{ crop: corn, yield: { value: 160, unit: bu/ac } }", "soybean 2026"],
    ["is harvested on the day", "{ crop: corn, harvested: 2025-05-12 }", "soybean 2026"],
    // Two crops in one year: what a second line of a plan is refused with says so.
    ["first of two is harvested and the second written down", "{ crop: lettuce, harvested: 2025-05-12 }\n  - { crop: broccoli }", "broccoli 2025"],
  ])("where this year's %s", (_, crop, expected) => {
    const farm = farmWith(crop);
    const field = farm.fields[0]!;
    expect(farm.today).toBe("2025-05-12");
    const next = latestAdvice(farm, field, field.zones[0]!)?.crop;
    expect(`${next?.crop} ${next?.season}`).toBe(expected);
    expect(fieldList(farm)[0]!.cropWords).toBe(expected);
  });

  it.each([
    ["all of them", "yield: { value: 1.9, unit: ton/ac }", "yield: { value: 1.3, unit: ton/ac }", { value: 3.2, unit: "ton/ac" }],
    ["none where one is not known", "yield: { value: 1.9, unit: ton/ac }", "note: not weighed", undefined],
    ["none where they are in different units", "yield: { value: 1.9, unit: ton/ac }", "yield: { value: 3, unit: t/ha }", undefined],
  ])("cut twice has for its goal what the cuts gave, %s", (_, first, second, expected) => {
    const field = farmWith(`{ crop: alfalfa, harvested: 2025-05-30, ${first} }\n  - { crop: alfalfa, harvested: 2025-07-10, ${second} }`).fields[0]!;
    expect(nextCrop({ ...field, plan: [] }, "west", "2025-05-12")).toMatchObject({ crop: "alfalfa", yieldGoal: expected });
  });

  it("after a sampling long past is the one that was harvested then", () => {
    const field = farmWith("{ crop: corn, yield: { value: 160, unit: bu/ac } }").fields[0]!;
    expect(nextCrop(field, "west", "2025-05-12")?.season).toBe(2025);
  });

  describe("after the last sampling of a zone that was drawn anew since", () => {
    const redrawn = (crops: string, planned = plan.slice(plan.indexOf("plan:"))) => {
      const zones = "  west: { letter: A, name: West end, until: 2025-05-12 }\n  south: { letter: C, name: South end, since: 2025-05-12, formerly: [west] }\n  north: { letter: D, name: North end, since: 2025-05-12, formerly: [west] }\n";
      const farm = farmFolder()
        .write(paths.field, `name: North Field\nsoil: { texture: siltLoam, cec: 14 }\nzones:\n${zones}  east: { letter: B, name: East end }\n${planned}`)
        .remove(paths.zones)
        .remove(paths.sampling)
        .write("fields/north/samplings/2025-05-12.yaml", `date: 2025-05-12\npurpose: routine\nlab: north-lab\npackage: basic\ndepth: { from: 0, to: 6, unit: in }\ncomposites:\n  - { label: "A", zone: east, results: { pH: 6, K: 90 } }\n`)
        .write(paths.season, crops === "" ? "season: 2025\ncrops: []\n" : `season: 2025\ncrops:\n${crops}`)
        .read();
      expect(farm.problems.filter((p) => p.severity === "error").map((p) => p.message)).toEqual([]);
      const [field] = farm.farm!.fields;
      return nextCrop(field!, "west", "2025-04-02")?.crop;
    };

    it("is the one that all its ground was planned for, or bore", () => {
      expect(redrawn("")).toBe("corn");
      expect(redrawn("  - { crop: soybean }\n", "")).toBe("soybean");
    });

    it("is not known where its ground was parted among crops", () => {
      expect(redrawn("", "plan:\n  - { season: 2025, crop: corn, zones: [south, east] }\n  - { season: 2025, crop: soybean, zones: [north] }\n")).toBeUndefined();
      expect(redrawn("  - { crop: corn, zones: [south, east] }\n  - { crop: soybean, zones: [north] }\n", "")).toBeUndefined();
    });
  });
});
