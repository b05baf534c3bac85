import { join } from "node:path";
import { expect, it } from "vitest";
import { installation } from "../../../scripts/options.ts";
import { readFarm } from "../../../src/records/reading/readFarm.ts";
import { fieldMap } from "../../../src/views/maps/fieldMap.ts";
import { latestAdvice } from "../../../src/views/advice/sample.ts";

const content = join(installation, "content");
const demo = readFarm({ content, library: content }).farm!;

const legendOf = (id: string): string[] => {
  const field = demo.fields.find((f) => f.id === id)!;
  const advised = new Map(field.zones.flatMap((zone) => {
    const advice = latestAdvice(demo, field, zone);
    return advice ? [[zone.id, advice] as const] : [];
  }));
  return fieldMap(demo, field, "pH", advised)!.model.legend.map((c) => c.label);
};

// Both lie in range; their ranges differ, for the acid subsoil of West lea asks lime earlier (the table of target pH in Tri-State 2020's guideline).
it("names the zones where one shade stands for classes of different limits", () => expect(legendOf("saltings")).toEqual(["in range, 6.5 to 6.8 (West lea); in range, 6.2 to 6.8 (East lea)"]));
it("says a zone's value and class to whoever cannot see its shade", () => {
  const field = demo.fields.find((f) => f.id === "causeway")!;
  const advised = new Map(field.zones.map((zone) => [zone.id, latestAdvice(demo, field, zone)!]));
  expect(fieldMap(demo, field, "pH", advised)!.model.zones.map((z) => z.title)).toEqual(["Knoll: 6.3, in range", "Apron: 6.5, in range", "Outwash: 5.7, lime due"]);
});
it("says a class by its name alone where the guideline prints neither end of it", () => {
  const field = demo.fields.find((f) => f.id === "causeway")!;
  const advised = new Map(field.zones.map((zone) => [zone.id, latestAdvice(demo, field, zone)!]));
  const open = new Map([...advised].map(([id, zone]) => {
    const ratings = zone.advice.ratings.map((r) => ({ ...r, bands: r.bands.map(({ name, position }) => ({ name, position })) }));
    return [id, { ...zone, advice: { ...zone.advice, ratings } }] as const;
  }));
  expect(fieldMap(demo, field, "pH", open)!.model.legend.map((c) => c.label)).toEqual(["lime due", "in range"]);
});
it("names none where they are alike", () => expect(legendOf("causeway")).toEqual(["lime due, below 6.2", "in range, 6.2 to 6.8"]));
