/** What every generated farm has in common. */
export const farmFile = `name: Made-up Farm
about: Generated for tests and benchmarks; nothing in it is real.
units: us
currency: USD
guidelines: [us-tristate-974-2020, us-oregon-lime-2025, soil-chemistry]
products:
  ground-limestone:
    kind: lime
    name: ground limestone
    price: { value: 46, per: ton }
    stated: { limeScore: 92 }
    analysis: { cce: 96, moisture: 2, passing: { "8": 96, "60": 68 } }
  triple-phosphate:
    kind: fertilizer
    name: triple superphosphate, 0-46-0
    price: { value: 610, per: ton }
    analysis: { N: 0, P2O5: 46, K2O: 0 }
  potash:
    kind: fertilizer
    name: muriate of potash, 0-0-60
    price: { value: 450, per: ton }
    analysis: { N: 0, P2O5: 0, K2O: 60 }
`;

export const labs = ["gannet-laboratory", "petrel-laboratory"] as const;

const labFile = (name: string, fee: number): string => `name: ${name}
packages:
  complete:
    name: Complete test
    fee: ${fee}
    measures:
      pH: { method: water1to1, unit: pH }
      bufferPh: { method: sikora, unit: pH }
      P: { method: mehlich3, finish: icp, unit: ppm }
      K: { method: mehlich3, finish: icp, unit: ppm }
      Ca: { method: mehlich3, finish: icp, unit: ppm }
      Mg: { method: mehlich3, finish: icp, unit: ppm }
      S: { method: mehlich3, finish: icp, unit: ppm }
      Zn: { method: mehlich3, finish: icp, unit: ppm }
      organicMatter: { method: lossOnIgnition, unit: "%" }
      cec: { method: cationSumWithAcidity, unit: meq/100 g }
  ph-only:
    name: pH alone
    fee: 5
    measures:
      pH: { method: water1to1, unit: pH }
`;

export const labFiles: readonly (readonly [string, string])[] = [
  [`labs/${labs[0]}.yaml`, labFile("Gannet Soil Laboratory", 14)],
  [`labs/${labs[1]}.yaml`, labFile("Petrel Soil Laboratory", 12)],
];
