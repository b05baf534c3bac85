import { describe, expect, it } from "vitest";
import { forAudience } from "../../../src/records/audience/forAudience.ts";
import { livesOn, liveTogether, withZonesOf } from "../../../src/interpretation/zoneLife.ts";
import { mergedFarm, mergedField } from "../../support/mergedFarm.ts";
import { paths } from "../../support/tinyFarm.ts";

const ids = (zones: readonly { readonly id: string }[]): string[] => zones.map((z) => z.id);

it("a zone ends on the day on which the one that follows it begins", () => {
  const [old, fresh] = [{ until: "2023-10-01" }, { since: "2023-10-01" }];
  expect([livesOn(old, "2023-09-30"), livesOn(old, "2023-10-01"), livesOn(fresh, "2023-09-30"), livesOn(fresh, "2023-10-01")]).toEqual([true, false, false, true]);
  expect([liveTogether(old, fresh), liveTogether(fresh, old), liveTogether(old, {}), liveTogether(old, { since: "2023-09-30" }), liveTogether({ until: "2022-01-01" }, fresh)]).toEqual([false, false, true, true, false]);
});

it("a zone that came and went between two days is history on the later one, though all others stand as they did", () => {
  const field = mergedFarm().write(paths.field, mergedField.replace("until: 2022-03-01", "since: 2028-01-01, until: 2028-03-01")).remove(paths.zones).remove("fields/north/samplings/2019-10-14.yaml").read({ today: "2026-01-01" }).farm!.fields[0]!;
  expect([ids(field.formerZones), ids(withZonesOf(field, "2029-01-01").formerZones)]).toEqual([["west", "east"], ["west", "east", "strip"]]);
  expect(withZonesOf(field, "2027-01-01")).toBe(field);
});

describe("a field whose zones were merged", () => {
  const read = () => mergedFarm().read();
  const readField = () => read().farm!.fields[0]!;

  it("has the zones of today, and the former ones apart; polygons of zones of other times may overlap", () => {
    expect(read().problems).toEqual([]);
    const field = readField();
    expect([ids(field.zones), ids(field.formerZones)]).toEqual([["long"], ["west", "east", "strip"]]);
    expect(field.formerZones.every((z) => z.area)).toBe(true);
  });

  it("gives a season without zones to those of its day: a harvest before the change to the old ones, potash after it to the new", () => {
    const { seasons, plan } = readField();
    const [was, then] = seasons;
    expect([was!.crops[0]!.zones, ...was!.applications.map((a) => a.zones), then!.crops[0]!.zones]).toEqual([["west", "east"], ["west", "east"], ["long"], ["west"], ["long"]]);
    expect(plan[0]!.zones).toEqual(["long"]);
  });

  it("read as of an earlier day has the zones of that day", () => {
    const then = mergedFarm().read({ today: "2021-12-31" }).farm!.fields[0]!;
    expect([ids(then.zones), ids(then.formerZones)]).toEqual([["west", "east", "strip"], []]);
  });

  it("shows a reader of some years the zones of those years, and no others", () => {
    const shown = (seasons: { from?: number; to?: number }) => {
      const [f] = forAudience(read().farm!, { name: "A reader", leaveOut: [], seasons }).fields;
      return [ids(f!.zones), ids(f!.formerZones), f!.zones.flatMap((z) => [z.since, z.until, ...(z.formerly ?? [])].filter((told) => told !== undefined))];
    };
    expect(shown({ to: 2021 })).toEqual([["west", "east", "strip"], [], []]);
    expect(shown({ from: 2024 })).toEqual([["long"], [], []]);
    expect(shown({ to: 2018 })[2]).toEqual([]);
    expect(shown({ from: 2023 })).toEqual([["long"], ["west", "east"], ["2023-10-01", "west", "east"]]);
  });

  it("hides the outlines of former zones with the others", () => {
    const [f] = forAudience(read().farm!, { name: "A reader", leaveOut: ["positions"] }).fields;
    expect([...f!.zones, ...f!.formerZones].flatMap((z) => z.area ?? [])).toEqual([]);
  });
});

/** A field of two zones, neither of which has ended; one of them says that it was another before. */
const neverMerged = (farm: ReturnType<typeof mergedFarm>, formerly: string) =>
  farm
    .write(paths.field, `name: North Field\nzones:\n  west: { letter: A, name: West end }\n  east: { letter: B, name: East end, since: 2020-01-01, formerly: [${formerly}] }\n`)
    .remove(paths.zones)
    .remove("fields/north/seasons")
    .remove("fields/north/samplings");

describe("what is wrong with a zone's days is told where it stands", () => {
  const sampling = "fields/north/samplings/2025-10-18.yaml";
  it.each([
    ["a bag of a zone that had ended", (f: ReturnType<typeof mergedFarm>) => f.write(sampling, `date: 2025-10-18\npurpose: routine\nlab: north-lab\npackage: basic\ndepth: { from: 0, to: 8, unit: in }\ncomposites:\n  - { label: "1", zone: west, results: { pH: 6 } }\n`), `${sampling}:7:25: composites[1].zone: zone "west" is no zone any more since 2023-10-01, and this is of 2025-10-18; allowed: long`],
    // Beds 1 and 2 become bed 12, and bed 3 stays: bed 3 is not meant where bed 1 is written.
    ["a plan for a former zone whose id is like another's", (f: ReturnType<typeof mergedFarm>) => f.write(paths.field, mergedField.replaceAll("west", "bed-1").replaceAll("long:", "bed-3:").replace("crop: corn,", "crop: corn, zones: [bed-1],")).remove(paths.zones).remove("fields/north/seasons").remove("fields/north/samplings"), `${paths.field}:9:41: plan[1].zones[1]: zone "bed-1" is no zone any more since 2023-10-01, and this is of 2026-07-01; allowed: bed-3`],
    ["a crop of a zone yet to be drawn", (f: ReturnType<typeof mergedFarm>) => f.write("fields/north/seasons/2022.yaml", "season: 2022\ncrops:\n  - { crop: corn, zones: [long] }\n"), 'fields/north/seasons/2022.yaml:3:27: crops[1].zones[1]: zone "long" is a zone only since 2023-10-01, and this is of 2022-07-01; allowed: west, east'],
    ["a crop from before the first zone", (f: ReturnType<typeof mergedFarm>) => f.write(paths.field, mergedField.replaceAll("until: 20", "since: 2015-03-01, until: 20")).write("fields/north/seasons/2014.yaml", "season: 2014\ncrops:\n  - { crop: corn }\n"), "fields/north/seasons/2014.yaml:3:5: crops[1]: names no zones, and of 2014-07-01 field.yaml has none"],
    ["a plan for a former zone", (f: ReturnType<typeof mergedFarm>) => f.write(paths.field, mergedField.replace("crop: corn,", "crop: corn, zones: [west],")), `${paths.field}:9:41: plan[1].zones[1]: zone "west" is no zone any more since 2023-10-01, and this is of 2026-07-01; allowed: long`],
    ["a forerunner that is still a zone", (f: ReturnType<typeof mergedFarm>) => f.write(paths.field, mergedField.replace("East end, until: 2023-10-01", "East end")).remove(paths.zones), `${paths.field}:7:76: zones.long.formerly[2]: zone "east" is still a zone; give it until, the day it ended; allowed: west, strip`],
    ["a forerunner that is misspelled, and has not ended", (f: ReturnType<typeof mergedFarm>) => neverMerged(f, "wst"), `${paths.field}:4:68: zones.east.formerly[1]: zone "wst" is not in zones; did you mean west?`],
    ["a forerunner where no zone has ended yet", (f: ReturnType<typeof mergedFarm>) => neverMerged(f, "west"), `${paths.field}:4:68: zones.east.formerly[1]: zone "west" is still a zone; give it until, the day it ended`],
    ["a forerunner that ended later", (f: ReturnType<typeof mergedFarm>) => f.write(paths.field, mergedField.replace("East end, until: 2023-10-01", "East end, until: 2024-10-01")).remove(paths.zones), `${paths.field}:7:76: zones.long.formerly[2]: zone "east" is a zone until 2024-10-01, after 2023-10-01; allowed: west, strip`],
    ["a forerunner without a day of its own", (f: ReturnType<typeof mergedFarm>) => f.write(paths.field, mergedField.replace("since: 2023-10-01, ", "")), `${paths.field}:7:50: zones.long.formerly: needs since, the day the zone was drawn`],
    ["an end before the beginning", (f: ReturnType<typeof mergedFarm>) => f.write(paths.field, mergedField.replace("until: 2022-03-01", "since: 2022-04-01, until: 2022-03-01")), `${paths.field}:6:62: zones.strip.until: is not after since`],
    ["no zone left", (f: ReturnType<typeof mergedFarm>) => f.write(paths.field, "name: North Field\nzones:\n  west: { letter: A, name: West end, until: 2030-01-01 }\n").remove(paths.zones), `${paths.field}:3:3: zones: needs at least one zone without until: the others are history`],
    ["zones of one time that overlap", (f: ReturnType<typeof mergedFarm>) => f.write(paths.field, mergedField.replace("until: 2022-03-01", "until: 2024-03-01").replace("[west, east]", "[west]").replace("East end, until: 2023-10-01", "East end")), `fields/north/zones.geojson:5:68: features[4].geometry: zone "long" overlaps zone "east" by 100.0 % of the smaller one; at most 1 % is allowed`],
  ])("%s", (_, spoil, line) => {
    expect(spoil(mergedFarm()).lines()).toEqual([line]);
  });
});
