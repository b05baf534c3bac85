/** The files of the tiny farm that a test may spoil. */
export const paths = {
  farm: "farm.yaml",
  references: "references.yaml",
  guideline: "guidelines/small-guide.yaml",
  lab: "labs/north-lab.yaml",
  field: "fields/north/field.yaml",
  zones: "fields/north/zones.geojson",
  sampling: "fields/north/samplings/2025-10-18.yaml",
  season: "fields/north/seasons/2025.yaml",
} as const;

/**
 * A whole farm, as small as one can be: one field of two zones, one laboratory, two samplings, one season and its own
 * guideline. Path to text. No number, name or place in it is real.
 */
export const tinyFarm: Readonly<Record<string, string>> = {
  "farm.yaml": `name: Tiny Farm
units: us
currency: USD
guidelines: [small-guide]
products:
  ground-limestone:
    kind: lime
    name: ground limestone
    stated: { cce: 90 }
  potash:
    kind: fertilizer
    name: muriate of potash
    analysis: { N: 0, P2O5: 0, K2O: 60 }
`,
  "references.yaml": `bulletin-1:
  title: A bulletin
  publisher: A publisher
`,
  "guidelines/small-guide.yaml": `title: A small guideline
short: Small
publication: bulletin-1
region: nowhere
status: current
about: For tests only.
sections:
  - id: potassium
    kind: bands
    analyte: K
    limits: { method: mehlich3, unit: ppm }
    tables:
      - bands:
          - { name: low, position: below }
          - { name: enough, position: within, from: 100 }
          - { name: high, position: above, from: 200 }
        source: { reference: bulletin-1, at: Table 1 }
        evidence: read
  - id: lime
    kind: bufferTable
    buffer: sikora
    unit: ton/ac
    material: { index: cce, value: 100, label: pure lime, source: { reference: bulletin-1 }, evidence: read }
    depth: { to: 6, unit: in, source: { reference: bulletin-1 }, evidence: read }
    betweenRows: linear
    targets: [6.0, 6.5]
    rows:
      - [6.8, 0.5, 1.0]
      - [6.4, 1.5, 2.0]
    source: { reference: bulletin-1, at: Table 2 }
    evidence: read
`,
  "labs/north-lab.yaml": `name: North Laboratory
packages:
  basic:
    name: Basic test
    fee: 12
    measures:
      pH: { method: water1to1, unit: pH }
      bufferPh: { method: sikora, unit: pH }
      P: { method: mehlich3, finish: icp, unit: ppm }
      K: { method: mehlich3, finish: icp, unit: ppm }
`,
  "fields/north/field.yaml": `name: North Field
soil: { texture: siltLoam, cec: 14 }
zones:
  west: { letter: A, name: West end }
  east: { letter: B, name: East end }
plan:
  - season: 2026
    crop: corn
    yieldGoal: { value: 180, unit: bu/ac }
`,
  "fields/north/zones.geojson": `{
  "type": "FeatureCollection",
  "features": [
    { "type": "Feature", "properties": { "zone": "west" }, "geometry": {
      "type": "Polygon",
      "coordinates": [[[-37.004, 44], [-37.002, 44], [-37.002, 44.002], [-37.004, 44.002], [-37.004, 44]]]
    } },
    { "type": "Feature", "properties": { "zone": "east" }, "geometry": {
      "type": "Polygon",
      "coordinates": [[[-37.002, 44], [-37, 44], [-37, 44.002], [-37.002, 44.002], [-37.002, 44]]]
    } }
  ]
}
`,
  "fields/north/samplings/2024-10-14.yaml": `date: 2024-10-14
purpose: routine
lab: north-lab
package: basic
depth: { from: 0, to: 8, unit: in }
composites:
  - label: "0011"
    zone: west
    cores: 20
    results:
      pH: 6.1
      K: 96
  - label: "0012"
    zone: east
    results:
      pH: 6.4
      K: 131
`,
  "fields/north/samplings/2025-10-18.yaml": `date: 2025-10-18
purpose: routine
lab: north-lab
package: basic
depth: { from: 0, to: 8, unit: in }
handling: { receivedOn: 2025-10-20, reportedOn: 2025-10-27 }
composites:
  - label: "0021"
    zone: west
    results:
      pH: 6.2
      bufferPh: 6.7
      P: { value: 3, qualifier: "<" }
      K: 104
  - label: "0022"
    zone: east
    results:
      pH: 6.5
      K: 128
corrections:
  - composite: "0022"
    analyte: K
    was: 128
    now: 138
    reason: The sheet says 138.
    date: 2025-11-01
`,
  "fields/north/seasons/2025.yaml": `season: 2025
crops:
  - crop: corn
    planted: 2025-05-06
    harvested: 2025-10-10
    yield: { value: 171, unit: bu/ac }
applications:
  - date: 2025-04-28
    product: potash
    zones: [west]
    rate: { value: 100, unit: lb/ac }
`,
};
