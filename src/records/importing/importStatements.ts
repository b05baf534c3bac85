import type { Field, Sampling } from "../model.ts";
import type { Place } from "../place.ts";
import type { Problems } from "../problem.ts";

/** What a laboratory's file says of its own work, and where it stands in a sampling's record. */
export const statementPlaces = {
  receivedOn: ["handling", "receivedOn"],
  reportedOn: ["handling", "reportedOn"],
  number: ["report", "number"],
} as const;
export type StatementId = keyof typeof statementPlaces;
export const statementIds = Object.keys(statementPlaces) as StatementId[];

export type Statement = Readonly<Partial<Record<StatementId, string>>>;

/** What an import would add to one sampling beside its results. */
export interface StatementImport {
  readonly field: Field;
  readonly sampling: Sampling;
  readonly said: Statement;
}

const recorded = ({ handling, report }: Sampling, id: StatementId): string | undefined => (id === "number" ? report?.number : handling[id]);

/** A cell may hold a whole page. */
const shown = (text: string): string => text.slice(0, 40);

/** One cell that says so, of a bag of `sampling`. */
export interface Stated {
  readonly field: Field;
  readonly sampling: Sampling;
  readonly id: StatementId;
  readonly text: string;
  readonly header: string;
  readonly place: Place;
}

/**
 * What is to be written of all that the rows of a file state. What the record has otherwise is left as it is, and so is what two bags of
 * one sampling have differently: either is told, and holds up no result.
 */
export const statementsOf = (stated: readonly Stated[], file: string, problems: Problems): StatementImport[] => {
  const bySampling = Map.groupBy(stated, (s) => s.sampling);
  return [...bySampling].flatMap(([sampling, all]) => {
    const said = statementIds.flatMap((id): [StatementId, string][] => {
      const [first, ...others] = all.filter((s) => s.id === id);
      if (!first) return [];
      const warn = ({ place, header }: Stated, message: string): [] => (problems.warn(file, place, header, message), []);
      const other = others.find((s) => s.text !== first.text);
      if (other)
        return warn(
          other,
          `is ${shown(other.text)}, and ${shown(first.text)} in line ${first.place.line} for a bag of the same sampling; neither is written`,
        );
      const old = recorded(sampling, id);
      if (old === undefined) return [[id, first.text]];
      return old === first.text
        ? []
        : warn(first, `is ${shown(first.text)}, and ${sampling.file} says ${old}; the record is left as it is`);
    });
    return said.length > 0 ? [{ field: all[0]!.field, sampling, said: Object.fromEntries(said) }] : [];
  });
};
