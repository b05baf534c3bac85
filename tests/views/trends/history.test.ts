import { expect, it } from "vitest";
import type { Field } from "../../../src/records/model.ts";
import { fewestCores } from "../../../src/views/trends/history.ts";
import { measured } from "../../support/measured.ts";

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
