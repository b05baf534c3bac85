import { join } from "node:path";
import { expect, it } from "vitest";
import { installation } from "../../../scripts/options.ts";
import { farmFolder } from "../../support/farmFolder.ts";
import { paths, tinyFarm } from "../../support/tinyFarm.ts";

const library = join(installation, "content");
/** The tiny farm by Tri-State 2020, with crops planned and grown, and more in field.yaml. */
const said = (plan: string, { grown = "soybean", more = "", pack = "us-tristate-974-2020" } = {}): string[] => {
  const text = tinyFarm[paths.field]!;
  const field = `${text.slice(0, text.indexOf("plan:"))}${more}plan: [${plan}]\n`;
  return farmFolder()
    .change("farm.yaml", "guidelines: [small-guide]", `guidelines: [${pack}]`)
    .write(paths.field, field)
    .change(paths.season, /crop: \w+/.exec(tinyFarm[paths.season]!)![0], `crop: ${grown}`)
    .lines({ library })
    .filter((line) => line.includes("grown in turn"));
};
const plan = (crop: string, season = 2026): string => `{ season: ${season}, crop: ${crop} }`;

it("tells, once a field, of a crop in turn by which the guideline sets levels, and how to state it", () => {
  expect(said([plan("corn"), plan("wheat", 2027), plan("alfalfa", 2028)].join(", "))).toEqual([
    "fields/north/field.yaml:6:38: crop: warning: wheat is grown in turn with corn and soybean, and Tri-State 2020 sets levels by that; state it in field.yaml: rotation: [corn, wheat, alfalfa, soybean]",
  ]);
  expect(said(plan("corn"), { grown: "wheat" })).toEqual([expect.stringMatching(/^fields\/north\/seasons\/2025\.yaml:\d+:\d+: crop: warning: wheat is grown in turn with corn, and/)]);
});

it("says nothing where the rotation is stated, where no such crops follow each other, or the guideline does not ask", () => {
  expect(said([plan("corn"), plan("wheat", 2027)].join(", "), { more: "rotation: [corn, soybean]\n" })).toEqual([]);
  expect(said(plan("corn"))).toEqual([]);
  expect(said(plan("wheat"), { grown: "wheat" })).toEqual([]);
  expect(said([plan("corn"), plan("wheat", 2027)].join(", "), { pack: "us-tristate-e2567-1995" })).toEqual([]);
});

it("says nothing where no laboratory measures in a way that the levels are for, and the levels are read nowhere", () => {
  const inUnit = (unit: string) =>
    farmFolder()
      .change("farm.yaml", "guidelines: [small-guide]", "guidelines: [us-tristate-974-2020]")
      .change(paths.lab, "P: { method: mehlich3, finish: icp, unit: ppm }", `P: { method: mehlich3, finish: icp, unit: ${unit} }`)
      .change(paths.season, /crop: \w+/.exec(tinyFarm[paths.season]!)![0], "crop: wheat")
      .lines({ library })
      .filter((line) => line.includes("grown in turn"));
  expect(inUnit("ppm")).toHaveLength(1);
  expect(inUnit("index")).toEqual([]);
});

it("a rotation names each crop once, and crops there are", () => {
  expect(farmFolder().change(paths.field, "plan:", "rotation: [corn, corn]\nplan:").lines()).toEqual([expect.stringMatching(/: rotation: names a crop twice$/)]);
  expect(farmFolder().change(paths.field, "plan:", "rotation: [corn, wheet]\nplan:").lines()).toEqual([expect.stringMatching(/: rotation\[2\]: the text "wheet" is not known; did you mean wheat\?$/)]);
});
