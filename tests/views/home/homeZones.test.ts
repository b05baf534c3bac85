import { expect, it } from "vitest";
import { zoneTable } from "../../../src/views/home/homeZones.ts";
import { farmFolder } from "../../support/farmFolder.ts";
import { paths } from "../../support/tinyFarm.ts";

const about = (farm = farmFolder()): string => zoneTable(farm.read().farm!).fields[0]!.about;

it("says of a field what is known of it: the crop that the classes beside it are for, and none that was grown", () => {
  expect(about(farmFolder().change(paths.season, "crop: corn", "crop: soybean"))).toMatch(/^next crop corn 2026; \d+\.\d acres; next sampling /);
  expect(about(farmFolder().change(paths.field, "season: 2026", "season: 2025").remove(paths.zones))).toMatch(/^no crop planned; next sampling /);
});
