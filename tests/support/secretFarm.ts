import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { installation } from "../../scripts/options.ts";
import type { Farm } from "../../src/records/model.ts";
import { packPrint } from "../../src/records/sealing/packPrint.ts";
import { formatProblems } from "../../src/records/problem.ts";
import { readFarm } from "../../src/records/reading/readFarm.ts";
import { recommendationText } from "../../src/records/sealing/recommendationText.ts";
import { sealRecommendation } from "../../src/records/sealing/sealRecommendation.ts";
import { freeze } from "../../src/views/issued/freeze.ts";
import { FarmFolder } from "./farmFolder.ts";
import { pierSecrets, secretPier } from "./secretPier.ts";

const library = join(installation, "content");

/**
 * A farm whose every private value is a word or a number that occurs nowhere else: a search of all bytes for it finds a leak and nothing
 * but a leak. Words begin with zq. Invented, as every farm here.
 */
export const secretFarm: Readonly<Record<string, string>> = {
  "farm.yaml": `name: Quillback Farm
about: zqabout is what the owner says of it.
address: Zqaddress Lane 7
units: us
currency: USD
guidelines: [us-tristate-974-2020, us-oregon-lime-2025, us-iowa-nitrate, soil-chemistry]
publish: { location: true, index: true, reports: true }
products:
  limestone:
    kind: lime
    name: ground limestone
    price: { value: 791.17, per: ton }
    stated: { limeScore: 92 }
    note: zqlimenote
  potash:
    kind: fertilizer
    name: muriate of potash
    price: { value: 682.31, per: ton }
    analysis: { N: 0, P2O5: 0, K2O: 60 }
  zqurea:
    kind: fertilizer
    name: zqurea pellets
    price: { value: 573.23, per: ton }
    analysis: { N: 43.71, P2O5: 0, K2O: 0 }
  zqcompound:
    kind: fertilizer
    name: zqcompound grains
    analysis: { N: 16.43, P2O5: 44.91, K2O: 0 }
  zqcovemanure:
    kind: manure
    name: zqcovemanure
    perTon: { N: 12.37, P2O5: 7.13, K2O: 11.53 }
  shells:
    kind: lime
    name: ground shells
    price: { value: 464.19, per: ton }
    stated: { limeScore: 71 }
  zqsolution:
    kind: fertilizer
    name: zqsolution
    price: { value: 3.659, per: gal }
    density: { value: 10.671, unit: lb/gal }
    analysis: { N: 31.37, P2O5: 0, K2O: 0 }
  zqstarter:
    kind: fertilizer
    name: zqstarter
    price: { value: 919.37, per: ton }
    analysis: { N: 11.13, P2O5: 37.19, K2O: 0 }
  zqslurry:
    kind: manure
    name: zqslurry
    species: cattle
    dryMatter: 7.39
    price: { value: 0.0137, per: gal }
    density: { value: 8.473, unit: lb/gal }
    perThousandGal: { N: 23.71, P2O5: 9.17, K2O: 21.93, ammoniumN: 13.273 }
pricesOn: 2025-08-13
audiences:
  trust: { name: The reading trust, fields: [quay, pier], leaveOut: [costs, yields, notes, positions, nitrogen], seasons: { from: 2018, to: 2025 } }
  bank: { name: The reading bank, fields: [quay, pier], leaveOut: [yields, notes] }
  heir: { name: The heir, tenure: rented, leaveOut: [] }
`,
  "reports/zqreport.csv": "Bag,Nitrate\nzqsheet,17.371\n",
  "references.yaml": `zqletter:
  title: Zqletter of the adviser
  publisher: zqadviser
`,
  "guidelines/zqrules.yaml": `title: Zqrules for the cove
short: Zqrules
publication: zqletter
region: zqregion
status: current
about: zqrules hold for the cove alone.
extends: us-tristate-974-2020
sections:
  - id: zq-when-to-lime
    kind: targetPh
    method: water1to1
    rows:
      - limeBelow: { value: 6.3, source: { reference: zqletter }, evidence: read }
        target: { value: 6.5, source: { reference: zqletter }, evidence: read }
`,
  "labs/sand-lab.yaml": `name: Sand Laboratory
note: zqlabnote
packages:
  basic:
    name: Basic test
    fee: 41.37
    measures:
      pH: { method: water1to1, unit: pH }
      bufferPh: { method: sikora, unit: pH }
      P: { method: mehlich3, finish: icp, unit: ppm }
      K: { method: mehlich3, finish: icp, unit: ppm }
      organicMatter: { method: lossOnIgnition, unit: "%" }
      cec: { method: cationSumWithAcidity, unit: meq/100 g }
  zqnitrate:
    name: zqnitrate package
    fee: 37.41
    measures:
      nitrateN: { method: potassiumChloride, unit: ppm }
      mineralN: { method: calciumChlorideNitrogen, unit: kg/ha }
`,
  "labs/zqlab.yaml": `name: Zqcove Laboratory
packages:
  basic:
    name: Basic test
    measures:
      pH: { method: water1to1, unit: pH }
      K: { method: mehlich3, finish: icp, unit: ppm }
`,
  "fields/quay/field.yaml": `name: Quay
tenure: { kind: rented, from: zqlandlady, since: 2012-03-07 }
soil: { texture: siltLoam, cec: 13.9, subsoilPh: 5.8 }
zones:
  upper: { letter: A, name: Upper }
  lower: { letter: B, name: Lower }
boundary: { walked: 2013-04-19, note: zqboundary }
targetPh: { value: 6.4, reason: zqtarget }
plan:
  - { season: 2026, crop: corn, yieldGoal: { value: 187.37, unit: bu/ac } }
avoid:
  - { what: zqroad, distance: { value: 12, unit: m }, where: [[-37.003713, 44.001511]] }
note: zqfieldnote
`,
  "fields/quay/zones.geojson": `{ "type": "FeatureCollection", "features": [
  { "type": "Feature", "properties": { "zone": "upper" }, "geometry": { "type": "Polygon",
    "coordinates": [[[-37.004137, 44.000193], [-37.002171, 44.000193], [-37.002171, 44.002159], [-37.004137, 44.002159], [-37.004137, 44.000193]]] } },
  { "type": "Feature", "properties": { "zone": "lower" }, "geometry": { "type": "Polygon",
    "coordinates": [[[-37.002171, 44.000193], [-37.000139, 44.000193], [-37.000139, 44.002159], [-37.002171, 44.002159], [-37.002171, 44.000193]]] } }
] }
`,
  "fields/quay/samplings/2016-10-18.yaml": sampling("2016-10-18", ["ZQA-1610", "ZQB-1610"], [93.719, 97.313]),
  "fields/quay/samplings/2019-10-15.yaml": `${sampling("2019-10-15", ["QA-1910", "QB-1910"], [104, 131])}corrections:
  - { composite: "QA-1910", analyte: K, was: 104, now: 111, reason: zqreason, date: 2019-12-02 }
note: zqsamplingnote
handling: { tool: zqtool }
`,
  "fields/quay/samplings/2025-06-11-nitrate.yaml": `date: 2025-06-11
purpose: nitrate
lab: sand-lab
package: zqnitrate
depth: { from: 0, to: 12, unit: in }
nitrate: { cropHeight: { value: 9.37, unit: in } }
composites:
  - { label: "ZQNA-2506", zone: upper, results: { nitrateN: 17.371, mineralN: 83.517 } }
  - { label: "ZQNB-2506", zone: lower, results: { nitrateN: 19.733 } }
`,
  "fields/quay/samplings/2025-10-18.yaml": `${sampling("2025-10-18", ["QA-2510", "QB-2510"], [88, 109])}handling: { reportedOn: 2026-01-07 }
report: { number: "QR-77", file: zqreport.csv }
note: zqnewestnote
`,
  "fields/quay/seasons/2017.yaml": season(2017, "corn", 157.19, "  - { date: 2017-05-03, product: potash, rate: { value: 113.7, unit: lb/ac }, note: zqearly }\n"),
  "fields/quay/seasons/2018.yaml": season(2018, "soybean", 51.93, "  - { date: 2017-11-23, product: limestone, rate: { value: 1.937, unit: ton/ac } }\n"),
  "fields/quay/seasons/2019.yaml": season(2019, "corn", 163.91, "  - { date: 2019-04-27, product: zqcompound, rate: { value: 123.739, unit: lb/ac } }\n"),
  "fields/quay/seasons/2025.yaml": season(
    2025,
    "corn",
    171.79,
    `  - { date: 2025-05-04, product: zqurea, rate: { value: 311.3, unit: lb/ac }, note: zqureanote }
  - { date: 2025-04-28, product: potash, zones: [upper], rate: { value: 100, unit: lb/ac } }
note: zqseasonnote
`,
  ),
  "fields/quay/seasons/2026.yaml": season(2026, "corn", 173.97, ""),
  "fields/zqcove/field.yaml": `name: Zqcove
tenure: { kind: owned }
zones:
  zqzone: { letter: A, name: Zqzone }
guidelines: [zqrules, soil-chemistry]
`,
  "fields/zqcove/samplings/2027-10-18.yaml": `date: 2027-10-18
purpose: routine
lab: zqlab
package: basic
depth: { from: 0, to: 8, unit: in }
composites:
  - { label: "ZQC-2710", zone: zqzone, results: { pH: 5.7, K: 77.319 } }
`,
  "fields/zqcove/seasons/2024.yaml": `season: 2024
applications:
  - { date: 2024-04-28, product: zqcovemanure, rate: { value: 9.37, unit: ton/ac } }
`,
  ...secretPier,
};

function sampling(date: string, labels: readonly [string, string], potassium: readonly [number, number]): string {
  const bag = (i: 0 | 1, zone: string, pH: number): string => `  - label: "${labels[i]}"
    zone: ${zone}
    cores: 15
    note: zqbagnote
    results: { pH: ${pH}, bufferPh: 6.6, P: 21, K: ${potassium[i]}, organicMatter: 2.9, cec: 13.9 }
`;
  return `date: ${date}
purpose: routine
lab: sand-lab
package: basic
depth: { from: 0, to: 8, unit: in }
composites:
${bag(0, "upper", 5.8)}${bag(1, "lower", 6.1)}`;
}

function season(year: number, crop: string, taken: number, applications: string): string {
  return `season: ${year}
crops:
  - { crop: ${crop}, planted: ${year}-05-09, harvested: ${year}-10-07, yield: { value: ${taken}, unit: bu/ac }, moisture: 13.57, note: zqcropnote }
${applications === "" ? "" : `applications:\n${applications}`}`;
}

/** Of which samplings advice was issued, and when. */
const issues = [
  ["quay", "2016-10-18", "2016-11-21"],
  ["quay", "2019-10-15", "2019-12-05"],
  ["pier", "2018-10-23", "2018-12-03"],
  ["pier", "2024-06-13-nitrate", "2024-06-20"],
  ["pier", "2024-10-15", "2024-11-19"],
] as const;

/** Write the farm into a folder, with advice issued from its samplings, so that sealed files are searched too. */
export const writeSecretFarm = (path: string, files: Readonly<Record<string, string>> = secretFarm): void => {
  const folder = new FarmFolder(path);
  for (const [file, text] of Object.entries(files)) folder.write(file, text);
  const { farm, problems } = folder.read({ library });
  if (!farm) throw new Error(formatProblems(problems));
  for (const [id, sampled, issued] of issues) {
    const field = farm.fields.find((f) => f.id === id);
    const sampling = field?.samplings.find((s) => s.id === sampled);
    const body = field && sampling && freeze(farm, field, sampling, { for: "zqissuedfor", issued, print: packPrint });
    if (body) folder.write(`fields/${id}/recommendations/${issued}.yaml`, recommendationText(sealRecommendation(body)));
  }
};

/** The same, read, from a folder that is gone again. */
export const readSecretFarm = (files?: Readonly<Record<string, string>>): Farm => {
  const home = mkdtempSync(join(tmpdir(), "field-history-secret-"));
  try {
    writeSecretFarm(home, files);
    const { farm, problems } = readFarm({ content: home, library });
    if (!farm) throw new Error(formatProblems(problems));
    return farm;
  } finally {
    rmSync(home, { recursive: true, force: true });
  }
};

const quaySecrets = {
  fields: ["zqcove", "zqzone", "zqrules", "zqletter", "zqadviser", "zqregion", "ZQC-2710", "2027-10-18", "18 October 2027", "77.319"],
  costs: ["791.17", "682.31", "573.23", "41.37", "37.41"],
  yields: ["187.37", "157.19", "51.93", "163.91", "171.79", "173.97", "13.57"],
  notes: ["zqabout", "zqlimenote", "zqlabnote", "zqlandlady", "zqboundary", "zqtarget", "zqfieldnote", "zqroad", "zqreason", "zqsamplingnote", "zqtool", "zqnewestnote", "zqearly", "zqureanote", "zqseasonnote", "zqbagnote", "zqcropnote", "zqissuedfor", "zqreport", "zqsheet"],
  positions: ["37.004137", "44.000193", "37.002171", "44.002159", "37.000139", "37.003713", "44.001511", "Zqaddress"],
  nitrogen: ["17.371", "83.517", "19.733", "ZQNA-2506", "ZQNB-2506", "zqnitrate", "2025-06-11", "11 June 2025", "9.37 in", "zqurea", "43.71", "311.3", "16.43", "zqcompound", "123.739"],
  years: ["ZQA-1610", "ZQB-1610", "93.719", "97.313", "2016-10-18", "18 October 2016", "2016-11-21", "21 November 2016", "113.7", "157.19", "2017-11-23", "1.937", "2013-04-19", "2012-03-07", "173.97", "2026-05-09"],
} as const;

/**
 * What must not be found, by what is left out. Numbers as a page writes them.
 */
export const secrets = Object.fromEntries(Object.entries(quaySecrets).map(([kind, words]) => [kind, [...words, ...pierSecrets[kind as keyof typeof quaySecrets]]])) as Record<keyof typeof quaySecrets, string[]>;
