import { expect, it } from "vitest";
import type { Field } from "../../../src/records/model.ts";
import { nextSamplingsOf } from "../../../src/views/calendar/calendar.ts";
import { duePlans } from "../../../src/views/plan/duePlans.ts";
import { duePlanView } from "../../../src/views/plan/plan.ts";
import { sitePlanFiles } from "../../../src/views/plan/sitePlanFiles.ts";
import { ranHere } from "../../support/command.ts";
import type { FarmFolder } from "../../support/farmFolder.ts";
import { farmFolder, temporaryFolder } from "../../support/farmFolder.ts";
import { library } from "../../support/gardenFarm.ts";
import { mergedField } from "../../support/mergedFarm.ts";
import { paths, tinyFarm } from "../../support/tinyFarm.ts";

// Tri-State asks for a full sampling every 3 to 4 years; both zones were last sampled on 18 October 2025.
const merging = (since: string): FarmFolder =>
  farmFolder()
    .change("farm.yaml", "[small-guide]", "[us-tristate-974-2020, us-iowa-nitrate]")
    .change(paths.lab, "packages:", "packages:\n  nitrate: { name: Nitrate, fee: 8, measures: { nitrateN: { method: potassiumChloride, unit: ppm } } }")
    .write(paths.field, mergedField.replace(/ {2}strip: .*\n/, "").replaceAll("2023-10-01", since))
    .remove(paths.zones);
const read = (since: string, today: string) => {
  const { farm, problems } = merging(since).read({ library, today });
  if (!farm) throw new Error(problems.map((p) => p.message).join("\n"));
  return { farm, field: farm.fields[0]!, next: nextSamplingsOf(farm, farm.fields[0]!) };
};
const ids = ({ zones }: Pick<Field, "zones">): string[] => zones.map((z) => z.id);

it("a full sampling is of the zones that there will be in its half year, and says so", () => {
  const [full] = read("2029-12-31", "2025-11-01").next;
  expect([full!.slot, ids(full!), full!.bags, full!.why.at(-1)]).toEqual([{ year: 2029, part: "autumn" }, ["long"], 1, "From 31 December 2029 on, Long piece is to take the place of West end and East end."]);
  const [before] = read("2030-01-01", "2025-11-01").next;
  expect([ids(before!), before!.bags]).toEqual([["west", "east"], 2]);
  expect(before!.why.join(" ")).not.toContain("Long piece");
});

it("a test of nitrogen is of the zones that the crop will stand on", () => {
  const nitrate = (since: string) => read(since, "2025-11-01").next.find((each) => each.purpose === "nitrate")!;
  expect([ids(nitrate("2026-07-01")), nitrate("2026-07-01").bags]).toEqual([["long"], 1]);
  expect(nitrate("2026-07-01").fee).toMatchObject({ kind: "answer", value: { fee: 8 } });
  expect(ids(nitrate("2026-07-02"))).toEqual(["west", "east"]);
  for (const [since, zones] of [["2026-07-01", ["long"]], ["2026-07-02", ["west", "east"]]] as const) {
    const { farm, field } = read(since, "2026-05-01");
    expect(duePlans(farm, field).find((each) => each.purpose === "nitrate")?.request.zones).toEqual(zones);
  }
});

it("a check of pH is of the new zone where lime was spread on an old one", () => {
  const farm = merging("2027-10-01").change(paths.season, "applications:", "applications:\n  - { date: 2025-10-25, product: ground-limestone, zones: [west], rate: { value: 1.5, unit: ton/ac } }").read({ library, today: "2025-11-01" }).farm!;
  const check = nextSamplingsOf(farm, farm.fields[0]!).find((each) => each.purpose === "phCheck");
  expect([check?.slot, ids(check!), check!.bags]).toEqual([{ year: 2027, part: "autumn" }, ["long"], 1]);
});

it("the plan, its files and the command are of them, on a day on which they are zones", async () => {
  for (const [since, date] of [["2029-10-05", "2029-10-18"], ["2029-11-05", "2029-11-05"]] as const) {
    const { farm, field } = read(since, "2029-05-01");
    const due = duePlans(farm, field).find((each) => each.purpose === "routine")!;
    expect([ids(due.field), due.request.date, due.request.zones]).toEqual([["long"], date, ["long"]]);
    expect(duePlanView(farm, due).plan.bags.map((b) => b.zone.id)).toEqual(["long"]);
    const [labels] = sitePlanFiles(farm);
    expect(labels!.content()).toContain("Long piece");
    expect(labels!.content()).not.toContain("West end");
  }
  const folder = temporaryFolder();
  // Last sampled in 2021, and so due in autumn 2025, in which the new zone begins.
  const overdue = merging("2025-12-01").remove("fields/north/samplings").write("fields/north/samplings/2021-10-14.yaml", tinyFarm["fields/north/samplings/2024-10-14.yaml"]!.replace("2024-10-14", "2021-10-14"));
  const { status, stdout } = await ranHere("plan", ["north", "--content", overdue.path, "--out", "plan"], { from: folder });
  expect([status, stdout]).toEqual([0, expect.stringContaining("NO-D-2512-1: Long piece")]);
  expect(stdout).not.toContain("West end");
});
