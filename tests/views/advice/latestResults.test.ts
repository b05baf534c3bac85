import { expect, it } from "vitest";
import { latestRows } from "../../../src/views/advice/latestResults.ts";
import { farmFolder } from "../../support/farmFolder.ts";
import { paths } from "../../support/tinyFarm.ts";

it("the newest results are those of each zone and analyte, as corrected, and an older one where the newest sampling has none", () => {
  const folder = farmFolder().change(paths.sampling, "      pH: 6.5\n", "      P: 21\n");
  const rows = latestRows(folder.read().farm!).map((r) => [r.zone.id, r.measurement.analyte, r.measurement.value, r.sampling.date]);
  expect(rows.toSorted((a, b) => a.join().localeCompare(b.join()))).toEqual([
    ["east", "K", 138, "2025-10-18"],
    ["east", "P", 21, "2025-10-18"],
    ["east", "pH", 6.4, "2024-10-14"],
    ["west", "bufferPh", 6.7, "2025-10-18"],
    ["west", "K", 104, "2025-10-18"],
    ["west", "P", 3, "2025-10-18"],
    ["west", "pH", 6.2, "2025-10-18"],
  ]);
});
