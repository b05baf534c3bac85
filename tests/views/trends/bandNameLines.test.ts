import { expect, it } from "vitest";
import { readFarm } from "../../../src/records/reading/readFarm.ts";
import { bandNameLines } from "../../../src/views/trends/bandNameLines.ts";
import { trendModel } from "../../../src/views/trends/trend.ts";
import { drawPanel } from "../../../src/views/trends/trendDrawing.ts";
import { latestAdvice } from "../../../src/views/advice/sample.ts";
import { library } from "../../support/gardenFarm.ts";

const demo = readFarm({ content: library, library }).farm!;

it.each([
  ["optimal", ["optimal"]],
  ["slightly acid", ["slightly", "acid"]],
  ["above range", ["above range"]],
  ["very strongly alkaline", ["very", "strongly", "alkaline"]],
])("%s is written beside a plot as %j", (name, lines) => expect(bandNameLines(name)).toEqual(lines));

it("classes that only describe a soil do not press its results flat: the axis ends near them, and only classes there are named", () => {
  const field = demo.fields.find((f) => f.id === "ropewalk")!;
  const [zone] = field.zones;
  const model = trendModel(demo, field, "pH", new Map([[zone!.id, latestAdvice(demo, field, zone!)!]]))!;
  // The results are 6.4, 6.3 and 6.2, the noise of one sample 0.5 or so; the classes reach from 3.5 to 9.
  expect(model.y.from).toBeGreaterThanOrEqual(5);
  expect(model.y.to).toBeLessThanOrEqual(7.5);
  const names = drawPanel(model, model.panels[0]!).bandNames.map((b) => b.text);
  expect(names.join(" ")).toContain("slightly acid");
  expect(names.join(" ")).not.toContain("alkaline");
});
