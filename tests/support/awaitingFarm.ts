import type { ImportPlan, PlannedImport } from "../../src/records/importing/importResults.ts";
import { planImport } from "../../src/records/importing/importResults.ts";
import { changesOf } from "../../src/records/importing/importResultsWrite.ts";
import { writeChanges } from "../../src/records/writeChanges.ts";
import { formatProblems } from "../../src/records/problem.ts";
import type { FarmFolder } from "./farmFolder.ts";
import { farmFolder } from "./farmFolder.ts";
import { paths, tinyFarm } from "./tinyFarm.ts";

/** The tiny farm's newest sampling before its laboratory has answered: four bags, two of them oddly labeled. */
export const awaitingSampling = `# Sampled after the rain.
date: 2025-10-18
purpose: routine
lab: north-lab
package: basic
depth: { from: 0, to: 8, unit: in }
composites:
  - label: "0021" # the west end
    zone: west
    cores: 20
  - label: "0022"
    zone: east
    results: {}
    note: Two stones in it.
  - { label: "B, east", zone: east, cores: 12 }
  - label: '=1+1'

    zone: west

# Nothing else was sampled.
`;

/** The sampling once the results below are in it, written by hand. */
export const answeredSampling = `# Sampled after the rain.
date: 2025-10-18
purpose: routine
lab: north-lab
package: basic
depth: { from: 0, to: 8, unit: in }
composites:
  - label: "0021" # the west end
    zone: west
    cores: 20
    results:
      pH: 6.2
      bufferPh: 6.70
      P: { value: 3, qualifier: "<" }
      K: 104
  - label: "0022"
    zone: east
    results:
      pH: 6.5
      K: 128
    note: Two stones in it.
  - { label: "B, east", zone: east, cores: 12, results: { pH: 6.0, P: 21.5, K: 96 } }
  - label: '=1+1'

    zone: west
    results:
      pH: 5.9
      K: { value: 400, qualifier: ">" }

# Nothing else was sampled.
`;

/** The columns that most of the invented files share. */
export const usualColumns = `columns:
    Label: label
    pH: { analyte: pH }
    Buffer pH: { analyte: bufferPh }
    P (ppm): { analyte: P }
    K (ppm): { analyte: K }
`;

/** A file that answers the sampling, in the plainest shape. */
export const usualFile = `Label,pH,Buffer pH,P (ppm),K (ppm)
0021,6.2,6.70,<3,104
0022,6.5,,,128
"B, east",6.0,,21.5,96
=1+1,5.9,,,>400
`;

/** The tiny farm with that sampling, and with a mapping of result files (the lines below `resultFile:`, the first not indented). */
export const awaitingFarm = (mapping = usualColumns, sampling = awaitingSampling): FarmFolder =>
  farmFolder([...Object.entries(tinyFarm), [paths.lab, `${tinyFarm[paths.lab]!}resultFile:\n  ${mapping}`], [paths.sampling, sampling]]);

/** Plan the import of a file into a farm that must read without a mistake. */
export const planned = (folder: FarmFolder, file: string | Uint8Array, only?: string, correct = false): PlannedImport => {
  const { farm, problems } = folder.read();
  if (!farm) throw new Error(formatProblems(problems));
  const field = farm.fields[0]!;
  const sampling = field.samplings.find((s) => s.id === only);
  return planImport(farm, farm.labs.get("north-lab")!, { file: "results.csv", bytes: typeof file === "string" ? Buffer.from(file) : file }, { only: sampling && { field, sampling }, correct });
};

export const planOf = (result: PlannedImport): ImportPlan => {
  if (!result.plan) throw new Error(formatProblems(result.problems));
  return result.plan;
};

/** What a person reads where a file is refused. */
export const complaints = (folder: FarmFolder, file: string | Uint8Array, only?: string, correct = false): string[] => {
  const { plan, problems } = planned(folder, file, only, correct);
  if (plan) throw new Error("was not refused");
  return formatProblems(problems).split("\n");
};

/** Write a plan into its farm. */
export const carryOut = (folder: FarmFolder, plan: ImportPlan): void => {
  const made = changesOf(folder.path, plan);
  if ("problems" in made) throw new Error(formatProblems(made.problems));
  const wrong = writeChanges(folder.path, made.changes);
  if (wrong.length > 0) throw new Error(formatProblems(wrong));
};
