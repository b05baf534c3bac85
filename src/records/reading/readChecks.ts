import { CORE_SCHEMA, load } from "js-yaml";
import type { Guideline } from "../../interpretation/guideline.ts";
import { Folder, isFolder } from "../folder.ts";
import { fileNamed } from "../judges.ts";
import { Problems, RecordError } from "../problem.ts";
import { readLibrary } from "./readLibrary.ts";

/** A file of published check values, as it is written. */
export interface CheckFile {
  /** Without its ending. */
  readonly name: string;
  readonly raw: Readonly<Record<string, unknown>>;
}

export interface Checks {
  readonly files: readonly CheckFile[];
  /** The installation's guidelines, which the check values are about; a farm's own edition of one is not what was checked. */
  readonly packs: ReadonlyMap<string, Guideline>;
}

/**
 * The check values that the installation ships with its tests, and the guidelines they check. Empty where the tests were
 * left out. The many values share few sources, so anchors, which records must not hold, are allowed here.
 */
export const readChecks = (cases: string, library: string): Checks => {
  const problems = new Problems();
  const packs = readLibrary([new Folder(library, problems, "installed:")], problems).guidelines;
  const folder = isFolder(cases) ? new Folder(cases, problems) : undefined;
  const names =
    folder?.list(
      "",
      fileNamed((name) => name.endsWith(".yaml"), "a file of check values"),
    ) ?? [];
  const files = names.map((name): CheckFile => ({
    name: name.replace(/\.yaml$/, ""),
    raw: load(folder!.read(name) ?? "", { schema: CORE_SCHEMA }) as Record<string, unknown>,
  }));
  if (problems.errors.length > 0) throw new RecordError(problems.errors);
  return { files, packs };
};
