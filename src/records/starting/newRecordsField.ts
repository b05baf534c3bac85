import { tillageIds } from "../../interpretation/rules/samplingWhen.ts";
import type { UnitChoice } from "../../interpretation/unitChoices.ts";
import { cropIds, soilClassIds, strawIds, textureIds } from "../../interpretation/vocabulary.ts";
import { zoneIds, zoneLetter } from "../zones/zoneNames.ts";
import type { NewFile } from "./newRecordsText.ts";
import { scalar } from "./newRecordsText.ts";

/** Examples in the units a person thinks in; the numbers are there to be replaced. */
const examples = {
  us: {
    plan: "crop: corn, yieldGoal: { value: 180, unit: bu/ac }",
    rotation: "corn, soybean, wheat",
    depth: "{ value: 8, unit: in }",
    away: "{ value: 60, unit: ft }",
  },
  metric: {
    plan: "crop: winterWheat, straw: incorporated, yieldGoal: { value: 8, unit: t/ha }",
    rotation: "winterWheat, winterBarley, winterOilseedRape",
    depth: "{ value: 20, unit: cm }",
    away: "{ value: 20, unit: m }",
  },
  garden: { plan: "crop: tomato", rotation: "tomato, snapBean", depth: "{ value: 8, unit: in }", away: "{ value: 10, unit: ft }" },
} as const satisfies Record<UnitChoice, unknown>;

export interface NewField {
  readonly id: string;
  readonly name: string;
  /** Names of its zones, in order; they get the letters from A on. At most `mostZones`. */
  readonly zones: readonly string[];
  readonly units: UnitChoice;
}

/** A field of so many zones, with every other key there to be switched on. */
export const newField = ({ id, name, zones, units }: NewField): NewFile => ({
  path: `fields/${id}/field.yaml`,
  schema: "field",
  text: `# One field. Its folder's name, ${id}, is its id: it stands in addresses and labels, so keep it when the name changes.
# A line that begins with # and a key is optional: take the # away and put your own value in place of the example.
name: ${scalar(name)}
# Who holds the ground. kind: owned, rented or managed; from: of whom; since: the day, YYYY-MM-DD.
#tenure: { kind: owned, since: 2020-03-01 }
# What is known of the soil everywhere in the field; a zone may say otherwise.
# texture: ${wrapped(textureIds)}.
# cec in meq/100 g and organicMatter in percent stand in where the laboratory does not report them.
${units === "metric" ? `# category, where a guide goes by it: veryLight, light, medium, heavy (Poland); lightSand, shallow, medium, deepClayey, deepSilty (Britain).\n` : `# soilClass, where a guideline goes by it: ${wrapped(soilClassIds)}, as the laboratory classes the soil (North Carolina).\n`}#soil: { name: loam over gravel, texture: loam, cec: 14, organicMatter: 3.1, subsoilPh: 6.2 }
# A zone is one soil that is sampled, limed and fertilized by itself. letter: one capital letter or two (AA, AB ...), for maps and bags.
# Its polygon comes into zones.geojson by \`npm run zones\`.
# Zones that are merged or split end and stay here for their history: until: the day. The new ones get since: that day, and formerly: [their ids].
# \`npm run redraw\` writes all of it.
zones:
${zones.map((zone, i) => zoneText(zone, i, units)).join("\n")}
# When the boundaries were walked, and by which rule they were drawn.
#boundary: { walked: 2020-04-08, note: along the change of color in plowed ground }
# Lime up to this pH, where the guideline says when to lime and not how far. reason is printed where it is used.
#targetPh: { value: 6.5, reason: "why this pH, in a few words" }
# How deep lime is worked in; without it, the depth that was sampled.
#limeDepth: ${examples[units].depth}
# ${tillageIds.join(", ")}
tillage: tilled
# What cores stay away from: where, longitude first, one position for a spot and more for a line; and how far. kind: gravelRoad
# or obstacle takes the distance that a guideline prints.
#avoid:
#  - { what: the gravel road, kind: gravelRoad, where: [[-93.101, 42.001], [-93.101, 42.009]] }
#  - { what: the old lime pile, distance: ${examples[units].away}, where: [[-93.104, 42.005]] }
# The crops grown in turn; some guidelines set levels by them.
#rotation: [${examples[units].rotation}]
# What will be grown, by season; rates are worked out for it. zones: [...] limits a crop to some zones.
# crop: ${wrapped(cropIds)}.
# straw, where a rate goes by it: ${strawIds.join(" or ")}. starter: { product, rate, placement, rowSpacing }, what the planter puts down, withSeed or in a band.
#plan:
#  - { season: 2030, ${examples[units].plan} }
# guidelines: [...] and units: us, metric or garden would stand for this field instead of the farm's. note: anything else worth knowing.
#note: A water line crosses near the lane.
`,
});

const zoneText = (name: string, i: number, units: UnitChoice): string => `  ${zoneIds([name], i)[0]!}:
    letter: ${zoneLetter(i)}
    name: ${scalar(name)}${i === 0 ? `\n    #soil: { texture: ${units === "garden" ? "sandyLoam" : "siltLoam"} }` : ""}`;

/** Long lists go on in further lines of the comment, which is indented so far. */
export const wrapped = (words: readonly string[], indent = ""): string => {
  const width = 110 - indent.length;
  const lines: string[] = [];
  let line = "";
  for (const [i, word] of words.entries()) {
    const piece = i < words.length - 1 ? `${word}, ` : word;
    if (line.length + piece.length > width) {
      lines.push(line);
      line = "";
    }
    line += piece;
  }
  lines.push(line);
  return lines.map((each) => each.trimEnd()).join(`\n${indent}# `);
};
