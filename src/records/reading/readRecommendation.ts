import type { Guideline } from "../../interpretation/guideline.ts";
import type { Recommendation } from "../model.ts";
import { packSince } from "../sealing/packPrint.ts";
import { start } from "../place.ts";
import { fieldName } from "../place.ts";
import type { Problems } from "../problem.ts";
import { recommendation } from "../schemas/recommendation.ts";
import { brokenSeals } from "../sealing/sealRecommendation.ts";
import { parseRecord } from "../yaml/yamlFile.ts";

const remedy = "advice as issued must not be edited: bring the file back from version control, or delete it and issue new advice";

/** The seal is the last line: a file without it was cut short. */
const ending = /^sha256: "?sha256:[0-9a-f]{64}"?\r?\n*$/m;

/** Read advice as issued, prove its seal, and see which of its guidelines were edited since. */
export const readRecommendation = (
  text: string,
  file: string,
  name: string,
  field: string,
  shelf: ReadonlyMap<string, Guideline>,
  problems: Problems,
): Recommendation | undefined => {
  if (!ending.test(text)) {
    const lines = text.replace(/\n+$/, "").split("\n");
    problems.error(
      file,
      { line: lines.length, column: 1 },
      "",
      `does not end with its seal (sha256): it is half written or damaged; ${remedy}`,
    );
    return undefined;
  }
  const before = problems.errors.length;
  const parsed = parseRecord(text, file, recommendation, problems);
  if (!parsed) {
    if (problems.errors.length > before) problems.error(file, start, "", `is damaged; ${remedy}`);
    return undefined;
  }
  const { value, at } = parsed;
  const error = (path: readonly (string | number)[], message: string): void => problems.error(file, at(path), fieldName(path), message);
  for (const { message, path } of brokenSeals(value)) error(path, `${message}; ${remedy}`);
  if (value.issued !== name)
    error(["issued"], `was issued on ${value.issued}, and the file is named ${name}.yaml; give it the name ${value.issued}.yaml back`);
  if (value.field.id !== field)
    error(["field", "id"], `is about field "${value.field.id}" and stands in the folder of field "${field}"; move it back`);
  return {
    id: value.issued,
    file,
    record: value,
    packs: value.guidelines.map((g) => packSince(g, shelf.get(g.id))),
  };
};
