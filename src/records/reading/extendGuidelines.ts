import { extendGuideline } from "../../interpretation/extendGuideline.ts";
import type { Guideline } from "../../interpretation/guideline.ts";
import { allowedWords } from "../nearMiss.ts";
import type { Path } from "../place.ts";
import { fieldName } from "../place.ts";
import type { Problems } from "../problem.ts";
import type { Parsed } from "../yaml/yamlFile.ts";

/**
 * Give every guideline that extends another the sections it takes over, however long the chain. One that cannot be extended
 * (an id that is not known, a circle, a section in place of one of another kind) is told where it is written, and is then
 * among the broken.
 */
export const extendGuidelines = (
  library: { readonly guidelines: Map<string, Guideline>; readonly broken: Set<string> },
  packs: readonly Parsed<Guideline>[],
  problems: Problems,
): void => {
  // Of two files of one id the later one counts, as everywhere.
  const files = new Map(packs.map((pack) => [pack.value.id, pack]));
  const done = new Map<string, Guideline | undefined>();
  const extended = (id: string, chain: readonly string[]): Guideline | undefined => {
    if (done.has(id)) return done.get(id);
    const file = files.get(id);
    const result = file && (file.value.extends === undefined ? file.value : extendOne(file, file.value.extends, [...chain, id]));
    done.set(id, result);
    return result;
  };
  const extendOne = (file: Parsed<Guideline>, baseId: string, chain: readonly string[]): Guideline | undefined => {
    const error = (path: Path, message: string): undefined =>
      problems.error(file.file, file.at(path), fieldName(path), message) as undefined;
    const own = file.value;
    if (!files.has(baseId))
      return library.broken.has(baseId)
        ? undefined
        : error(
            ["extends"],
            `guideline "${baseId}" is not known; ${allowedWords(
              baseId,
              [...files.keys()].filter((id) => id !== own.id),
            )}`,
          );
    if (chain.includes(baseId))
      return error(["extends"], `goes in a circle: ${[...chain.slice(chain.indexOf(baseId)), baseId].join(" extends ")}`);
    const base = extended(baseId, chain);
    if (!base) return undefined;
    const odd = own.sections.flatMap((s, i) => {
      const there = base.sections.find((each) => each.id === s.id);
      return there && there.kind !== s.kind ? [{ i, s, there }] : [];
    });
    for (const { i, s, there } of odd)
      error(
        ["sections", i, "kind"],
        `"${s.id}" is of kind ${there.kind} in ${base.id}, so ${s.kind} cannot stand in its place; give it another id or that kind`,
      );
    return odd.length > 0 ? undefined : extendGuideline(own, base);
  };
  for (const id of files.keys()) {
    const found = extended(id, []);
    if (found) library.guidelines.set(id, found);
    else {
      library.guidelines.delete(id);
      library.broken.add(id);
    }
  }
};
