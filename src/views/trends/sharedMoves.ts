import { seasonOf } from "../../interpretation/comparable.ts";
import type { Measurement } from "../../interpretation/measurement.ts";
import { printedStep } from "../../interpretation/measurement.ts";
import type { Outcome } from "../../interpretation/outcome.ts";
import type { CommonShift, PlaceChange } from "../../interpretation/statistics/commonShift.ts";
import { commonShift, fewestPlaces } from "../../interpretation/statistics/commonShift.ts";
import type { AnalyteId } from "../../interpretation/vocabulary.ts";
import { analyteIds, analyteInSentence, analytes } from "../../interpretation/vocabulary.ts";
import type { Farm, Sampling } from "../../records/model.ts";
import type { StepRow } from "../steps.ts";
import { stepRows } from "../steps.ts";
import { numberWord } from "../words.ts";
import { everyZone } from "../zonesThen.ts";
import { changesOf } from "./changes.ts";
import { limings } from "./sinceLime.ts";
import { finely, leastBeside } from "./trendWords.ts";

/** Whether what a laboratory tested in one season moved in all zones of the farm at once. */
export interface SharedMoves {
  readonly found: boolean;
  readonly says: readonly string[];
  /** The sum behind each test that could be looked at. */
  readonly sums: readonly { readonly name: string; readonly steps: readonly StepRow[] }[];
}

/** The changes of all zones by one test of one laboratory in one season, and what they are rounded to. */
interface Run {
  readonly test: Measurement;
  readonly changes: PlaceChange[];
  readonly results: Measurement[];
}

/** Lime moves these by itself, and so a zone that was limed in between says nothing of the run. */
const movedByLime: readonly AnalyteId[] = ["pH", "bufferPh", "exchangeableAcidity", "Al", "Ca", "Mg"];

const runKey = (m: Measurement): string =>
  [m.lab, m.date.slice(0, 4), seasonOf(m.date), m.analyte, m.method, m.finish, m.preparation].join(" ");

const known = new WeakMap<Farm, Map<string, Run>>();

/** Every run of the farm, from one walk through it: all pages of samplings ask of the same runs. */
const runsOf = (farm: Farm): Map<string, Run> => {
  let runs = known.get(farm);
  if (runs) return runs;
  known.set(farm, (runs = new Map<string, Run>()));
  for (const field of farm.fields)
    for (const zone of everyZone(field)) {
      const limes = limings(field, zone);
      // A zone that was sampled twice in a season is counted once, as it was at last.
      const latest = new Map<string, { test: Measurement; change: PlaceChange }>();
      for (const analyte of analyteIds)
        for (const [m, { before, change, judged }] of changesOf(farm, field, analyte, [zone])) {
          if (m.purpose === "nitrate") continue;
          if (movedByLime.includes(analyte) && limes.some(({ date }) => before.date <= date && date < m.date)) continue;
          latest.set(runKey(m), { test: m, change: { change, sd: judged.kind === "answer" ? Math.hypot(...judged.value.sds) : 0 } });
        }
      for (const [key, { test, change }] of latest) {
        const run = runs.get(key) ?? { test, changes: [], results: [] };
        runs.set(key, run);
        run.changes.push(change);
        run.results.push(test);
      }
    }
  return runs;
};

interface Looked {
  readonly run: Run;
  readonly outcome: Outcome<CommonShift>;
}

/** Nothing for a nitrate sampling, whose results are the weather's, and where no result has one before it. */
export const sharedMoves = (farm: Farm, sampling: Sampling): SharedMoves | undefined => {
  const keys = new Set(sampling.composites.flatMap((c) => c.measurements.map(runKey)));
  const runs = [...keys].flatMap((key) => runsOf(farm).get(key) ?? []);
  if (sampling.purpose === "nitrate" || runs.length === 0) return undefined;
  const enough = runs.filter((r) => r.changes.length >= fewestPlaces);
  const where = `${sampling.lab.name} tested in ${seasonOf(sampling.date)} ${sampling.date.slice(0, 4)}`;
  if (enough.length === 0)
    return {
      found: false,
      says: [
        `Whether all zones moved at once, as a laboratory's run or a dry year moves them, cannot be told: of those that ${where}, fewer than ${numberWord(fewestPlaces)} can be set beside what was found there before.`,
      ],
      sums: [],
    };
  const looked = enough.map((run): Looked => ({ run, outcome: commonShift(run.changes, enough.length, printedStep(run.results)) }));
  const found = looked.flatMap(({ run, outcome }) =>
    outcome.kind === "answer" && outcome.value.beyondChance ? [moveWords(run, outcome.value)] : [],
  );
  return {
    found: found.length > 0,
    says:
      found.length === 0
        ? [`In the farm's zones that ${where}, no test moved all at once by more than chance makes.`]
        : [
            `In the farm's zones that ${where}, beside what was found there before: ${found.join("; ")}.`,
            "What moves all zones at once is in no zone's noise: a laboratory's run, a dry year, or what was spread and taken off everywhere. Where the last does not explain it, ask the laboratory soon to run some bags again, as it keeps them only for a while. By chance alone up to one season in twenty looks like that.",
          ],
    sums: looked.map(({ run, outcome }) => ({
      name: analytes[run.test.analyte].label,
      steps: outcome.kind === "answer" ? stepRows(outcome.steps, farm.references) : [],
    })),
  };
};

/** "potassium went down in eight of nine, by 18.2 ppm on average, more than chance makes (9.4 ppm)" */
const moveWords = ({ test }: Run, { places, mean, along, least }: CommonShift): string => {
  const zones = along === places ? `all ${numberWord(places)}` : `${numberWord(along)} of ${numberWord(places)}`;
  return `${analyteInSentence(test.analyte)} went ${mean < 0 ? "down" : "up"} in ${zones}, by ${finely(mean, test)} on average, more than chance makes (${leastBeside({ change: mean, least }, test)})`;
};
