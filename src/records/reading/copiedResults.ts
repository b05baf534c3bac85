import type { Field, Sampling } from "../model.ts";
import { start } from "../place.ts";
import type { Problems } from "../problem.ts";

/** So many results do not come out the same twice: of fewer, such as the soil pH of three zones, it may be chance. */
const fewestResults = 6;

/** Every result of a sampling, in an order of its own. */
const resultsOf = ({ composites }: Sampling): string[] =>
  composites.flatMap((c) => c.measurements.map((m) => `${c.zone} ${m.analyte} ${m.qualifier ?? ""}${m.value} ${m.unit}`)).sort();

/** Warn of a sampling whose results are all those of an earlier one of its field: its file was copied, and the old numbers left in it. */
export const warnOfCopiedResults = (fields: readonly Field[], problems: Problems): void => {
  for (const field of fields) {
    const seen = new Map<string, Sampling>();
    for (const sampling of field.samplings) {
      const results = resultsOf(sampling);
      if (results.length < fewestResults) continue;
      const key = results.join("\n");
      const earlier = seen.get(key);
      if (earlier)
        problems.warn(
          sampling.file,
          start,
          "composites",
          `all ${results.length} results are those of ${earlier.file}; were they left in a copy of it?`,
        );
      else seen.set(key, sampling);
    }
  }
};
