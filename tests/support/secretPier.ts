/**
 * A field of the secret farm whose zones were merged and split, with manure, slurry, a liquid fertilizer, starter, a legume's stand, duplicate
 * bags, a correction, a bag that is awaited, and nitrate in a routine sampling. Its secrets are made as those of `secretFarm.ts`.
 */
export const secretPier: Readonly<Record<string, string>> = {
  "fields/pier/field.yaml": `name: Pier
tenure: { kind: managed, from: zqcousin, since: 2011-05-17 }
units: metric
soil: { name: pier loam, texture: loam, cec: 15.3 }
zones:
  zqstrip: { letter: C, name: Zqstrip, until: 2017-03-01 }
  west: { letter: A, name: West, until: 2021-10-01 }
  east: { letter: B, name: East, until: 2021-10-01, soil: { cec: 12.1 } }
  long: { letter: D, name: Long, since: 2021-10-01, formerly: [west, east, zqstrip], until: 2026-03-01 }
  zqtip: { letter: E, name: Zqtip, since: 2026-03-01, formerly: [long] }
  zqrest: { letter: F, name: Zqrest, since: 2026-03-01, formerly: [long] }
boundary: { walked: 2014-03-29, note: zqpierline }
limeDepth: { value: 17, unit: cm }
targetPh: { value: 6.7, reason: zqpiertarget }
plan:
  - season: 2025
    crop: corn
    yieldGoal: { value: 191.43, unit: bu/ac }
    starter: { product: zqstarter, rate: { value: 72.83, unit: lb/ac }, placement: band, rowSpacing: { value: 30, unit: in } }
  - { season: 2027, crop: oats, yieldGoal: { value: 3.853, unit: t/ha } }
avoid:
  - { what: zqheap, distance: { value: 14, unit: m }, where: [[-37.013137, 44.011511]] }
note: zqpiernote
`,
  "fields/pier/zones.geojson": `{ "type": "FeatureCollection", "features": [
${(
  [
    ["zqstrip", -37.014971, -37.014137],
    ["west", -37.014137, -37.012171],
    ["east", -37.012171, -37.010139],
    ["long", -37.014137, -37.010139],
    ["zqtip", -37.014137, -37.011717],
    ["zqrest", -37.011717, -37.010139],
  ] as const
)
  .map(([zone, west, east]) => `  { "type": "Feature", "properties": { "zone": "${zone}" }, "geometry": { "type": "Polygon",
    "coordinates": [[[${west}, 44.010193], [${east}, 44.010193], [${east}, 44.012159], [${west}, 44.012159], [${west}, 44.010193]]] } }`)
  .join(",\n")}
] }
`,
  "fields/pier/samplings/2014-10-21.yaml": sampling("2014-10-21", ["zqstrip", "west", "east"], "ZQPOLD", 81.713),
  "fields/pier/samplings/2018-10-23.yaml": `${sampling("2018-10-23", ["west", "east"], "P18", 92)}  - { label: "P18-twin", zone: west, cores: 16, note: zqtwinnote, results: { pH: 6.1, bufferPh: 6.7, P: 24, K: 99, nitrateN: 14.639 } }
measured: { nitrateN: { method: potassiumChloride, unit: ppm } }
corrections:
  - { composite: "P18-twin", analyte: K, was: 99, now: 107, reason: zqtwinreason, date: 2018-11-14 }
`,
  "fields/pier/samplings/2020-04-15.yaml": `date: 2020-04-15
purpose: phCheck
lab: sand-lab
package: basic
depth: { from: 0, to: 8, unit: in }
composites:
  - { label: "P20-west", zone: west, cores: 12, results: { pH: 6.2 } }
  - { label: "P20-east", zone: east, cores: 12, results: { pH: 6.3 } }
`,
  "fields/pier/samplings/2022-10-18.yaml": `${sampling("2022-10-18", ["long"], "P22", 95.917)}corrections:
  - { composite: "P22-long", analyte: K, was: 95.917, now: 101, reason: zqlatereason, date: 2026-02-13 }
`,
  "fields/pier/samplings/2024-06-13-nitrate.yaml": `date: 2024-06-13
purpose: nitrate
lab: sand-lab
package: zqnitrate
depth: { from: 0, to: 12, unit: in }
nitrate: { cropHeight: { value: 8.71, unit: in }, plannedNitrogen: { value: 141.7, unit: lb/ac }, rainOfNormal: 117.3 }
composites:
  - { label: "ZQNP-2406", zone: long, results: { nitrateN: 15.937 } }
`,
  "fields/pier/samplings/2024-10-15.yaml": `${sampling("2024-10-15", ["long"], "P24", 97)}  - { label: "P24-twin", zone: long, cores: 15, results: { pH: 6.3, bufferPh: 6.7, P: 22, K: 103 } }
handling: { tool: zqauger, pail: plastic, receivedOn: 2024-10-19, reportedOn: 2024-10-29 }
`,
  "fields/pier/samplings/2026-04-17.yaml": `date: 2026-04-17
purpose: routine
lab: sand-lab
package: basic
depth: { from: 0, to: 8, unit: in }
composites:
  - { label: "ZQPT-2604", zone: zqtip, cores: 14, results: { pH: 6.1, bufferPh: 6.7, P: 25, K: 89.713 } }
  - { label: "ZQPR-2604", zone: zqrest, cores: 14 }
`,
  "fields/pier/seasons/2016.yaml": season(2016, "oats", "2.713", "t/ha", "  - { date: 2016-04-13, product: shells, zones: [zqstrip], rate: { value: 1.371, unit: ton/ac } }\n"),
  "fields/pier/seasons/2018.yaml": season(2018, "alfalfa", "3.917", "ton/ac", "  - { date: 2017-10-29, product: shells, rate: { value: 1.713, unit: ton/ac } }\n  - { date: 2018-04-03, product: potash, rate: { value: 87, unit: lb/ac } }\n"),
  "fields/pier/seasons/2023.yaml": season(2023, "alfalfa", "4.371", "ton/ac", "  - { date: 2023-04-05, product: potash, rate: { value: 93, unit: lb/ac } }\n", "stand: { plantsPerSquareFoot: 5.173, percent: 31.73, regrowth: { value: 8.647, unit: in } }, "),
  "fields/pier/seasons/2024.yaml": season(
    2024,
    "corn",
    "177.13",
    "bu/ac",
    `  - { date: 2024-04-11, product: zqslurry, rate: { value: 3961, unit: gal/ac }, incorporated: true, note: zqspreadnote }
  - { date: 2024-06-27, product: zqsolution, rate: { value: 28.637, unit: gal/ac } }
  - { date: 2024-04-02, product: shells, rate: { value: 0.713, unit: ton/ac } }
`,
  ),
  "fields/pier/seasons/2026.yaml": season(2026, "wheat", "71.39", "bu/ac", "  - { date: 2025-11-05, product: shells, rate: { value: 0.937, unit: ton/ac } }\n", "straw: removed, ").replace("crop: wheat", "crop: wheat, zones: [zqtip]"),
};

/** What of it must not be found, by what is left out. */
export const pierSecrets = {
  fields: [],
  costs: ["464.19", "3.659", "919.37", "0.0137", "2025-08-13"],
  yields: ["191.43", "3.853", "2.713", "3.917", "4.371", "177.13", "71.39"],
  notes: ["zqcousin", "zqpierline", "zqpiertarget", "zqheap", "zqpiernote", "zqtwinnote", "zqtwinreason", "zqlatereason", "zqauger", "zqpierbag", "zqpiercrop", "zqspreadnote"],
  positions: ["37.014971", "37.014137", "37.012171", "37.010139", "37.011717", "44.010193", "44.012159", "37.013137", "44.011511"],
  nitrogen: ["14.639", "15.937", "ZQNP-2406", "2024-06-13", "13 June 2024", "8.71 in", "141.7", "117.3", "5.173", "31.73", "8.647", "zqsolution", "zqstarter", "zqslurry", "31.37", "10.671", "11.13", "37.19", "23.71", "13.273", "21.93", "8.473", "3961 gal", "28.637", "72.83"],
  years: ["zqstrip", "zqtip", "zqrest", "ZQPOLD", "81.713", "2014-10-21", "21 October 2014", "1.371", "2017-10-29", "1.713", "95.917", "2026-02-13", "13 February 2026", "2026-01-07", "2026-04-17", "17 April 2026", "ZQPR-2604", "89.713", "71.39", "0.937", "2014-03-29", "29 March 2014", "2011-05-17", "2017-03-01", "2026-03-01", "1 March 2026", "3.853"],
} as const;

function sampling(date: string, zones: readonly string[], label: string, potassium: number): string {
  return `date: ${date}
purpose: routine
lab: sand-lab
package: basic
depth: { from: 0, to: 8, unit: in }
composites:
${zones.map((zone, i) => `  - { label: "${label}-${zone}", zone: ${zone}, cores: 15, note: zqpierbag, results: { pH: ${6 + i / 10}, bufferPh: 6.7, P: ${23 + i}, K: ${potassium + i * 7}, organicMatter: 3.1, cec: 14.7 } }`).join("\n")}
`;
}

function season(year: number, crop: string, taken: string, unit: string, applications: string, more = ""): string {
  return `season: ${year}
crops:
  - { crop: ${crop}, planted: ${year}-04-19, harvested: ${year}-09-23, yield: { value: ${taken}, unit: ${unit} }, ${more}note: zqpiercrop }
applications:
${applications}`;
}
