import { expect, it } from "vitest";
import { seriesName, seriesNumbers } from "../../../src/views/results/series.ts";
import { farmFolder } from "../../support/farmFolder.ts";
import { tinyFarm } from "../../support/tinyFarm.ts";

// Each zone counts for itself: what is the second way of one may be the only way of another.
it("numbers the series of each zone and test by itself, and works them out once a field", () => {
  const earlier = "fields/north/samplings/2024-10-14.yaml";
  const folder = farmFolder().write(earlier, tinyFarm[earlier]!.replace("composites:", "measured: { K: { method: ammoniumAcetate, unit: ppm } }\ncomposites:").replace("      K: 131\n", ""));
  const [field] = folder.read().farm!.fields;
  const names = field!.samplings.flatMap((s) => s.composites.flatMap((c) => c.measurements.filter((m) => ["pH", "K"].includes(m.analyte)).map((m) => `${s.date} ${seriesName(field!, c.zone, m)}`)));
  expect(names).toEqual(["2024-10-14 north/west/pH/1", "2024-10-14 north/west/K/1", "2024-10-14 north/east/pH/1", "2025-10-18 north/west/pH/1", "2025-10-18 north/west/K/2", "2025-10-18 north/east/pH/1", "2025-10-18 north/east/K/1"]);
  expect(seriesNumbers(field!)).toBe(seriesNumbers(field!));
});
