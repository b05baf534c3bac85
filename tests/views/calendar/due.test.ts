import { expect, it } from "vitest";
import { readFarm } from "../../../src/records/reading/readFarm.ts";
import type { Field } from "../../../src/records/model.ts";
import { dueOf } from "../../../src/views/calendar/due.ts";
import { library } from "../../support/gardenFarm.ts";

const demo = readFarm({ content: library, library }).farm!;
const netloft = demo.fields.find((f) => f.id === "netloft")!;
const due = (today: string, field: Field = netloft) => dueOf({ ...demo, today }, field);

// Sampled on 12 October 2021; the first of its guidelines that sets an interval says four years at most.
it("is overdue from the day after the day it is due", () => {
  expect(due("2025-10-12")).toEqual({ last: "2021-10-12", next: "2025-10-12", overdue: false, never: false, redrawn: false, words: "October 2025" });
  expect(due("2025-10-13")).toMatchObject({ overdue: true, words: "October 2025, overdue" });
});

it("goes by the zone that has waited longest", () => {
  const [zone] = netloft.zones;
  const full = netloft.samplings.find((s) => s.date === "2021-10-12")!;
  const both = { ...full, composites: [...full.composites, { ...full.composites[0]!, zone: "other" }] };
  const again = { ...full, id: "2023-10-12", date: "2023-10-12", composites: full.composites.filter((c) => c.zone === zone!.id) };
  const field = { ...netloft, zones: [...netloft.zones, { ...zone!, id: "other" }], samplings: [both, again] };
  expect(due("2025-10-18", field)).toMatchObject({ last: "2021-10-12", overdue: true });
  expect(dueOf({ ...demo, today: "2025-10-18" }, field, zone)).toMatchObject({ last: "2023-10-12", overdue: false });
});
