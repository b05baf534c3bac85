import { zoneLetter } from "../../src/records/zones/zoneNames.ts";
import { corrupt } from "./corrupt.ts";
import { farmFile, labFiles, labs } from "./generatedFarmFiles.ts";
import { Random } from "./random.ts";

export interface FarmPlan {
  readonly seed: number;
  readonly fields: number;
  /** Sampling events in each field; one a year, the last in 2025. */
  readonly samplings: number;
  /** Zones in each field; absent: three. */
  readonly zones?: number;
  /** Slips of the finger to make somewhere in the files; absent: none, and the farm is valid. */
  readonly mistakes?: number;
}

const lastYear = 2025;
const rotation = [
  { crop: "corn", goal: 190 },
  { crop: "soybean", goal: 58 },
  { crop: "wheat", goal: 80 },
] as const;
const soils = [
  { name: "Brinewater silt loam", texture: "siltLoam", cec: 14 },
  { name: "Foghorn loam", texture: "loam", cec: 10 },
  { name: "Driftline sandy loam", texture: "sandyLoam", cec: 5 },
] as const;

/**
 * A made-up farm as path to text, valid unless mistakes are asked for. The same plan gives the same farm, byte for byte.
 * Its fields lie in open ocean, its laboratories do not exist; its guidelines are installed ones.
 */
export const generateFarm = (plan: FarmPlan): Map<string, string> => {
  const files = new Map<string, string>([["farm.yaml", farmFile], ...labFiles]);
  for (let i = 0; i < plan.fields; i++) addField(files, plan, i);
  return plan.mistakes ? corrupt(files, plan.seed, plan.mistakes) : files;
};

/** What a laboratory would find in a zone if it never erred; it drifts from year to year. */
interface Ground {
  readonly id: string;
  readonly levels: { pH: number; P: number; K: number; Ca: number; Mg: number; S: number; Zn: number; organicMatter: number; cec: number };
  readonly drift: { pH: number; P: number; K: number };
}

const addField = (files: Map<string, string>, plan: FarmPlan, index: number): void => {
  // A generator of its own for each field: a farm of three fields begins like one of two.
  const random = new Random(plan.seed * 65_537 + index);
  const base = `fields/field-${String(index + 1).padStart(4, "0")}`;
  const zones = Array.from({ length: plan.zones ?? 3 }, (_, i): Ground => groundOf(`zone-${i + 1}`, random));
  files.set(`${base}/field.yaml`, fieldFile(index, zones, random));
  files.set(`${base}/zones.geojson`, zonesFile(index, zones, random));
  for (let i = 0; i < plan.samplings; i++) {
    const year = lastYear - plan.samplings + 1 + i;
    const spring = i > 0 && random.chance(0.2);
    const date = spring ? `${year}-04-${random.below(20) + 10}` : `${year}-10-${random.below(20) + 10}`;
    files.set(`${base}/samplings/${date}.yaml`, samplingFile(date, spring, i, index, zones, random));
    files.set(`${base}/seasons/${year}.yaml`, seasonFile(year, index, zones, random));
    for (const { levels, drift } of zones) for (const key of ["pH", "P", "K"] as const) levels[key] += drift[key];
  }
};

const groundOf = (id: string, random: Random): Ground => ({
  id,
  levels: {
    pH: random.between(5.6, 6.9),
    P: random.between(12, 60),
    K: random.between(80, 190),
    Ca: random.between(900, 2400),
    Mg: random.between(90, 380),
    S: random.between(6, 18),
    Zn: random.between(0.6, 4),
    organicMatter: random.between(1.8, 4.6),
    cec: random.between(6, 18),
  },
  drift: { pH: random.between(-0.04, 0.03), P: random.between(-0.6, 0.8), K: random.between(-2, 2.5) },
});

const fieldFile = (index: number, zones: readonly Ground[], random: Random): string => {
  const soil = random.pick(soils);
  const plan = [1, 2].map((ahead) => ({ season: lastYear + ahead, ...rotation[(index + ahead) % rotation.length]! }));
  return [
    `name: Made-up Field ${index + 1}`,
    `soil: { name: ${soil.name}, texture: ${soil.texture}, cec: ${soil.cec} }`,
    "zones:",
    ...zones.map((z, i) => `  ${z.id}: { letter: ${zoneLetter(i)}, name: Strip ${i + 1} from the west }`),
    `targetPh: { value: 6.5, reason: the rotation includes a legume }`,
    `rotation: [${rotation.map(({ crop }) => crop).join(", ")}]`,
    "plan:",
    ...plan.flatMap(({ season, crop, goal }) => [`  - season: ${season}`, `    crop: ${crop}`, `    yieldGoal: { value: ${goal}, unit: bu/ac }`]),
    "",
  ].join("\n");
};

/** Strips side by side whose corners are a little off the straight line; neighbors share their corners, so none overlap. */
const zonesFile = (index: number, zones: readonly Ground[], random: Random): string => {
  const west = -37 + (index % 20) * 0.01;
  const south = 44 + Math.floor(index / 20) * 0.006;
  const stray = Math.min(0.0001, 0.002 / zones.length);
  const corner = (longitude: number, latitude: number): string =>
    `[${(longitude + random.between(-stray, stray)).toFixed(6)}, ${(latitude + random.between(-stray, stray)).toFixed(6)}]`;
  const edges = Array.from({ length: zones.length + 1 }, (_, i) => {
    const longitude = west + (0.008 * i) / zones.length;
    return { south: corner(longitude, south), north: corner(longitude, south + 0.004) };
  });
  const features = zones.map((zone, i) => {
    const [a, b] = [edges[i]!, edges[i + 1]!];
    const ring = [a.south, b.south, b.north, a.north, a.south].join(", ");
    return `    { "type": "Feature", "properties": { "zone": "${zone.id}" }, "geometry": { "type": "Polygon", "coordinates": [[${ring}]] } }`;
  });
  return `{\n  "type": "FeatureCollection",\n  "features": [\n${features.join(",\n")}\n  ]\n}\n`;
};

const samplingFile = (date: string, spring: boolean, event: number, field: number, zones: readonly Ground[], random: Random): string => {
  const lab = labs[event < 2 && field % 5 === 0 ? 1 : 0];
  const bags = zones.flatMap((zone, i) => (random.chance(0.05) ? [[zone, i], [zone, i + zones.length]] : [[zone, i]]) as [Ground, number][]);
  const label = (number: number): string => `"${date.slice(2, 4)}${String(field).padStart(4, "0")}-${number + 1}"`;
  const fixed = !spring && random.chance(0.05);
  const composites = bags.flatMap(([zone, number], i) => {
    const results = spring ? [`      pH: ${off(zone.levels.pH, 0.1, 1, random)}`] : resultLines(zone, random);
    if (fixed && i === 0) results[3] = "      K: 1040";
    return [`  - label: ${label(number)}`, `    zone: ${zone.id}`, `    cores: ${15 + random.below(10)}`, "    results:", ...results];
  });
  return [
    `date: ${date}`,
    `purpose: ${spring ? "phCheck" : "routine"}`,
    `lab: ${lab}`,
    `package: ${spring ? "ph-only" : "complete"}`,
    "depth: { from: 0, to: 8, unit: in }",
    "handling:",
    "  tool: push probe",
    `  moisture: ${random.pick(["dry", "moist"])}`,
    "  keeping: air-dried",
    `  reportedOn: ${date.slice(0, 8)}${Number(date.slice(8)) + 1}`,
    "composites:",
    ...composites,
    ...(fixed ? ["corrections:", `  - { composite: ${label(bags[0]![1])}, analyte: K, was: 1040, now: 104, reason: a zero too many on the sheet, date: ${date} }`] : []),
    "",
  ].join("\n");
};

/** A level as a laboratory reports it: with its error, rounded. */
const off = (level: number, error: number, decimals: number, random: Random): string => Math.max(0, level + random.between(-error, error)).toFixed(decimals);

const resultLines = ({ levels }: Ground, random: Random): string[] => {
  const sulfur = off(levels.S, 3, 0, random);
  return [
    `      pH: ${off(levels.pH, 0.1, 1, random)}`,
    `      bufferPh: ${off(Math.min(6.9, levels.pH * 0.4 + 4.1), 0.05, 2, random)}`,
    `      P: ${off(levels.P, 4, 0, random)}`,
    `      K: ${off(levels.K, 12, 0, random)}`,
    `      Ca: ${off(levels.Ca, 80, 0, random)}`,
    `      Mg: ${off(levels.Mg, 15, 0, random)}`,
    `      S: ${Number(sulfur) < 5 ? '{ value: 5, qualifier: "<" }' : sulfur}`,
    `      Zn: ${off(levels.Zn, 0.2, 1, random)}`,
    `      organicMatter: ${off(levels.organicMatter, 0.2, 1, random)}`,
    `      cec: ${off(levels.cec, 0.8, 1, random)}`,
  ];
};

const seasonFile = (year: number, field: number, zones: readonly Ground[], random: Random): string => {
  const { crop, goal } = rotation[(field + year) % rotation.length]!;
  const spread = [
    { product: "potash", rate: 60 + 10 * random.below(10), unit: "lb/ac", share: 0.6 },
    { product: "triple-phosphate", rate: 40 + 10 * random.below(8), unit: "lb/ac", share: 0.4 },
    { product: "ground-limestone", rate: 1 + random.below(3), unit: "ton/ac", share: 0.15 },
  ].filter((s) => random.chance(s.share));
  return [
    `season: ${year}`,
    "crops:",
    `  - crop: ${crop}`,
    `    yield: { value: ${off(goal, goal * 0.2, 0, random)}, unit: bu/ac }`,
    ...(spread.length > 0 ? ["applications:"] : []),
    ...spread.flatMap((s) => [
      `  - date: ${year}-03-${10 + random.below(20)}`,
      `    product: ${s.product}`,
      `    zones: [${zones.filter((z, i) => i === 0 || z.levels.K < 150).map((z) => z.id).join(", ")}]`,
      `    rate: { value: ${s.rate}, unit: ${s.unit} }`,
    ]),
    "",
  ].join("\n");
};
