import { join } from "node:path";
import { expect, it } from "vitest";
import { installation } from "../../../scripts/options.ts";
import { readFarm } from "../../../src/records/reading/readFarm.ts";
import { fertilityNow } from "../../../src/views/summary/fertilityNow.ts";
import { zoneHistory } from "../../../src/views/trends/history.ts";
import { limings, sinceLime } from "../../../src/views/trends/sinceLime.ts";
import { trendModel } from "../../../src/views/trends/trend.ts";
import { judgedSeries } from "../../../src/views/trends/trendSeries.ts";

const library = join(installation, "content");
const demo = readFarm({ content: library, library }).farm!;
const field = (id: string) => demo.fields.find((f) => f.id === id)!;
const says = (id: string, analyte: "pH" | "K") => trendModel(demo, field(id), analyte, new Map())!.panels.map((p) => p.verdict.says);

// Causeway was limed on 12 April 2019. Outwash: 5.7 in 2018, 6.3 in 2020 and 5.7 in 2025; six pairs of duplicates know pH to 0.26, and half of the tenth it is printed in is added.
it("tells how soil pH went since lime was spread in between: a fall, a rise and a fall are no direction", () => {
  const [knoll, , outwash] = says("causeway", "pH");
  expect(outwash).toMatch(/ Limed in April 2019; since then soil pH went from 6\.3 in October 2020 to 5\.7 in October 2025, more than noise \(0\.31\)\.$/);
  expect(knoll).toMatch(/ Limed in April 2019; since then soil pH went from 6\.4 in October 2020 to 6\.3 in October 2025, within noise \(0\.31\)\.$/);
});

it("says nothing of lime where none was spread there, or of another test", () => {
  const [west, east] = says("saltings", "pH");
  expect(west).toContain("Limed in August 2019;");
  expect(east).not.toContain("limed");
  expect(says("causeway", "K").join(" ")).not.toContain("limed");
});

it("counts no lime before the first of the results or after the last, and compares nothing with itself", () => {
  const causeway = field("causeway");
  const history = judgedSeries(zoneHistory(demo, causeway, causeway.zones[2]!, "pH"), "pH")!;
  for (const date of ["2014-10-20", "2025-10-18", "2025-11-01"]) expect(sinceLime(history, [{ date }])).toBe("");
  expect(sinceLime(history, [{ date: "2023-10-17" }])).toBe("Limed in October 2023, and sampled once since.");
  // A zone that is sampled and limed on one day is sampled first.
  expect(sinceLime(history, [{ date: "2014-10-21" }])).toContain("Limed in October 2014");
  // The last of several is the one that counts.
  expect(sinceLime(history, [{ date: "2016-11-01" }, { date: "2019-04-12" }])).toContain("Limed in April 2019");
});

it("takes no result for a number that is only known to lie beyond one", () => {
  const causeway = field("causeway");
  const history = judgedSeries(zoneHistory(demo, causeway, causeway.zones[2]!, "pH"), "pH")!;
  const [then, now] = history.measurements.slice(-2);
  const below = { qualifier: "<" } as const;
  for (const [first, last] of [[{ ...then!, ...below }, now!], [then!, { ...now!, ...below }]] as const)
    expect(sinceLime({ ...history, measurements: [history.measurements[0]!, first, last] }, [{ date: "2019-04-12" }])).toMatch(/since then soil pH went from (< )?5\.85 in October 2023 to (< )?5\.7 in October 2025\.$/);
});

it("lists what was spread of lime on a zone, oldest first, in whatever order the seasons are", () => {
  const causeway = field("causeway");
  const twice = { ...causeway, seasons: [{ ...causeway.seasons[0]!, applications: causeway.seasons.flatMap((s) => s.applications.filter((a) => a.product.lime)).flatMap((a) => [{ ...a, date: "2023-04-01" }, a]) }] };
  expect(limings(twice, causeway.zones[0]!).map((a) => a.date)).toEqual(["2019-04-12", "2023-04-01"]);
});

it("says so on the sheet for a landlord or lender, who sees no chart", () => {
  const directions = fertilityNow(demo, field("causeway")).map((z) => z.rows.find((r) => r.analyte === "pH")!.direction);
  expect(new Set(directions)).toEqual(new Set(["no detectable trend in six samplings, limed 2019"]));
});
