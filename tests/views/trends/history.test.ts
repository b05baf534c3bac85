import { expect, it } from "vitest";
import type { Field } from "../../../src/records/model.ts";
import { fewestCores, fieldNoise } from "../../../src/views/trends/history.ts";
import { measured } from "../../support/measured.ts";
import { stillFarm } from "../../support/stillFarm.ts";

const bag = (zone: string, cores?: number) => ({ zone, cores });
const field = {
  samplings: [
    { file: "2018.yaml", composites: [bag("west", 15), bag("east", 3)] },
    { file: "2020.yaml", composites: [bag("west", 10), bag("east")] },
    { file: "2022.yaml", composites: [bag("west", 2)] },
  ],
} as unknown as Field;
const results = ["2018.yaml", "2020.yaml"].map((file) => measured("K", 100, { origin: { file, line: 1, column: 1 } }));

it("the noise of a line goes by the fewest cores of its own bags: not of another zone's, and not of another line's", () => expect(fewestCores(field, ["west"], results)).toBe(10));

it("is not known where one bag does not say how many cores it holds", () => expect(fewestCores(field, ["east"], results)).toBeUndefined());

// Three pairs replace the published noise. "< 5" and 7 differ by nobody knows what.
it("a farm's duplicates count where both bags have a number", () => {
  const still = stillFarm(1, 3);
  const from = (bounded: number) => {
    const [only] = still.fields as [Field];
    const samplings = only.samplings.map((s, i) => ({
      ...s,
      composites: s.composites.flatMap((c) => [
        { ...c, measurements: c.measurements.map((m) => ({ ...m, value: m.value * 0.9, ...(i < bounded && { qualifier: "<" as const }) })) },
        c,
      ]),
    }));
    const doubled = { ...only, samplings };
    const noise = fieldNoise({ ...still, fields: [doubled] }, doubled, { analyte: "P", method: "mehlich3", cores: 15 });
    return noise.kind === "answer" && noise.value.from;
  };
  expect([from(0), from(1)]).toEqual(["own duplicates", "cores and laboratory"]);
});
