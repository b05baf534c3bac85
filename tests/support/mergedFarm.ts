import type { FarmFolder } from "./farmFolder.ts";
import { farmFolder } from "./farmFolder.ts";
import { paths } from "./tinyFarm.ts";

const sampling = (date: string, bags: Readonly<Record<string, readonly [pH: number, K: number]>>): string => `date: ${date}
purpose: routine
lab: north-lab
package: basic
depth: { from: 0, to: 8, unit: in }
composites:
${Object.entries(bags).map(([zone, [pH, K]]) => `  - { label: "${zone} ${date}", zone: ${zone}, cores: 20, results: { pH: ${pH}, bufferPh: 6.8, K: ${K} } }`).join("\n")}
`;

const ring = (west: number, east: number): string => `[[[${west}, 44], [${east}, 44], [${east}, 44.002], [${west}, 44.002], [${west}, 44]]]`;
const drawn = (zone: string, west: number, east: number): string => `{ "type": "Feature", "properties": { "zone": "${zone}" }, "geometry": { "type": "Polygon", "coordinates": ${ring(west, east)} } }`;

/** Two zones, West end and East end, until they are merged into Long piece on 1 October 2023; and a strip that was given up in 2022. */
export const mergedField = `name: North Field
soil: { texture: siltLoam, cec: 14 }
zones:
  west: { letter: A, name: West end, until: 2023-10-01 }
  east: { letter: B, name: East end, until: 2023-10-01 }
  strip: { letter: C, name: Strip, until: 2022-03-01 }
  long: { letter: D, name: Long piece, since: 2023-10-01, formerly: [west, east] }
plan:
  - { season: 2026, crop: corn, yieldGoal: { value: 180, unit: bu/ac } }
`;

/** That farm on the eve of the change: it stands in field.yaml already, and nothing was recorded since. */
export const soonMergedFarm = (): FarmFolder => {
  const farm = mergedFarm().write(paths.field, mergedField.replaceAll("2023-10-01", "2025-10-01"));
  for (const gone of ["samplings/2023-10-14.yaml", "samplings/2025-10-18.yaml", "seasons/2024.yaml"]) farm.remove(`fields/north/${gone}`);
  return farm;
};

/** The tiny farm with that field, and seasons that name no zone: they are of the zones of their time. */
export const mergedFarm = (): FarmFolder =>
  farmFolder()
    .remove("fields")
    .write(paths.field, mergedField)
    .write(paths.zones, `{ "type": "FeatureCollection", "features": [\n${[drawn("west", -37.004, -37.002), drawn("east", -37.002, -37), drawn("strip", -37.0045, -37.004), drawn("long", -37.004, -37)].join(",\n")}\n] }\n`)
    .write("fields/north/samplings/2019-10-14.yaml", sampling("2019-10-14", { west: [6.1, 96], east: [6.4, 131], strip: [5.9, 80] }))
    .write("fields/north/samplings/2021-10-14.yaml", sampling("2021-10-14", { west: [6.2, 98], east: [6.3, 128] }))
    .write("fields/north/samplings/2023-10-14.yaml", sampling("2023-10-14", { long: [6.2, 112] }))
    .write("fields/north/samplings/2025-10-18.yaml", sampling("2025-10-18", { long: [6.1, 104] }))
    .write("fields/north/seasons/2023.yaml", "season: 2023\ncrops:\n  - { crop: corn, yield: { value: 160, unit: bu/ac } }\napplications:\n  - { date: 2023-04-12, product: potash, rate: { value: 100, unit: lb/ac } }\n  - { date: 2023-11-02, product: potash, rate: { value: 50, unit: lb/ac } }\n  - { date: 2023-04-20, product: ground-limestone, zones: [west], rate: { value: 1.5, unit: ton/ac } }\n")
    .write("fields/north/seasons/2024.yaml", "season: 2024\ncrops:\n  - { crop: corn, yield: { value: 170, unit: bu/ac } }\n");
