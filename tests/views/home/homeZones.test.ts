import { expect, it } from "vitest";
import { zoneTable } from "../../../src/views/home/homeZones.ts";
import { farmFolder } from "../../support/farmFolder.ts";
import { paths } from "../../support/tinyFarm.ts";

const about = (farm = farmFolder()): string => zoneTable(farm.read().farm!).fields[0]!.about;

it("says of a field what is known of it, and begins with no semicolon where little is", () => {
  expect(about()).toMatch(/^corn; \d+\.\d acres; next sampling /);
  expect(about(farmFolder().remove(paths.zones).remove(paths.season))).toMatch(/^next sampling /);
});
