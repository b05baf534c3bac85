import type { WayRead } from "../../interpretation/waysRead.ts";
import { isReadBy, waysRead } from "../../interpretation/waysRead.ts";
import { analyteInSentence, finishes, methods, preparations } from "../../interpretation/vocabulary.ts";
import type { Farm } from "../model.ts";
import { fieldName } from "../place.ts";
import type { Problems } from "../problem.ts";
import type { LabRecord } from "../schemas/lab.ts";
import type { Parsed } from "../yaml/yamlFile.ts";

const words = ({ method, finish, preparation, unit }: WayRead): string =>
  `by ${methods[method].label}${finish ? ` (${finishes[finish]})` : ""}${preparation ? ` of ${preparations[preparation]} soil` : ""}${unit === "pH" ? "" : ` in ${unit}`}`;

/** Laboratories whose results are still to come: nobody has used them yet, or a field's newest sampling of a purpose was theirs. */
const inUse = ({ fields, labs }: Farm): ReadonlySet<string> => {
  const samplings = fields.flatMap((f) => f.samplings);
  const newest = fields.flatMap((f) => [...new Map(f.samplings.map((s) => [s.purpose, s.lab.id])).values()]);
  return new Set([...newest, ...[...labs.keys()].filter((id) => samplings.every((s) => s.lab.id !== id))]);
};

/**
 * Warn, once for each laboratory and analyte, of pH, phosphorus and potassium that a laboratory measures in a way that no chosen
 * guideline reads, though one reads the analyte: whoever buys that package is advised nothing. Laboratories of the past are history.
 */
export const warnOfUnread = (farm: Farm, labs: ReadonlyMap<string, Parsed<LabRecord>>, problems: Problems): void => {
  const packs = [...farm.usedGuidelines.values()];
  for (const id of inUse(farm)) {
    const { value, file, keyAt } = labs.get(id)!;
    const recorded = farm.fields.flatMap((f) => f.samplings.filter((s) => s.lab.id === id).map((s) => s.measures));
    for (const analyte of ["pH", "P", "K"] as const) {
      const offered = Object.entries(value.packages).flatMap(([name, { measures }]) =>
        measures[analyte] ? [{ name, way: measures[analyte] }] : [],
      );
      const reader = packs.find((p) => waysRead(p, analyte).length > 0);
      const ways = packs.flatMap((p) => waysRead(p, analyte));
      const [first] = offered;
      if (
        !reader ||
        !first ||
        [...offered.map((o) => o.way), ...recorded.flatMap((m) => m[analyte] ?? [])].some((way) => isReadBy(ways, way))
      )
        continue;
      const path = ["packages", first.name, "measures", analyte];
      const read = [...new Set(waysRead(reader, analyte).map(words))].join(" or ");
      problems.warn(
        file,
        keyAt(path),
        fieldName(path),
        `no chosen guideline reads ${analyteInSentence(analyte)} ${words(first.way)}, so nothing is advised by it; ${reader.short} reads it ${read}`,
      );
    }
  }
};
