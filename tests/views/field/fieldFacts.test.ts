import { expect, it } from "vitest";
import { forAudience } from "../../../src/records/audience/forAudience.ts";
import type { Farm } from "../../../src/records/model.ts";
import { boundaryWords } from "../../../src/views/field/fieldFacts.ts";
import { farmFolder } from "../../support/farmFolder.ts";
import { paths } from "../../support/tinyFarm.ts";

const farmWith = (boundary: string): Farm => farmFolder().change(paths.field, "plan:", `${boundary}plan:`).read().farm!;
const boundaryOf = (farm: Farm): string => boundaryWords(farm.fields[0]!);
const walked = "boundary: { walked: 2020-04-08, note: along the change of color in plowed ground }\n";

it("tells when the boundary was walked and by what it goes, where that is on record", () => {
  expect(boundaryOf(farmWith(walked))).toBe("Boundaries walked 8 April 2020; areas are measured from them. Along the change of color in plowed ground.");
  expect(boundaryOf(farmWith("boundary: { walked: 2020-04-08 }\n"))).toBe("Boundaries walked 8 April 2020; areas are measured from them.");
  expect(boundaryOf(farmWith("boundary: { note: The shore side is the line the spring tides reach. }\n"))).toBe("The shore side is the line the spring tides reach.");
  expect(boundaryOf(farmWith(""))).toBe("");
});

it("does not tell of zones that were drawn later as walked on that day", () => {
  const farm = farmWith(walked);
  const [field] = farm.fields;
  const since = (day: string) => boundaryWords({ ...field!, zones: field!.zones.map((zone, i) => (i === 0 ? { ...zone, since: day } : zone)) });
  expect(since("2024-01-05")).toBe("Boundaries walked 8 April 2020, zones drawn anew since; areas are measured from the boundaries of today. Along the change of color in plowed ground.");
  expect(since("2020-04-08")).toBe(boundaryOf(farm));
});

it("keeps the note from a reader who is not shown notes", () => {
  const shown = forAudience(farmWith(walked), { name: "A reader", leaveOut: ["notes"] });
  expect(boundaryOf(shown)).toBe("Boundaries walked 8 April 2020; areas are measured from them.");
});
