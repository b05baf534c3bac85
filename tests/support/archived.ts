import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Farm, Field, Recommendation } from "../../src/records/model.ts";
import { packPrint } from "../../src/records/sealing/packPrint.ts";
import { formatProblems } from "../../src/records/problem.ts";
import { readFarm } from "../../src/records/reading/readFarm.ts";
import { recommendationText } from "../../src/records/sealing/recommendationText.ts";
import { sealRecommendation } from "../../src/records/sealing/sealRecommendation.ts";
import { freeze } from "../../src/views/issued/freeze.ts";
import { FarmFolder, farmFolder } from "./farmFolder.ts";
import { tinyFarm } from "./tinyFarm.ts";

/** The tiny farm with guidelines that answer: rates of potash and phosphate, lime and prices. */
export const advisedFarm: Readonly<Record<string, string>> = {
  ...tinyFarm,
  "farm.yaml": `name: Tiny Farm
units: us
currency: USD
guidelines: [full-guide, small-guide]
products:
  ground-limestone:
    kind: lime
    name: ground limestone
    price: { value: 40, per: ton }
    stated: { cce: 90 }
  potash:
    kind: fertilizer
    name: muriate of potash
    price: { value: 400, per: ton }
    analysis: { N: 0, P2O5: 0, K2O: 60 }
`,
  // Plain rules, so that every rate can be followed by hand.
  "guidelines/full-guide.yaml": `title: A full guideline
short: Full
publication: bulletin-1
region: nowhere
status: current
about: For tests only.
sections:
  - id: potash
    kind: linearYield
    analyte: K
    nutrient: K2O
    limits: { method: mehlich3, unit: ppm }
    unit: lb/ac
    rows:
      - when: { crops: [corn] }
        equation: { shape: perYield, from: 1.5, perTest: 0.01 }
        source: { reference: bulletin-1, at: Table 3 }
        evidence: read
  - id: when-to-lime
    kind: targetPh
    method: water1to1
    rows:
      - limeBelow: { value: 6.3, source: { reference: bulletin-1, at: Table 4 }, evidence: read }
        target: { value: 6.5, source: { reference: bulletin-1, at: Table 4 }, evidence: read }
`,
};

export const sampled = "2025-10-18";
export const issued = "2025-11-10";
export const frozenPath = `fields/north/recommendations/${issued}.yaml`;

/** The farm that a folder holds; a problem in it is a mistake of the test. */
export const farmIn = (folder: FarmFolder): Farm => {
  const { farm, problems } = readFarm({ content: folder.path });
  if (!farm) throw new Error(formatProblems(problems));
  return farm;
};

/** The text that `archive` writes for a sampling of the farm in a folder. */
export const archivedText = (folder: FarmFolder, sampling = sampled, day = issued): string => {
  const farm = farmIn(folder);
  const field = farm.fields[0]!;
  const body = freeze(farm, field, field.samplings.find((s) => s.id === sampling)!, { for: "the landlord", issued: day, print: packPrint });
  if (!body) throw new Error("nothing to advise from");
  return recommendationText(sealRecommendation(body));
};

/** What `archive` writes for the tiny farm; worked out once, in a folder of its own that is gone again. */
export const issuedText = ((): string => {
  const home = mkdtempSync(join(tmpdir(), "field-history-issued-"));
  try {
    const folder = new FarmFolder(home);
    for (const [file, content] of Object.entries(advisedFarm)) folder.write(file, content);
    return archivedText(folder);
  } finally {
    rmSync(home, { recursive: true, force: true });
  }
})();

/** The tiny farm, advised and archived. */
export const archivedFarm = (): FarmFolder => farmFolder(Object.entries(advisedFarm)).write(frozenPath, issuedText);

/** Its one field and the one piece of advice. */
export const read = (folder: FarmFolder): { farm: Farm; field: Field; frozen: Recommendation } => {
  const farm = farmIn(folder);
  const field = farm.fields[0]!;
  return { farm, field, frozen: field.recommendations[0]! };
};
