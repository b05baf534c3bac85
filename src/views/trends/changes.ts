import type { Measurement } from "../../interpretation/measurement.ts";
import type { Outcome } from "../../interpretation/outcome.ts";
import type { Change } from "../../interpretation/statistics/change.ts";
import { changeBetween } from "../../interpretation/statistics/change.ts";
import type { AnalyteId } from "../../interpretation/vocabulary.ts";
import type { Farm, Field, Zone } from "../../records/model.ts";
import type { ComparableHistory } from "./history.ts";
import { zoneHistory } from "./history.ts";
import { finely, leastFigure } from "./trendWords.ts";

/** A result's change from the one before it in its series, judged against the noise. */
export interface ResultChange {
  readonly before: Measurement;
  readonly change: number;
  /** Is it the mean of several bags that changed? */
  readonly ofMean: boolean;
  readonly judged: Outcome<Change>;
}

const changed = (change: number, size: string): string => (change === 0 ? "no change" : `${change < 0 ? "−" : "+"}${size}`);

const besideNoise = ({ beyondNoise }: Change): string => `${beyondNoise ? "more than" : "within"} noise`;

/** "−24 ppm, within noise (38 ppm)" */
export const changeWords = ({ change, judged }: ResultChange, m: Measurement): string => {
  const step = changed(change, finely(change, m));
  return judged.kind === "noAnswer" ? step : `${step}, ${besideNoise(judged.value)} (${leastFigure(judged.value, m)})`;
};

/** "−24, within noise": where the unit is told already. */
export const briefChange = ({ change, judged }: ResultChange, { analyte }: Measurement): string =>
  [changed(change, finely(change, { analyte, unit: "pH" })), change !== 0 && judged.kind === "answer" && besideNoise(judged.value)]
    .filter(Boolean)
    .join(", ");

type Changes = ReadonlyMap<Measurement, ResultChange>;

const known = new WeakMap<ComparableHistory, Changes>();

/** The changes within one series, worked out once. A mean of bags is told of at its first bag. */
const changesWithin = (history: ComparableHistory): Changes => {
  let changes = known.get(history);
  if (changes) return changes;
  const { measurements, between } = history;
  const found = measurements.flatMap((m, i): [Measurement, ResultChange][] => {
    const before = measurements[i - 1];
    return before && !before.qualifier && !m.qualifier
      ? [
          [
            m.bags?.[0] ?? m,
            { before, change: m.value - before.value, ofMean: m.bags !== undefined, judged: changeBetween(before, m, between(before, m)) },
          ],
        ]
      : [];
  });
  known.set(history, (changes = new Map(found)));
  return changes;
};

export const changesOf = (farm: Farm, field: Field, analyte: AnalyteId, zones: readonly Zone[]): Map<Measurement, ResultChange> =>
  new Map(zones.flatMap((zone) => zoneHistory(farm, field, zone, analyte).flatMap((history) => [...changesWithin(history)])));

/** A result's change; of several bags of a zone and day it is told at the first. */
export const changeOf = (farm: Farm, field: Field, zone: Zone, m: Measurement): ResultChange | undefined => {
  for (const history of zoneHistory(farm, field, zone, m.analyte)) {
    const found = changesWithin(history).get(m);
    if (found) return found;
  }
  return undefined;
};
