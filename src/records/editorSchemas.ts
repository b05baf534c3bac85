import * as z from "zod";
import { guideline } from "../interpretation/guideline.ts";
import { analyteIds, analytes, limeIndexIds, limeIndices } from "../interpretation/vocabulary.ts";
import { farm } from "./schemas/farm.ts";
import { field } from "./schemas/field.ts";
import { lab } from "./schemas/lab.ts";
import { recommendation } from "./schemas/recommendation.ts";
import { references } from "./schemas/references.ts";
import { sampling } from "./schemas/sampling.ts";
import { season } from "./schemas/season.ts";

const records = { farm, field, sampling, season, lab, guideline, references, recommendation };

/** JSON Schema text for each kind of record, by file name: what an editor completes and checks while a record is written. */
export const editorSchemas = (): Map<string, string> =>
  new Map(
    Object.entries(records).map(([name, schema]) => {
      const json: unknown = z.toJSONSchema(schema, { target: "draft-7", io: "input", unrepresentable: "any" });
      return [`${name}.json`, `${JSON.stringify(forEditors(json), null, 2)}\n`];
    }),
  );

const labels: Readonly<Record<string, string>> = {
  ...Object.fromEntries(
    analyteIds.map((id) => [
      id,
      analytes[id].unit === "pH" ? analytes[id].label : `${analytes[id].label}, usually in ${analytes[id].unit}`,
    ]),
  ),
  ...Object.fromEntries(limeIndexIds.map((id) => [id, limeIndices[id].label])),
};

/**
 * Editors complete the keys they find under `properties`, and most know nothing of `propertyNames`; a pattern for dates
 * beside the format only makes their message unreadable.
 */
const forEditors = (node: unknown): unknown => {
  if (Array.isArray(node)) return node.map(forEditors);
  if (typeof node !== "object" || node === null) return node;
  const { propertyNames, additionalProperties, pattern, ...rest } = Object.fromEntries(
    Object.entries(node).map(([key, value]) => [key, forEditors(value)]),
  );
  const keys = keysOf(propertyNames);
  return {
    ...rest,
    ...(pattern !== undefined && rest["format"] !== "date" && { pattern }),
    ...(keys
      ? {
          properties: Object.fromEntries(
            keys.map((key) => [key, { ...(labels[key] && { description: labels[key] }), ...(additionalProperties as object) }]),
          ),
          additionalProperties: false,
        }
      : { ...(propertyNames !== undefined && { propertyNames }), ...(additionalProperties !== undefined && { additionalProperties }) }),
  };
};

const keysOf = (propertyNames: unknown): string[] | undefined =>
  typeof propertyNames === "object" && propertyNames !== null && "enum" in propertyNames ? (propertyNames.enum as string[]) : undefined;
