import type { Composite, Farm, Field, Sampling } from "../../src/records/model.ts";
import type { AnalyteId } from "../../src/interpretation/vocabulary.ts";
import { show } from "../../src/interpretation/show.ts";
import { readFarm } from "../../src/records/reading/readFarm.ts";
import { generateFarm } from "./generateFarm.ts";
import { farmFolder } from "./farmFolder.ts";

/** What every bag of these farms would hold if nothing strayed, and how many decimals the laboratory prints. */
const levels = { pH: [6.3, 1], P: [30, 0], K: [140, 0], Mg: [180, 0], organicMatter: [3, 1] } as const satisfies Partial<Record<AnalyteId, readonly [number, number]>>;
export type Still = keyof typeof levels;
export const stillAnalytes = Object.keys(levels) as Still[];

/** Read once: a field of so many zones, sampled every October of so many years, fifteen cores to a bag. */
export const stillFarm = (zones: number, years: number): Farm => {
  const folder = farmFolder([...generateFarm({ seed: 1, fields: 1, samplings: 1, zones })].filter(([path]) => !/\/(samplings|seasons)\//.test(path)));
  const bag = (i: number) => [`  - label: "${i}"`, `    zone: zone-${i + 1}`, "    cores: 15", "    results:", ...stillAnalytes.map((a) => `      ${a}: ${levels[a][0]}`)];
  for (let year = 2026 - years; year <= 2025; year++)
    folder.write(
      `fields/field-0001/samplings/${year}-10-18.yaml`,
      [`date: ${year}-10-18`, "purpose: routine", "lab: gannet-laboratory", "package: complete", "depth: { from: 0, to: 8, unit: in }", "composites:", ...Array.from({ length: zones }, (_, i) => bag(i)).flat(), ""].join("\n"),
    );
  return readFarm({ content: folder.path, library: "content" }).farm!;
};

/** The same farm with every result strayed, `error` in shares of the level, printed as the laboratory prints it. */
export const strayed = (farm: Farm, error: (analyte: Still, zone: string, year: number) => number): { farm: Farm; field: Field } => {
  const [field] = farm.fields as [Field];
  const samplings = field.samplings.map(
    (s): Sampling => ({
      ...s,
      composites: s.composites.map(
        (c): Composite => ({
          ...c,
          measurements: c.measurements.map((m) => {
            const [level, decimals] = levels[m.analyte as Still];
            return { ...m, value: Number(show(level * (1 + error(m.analyte as Still, c.zone, Number(s.date.slice(0, 4)))), decimals)) };
          }),
        }),
      ),
    }),
  );
  const changed = { ...field, samplings };
  return { farm: { ...farm, fields: [changed] }, field: changed };
};
