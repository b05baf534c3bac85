import { isMovedByLime } from "../../interpretation/comparable.ts";
import type { Measurement } from "../../interpretation/measurement.ts";
import { printedStep } from "../../interpretation/measurement.ts";
import type { Outcome } from "../../interpretation/outcome.ts";
import { seasonLabel, seasonName, seasonOf, seasonYear } from "../../interpretation/season.ts";
import type { CommonShift, PlaceChange } from "../../interpretation/statistics/commonShift.ts";
import { commonShift, fewestPlaces } from "../../interpretation/statistics/commonShift.ts";
import { analyteIds, analyteInSentence, analytes } from "../../interpretation/vocabulary.ts";
import type { Farm, Sampling } from "../../records/model.ts";
import type { StepRow } from "../steps.ts";
import { stepRows } from "../steps.ts";
import { capital, list, numberWord } from "../words.ts";
import { everyZone } from "../zonesThen.ts";
import { changesOf } from "./changes.ts";
import { limings } from "./sinceLime.ts";
import { finely, leastBeside } from "./trendWords.ts";

/** Whether what a laboratory tested in one season moved in all zones of the farm at once. */
export interface SharedMoves {
  readonly found: boolean;
  readonly says: readonly string[];
  /** The sum behind each test that could be looked at; a page shows those of a move that was found. */
  readonly sums: readonly { readonly name: string; readonly found: boolean; readonly steps: readonly StepRow[] }[];
}

/** The changes of all zones by one test of one laboratory in one season, and what they are rounded to. */
interface Run {
  readonly test: Measurement;
  readonly changes: PlaceChange[];
  readonly results: Measurement[];
  /** What the seasons are called that the results are of: autumn and winter make one run. */
  readonly seasons: Set<ReturnType<typeof seasonName>>;
  /** Were zones left out because they were limed in between? */
  limed: boolean;
  /** Are there changes since a result of another laboratory? */
  fromAnother: boolean;
  /** What the changes say, by the number of tests that are looked at in one go; worked out once for all pages that ask. */
  readonly shifts: Map<number, Outcome<CommonShift>>;
}

const runKey = (m: Measurement): string =>
  [m.lab, seasonYear(m.date), seasonOf(m.date), m.analyte, m.method, m.finish, m.preparation, m.unit].join(" ");

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
      const latest = new Map<string, { test: Measurement; before: Measurement; change: PlaceChange | undefined }>();
      for (const analyte of analyteIds)
        for (const [m, { before, change, judged }] of changesOf(farm, field, analyte, [zone])) {
          if (m.purpose === "nitrate") continue;
          // What lime moves says nothing of the run where a zone was limed in between.
          const limed = isMovedByLime(analyte) && limes.some(({ date }) => before.date <= date && date < m.date);
          const sd = judged.kind === "answer" ? Math.hypot(...judged.value.sds) : 0;
          latest.set(runKey(m), { test: m, before, change: limed ? undefined : { change, sd } });
        }
      for (const [key, { test, before, change }] of latest) {
        const run: Run = runs.get(key) ?? {
          test,
          changes: [],
          results: [],
          seasons: new Set(),
          limed: false,
          fromAnother: false,
          shifts: new Map(),
        };
        runs.set(key, run);
        if (!change) {
          run.limed = true;
          continue;
        }
        run.changes.push(change);
        run.results.push(test);
        run.seasons.add(seasonName(test.date));
        run.fromAnother ||= before.lab !== test.lab;
      }
    }
  return runs;
};

/** Each sampling's page asks of runs that hold every zone of the farm. */
const shiftOf = ({ changes, results, shifts }: Run, tests: number): Outcome<CommonShift> => {
  let shift = shifts.get(tests);
  if (!shift) shifts.set(tests, (shift = commonShift(changes, tests, printedStep(results))));
  return shift;
};

/** "autumn 2023", or "autumn and winter 2023–24" where the laboratory tested in both. */
const seasonOfRuns = (date: string, runs: readonly Run[]): string => {
  const names = new Set([seasonName(date), ...runs.flatMap((r) => [...r.seasons])]);
  return names.size > 1 ? `autumn and ${seasonLabel("winter", seasonYear(date))}` : seasonLabel(seasonName(date), seasonYear(date));
};

/** Nothing for a nitrate sampling, whose results are the weather's, where no result has one before it, and on a farm of one zone. */
export const sharedMoves = (farm: Farm, sampling: Sampling): SharedMoves | undefined => {
  const keys = new Set(sampling.composites.flatMap((c) => c.measurements.map(runKey)));
  const runs = [...keys].flatMap((key) => runsOf(farm).get(key) ?? []);
  const oneZone = farm.fields.length === 1 && everyZone(farm.fields[0]!).length === 1 && !farm.withheld?.someFields;
  if (sampling.purpose === "nitrate" || runs.length === 0 || oneZone) return undefined;
  const enough = runs.filter((r) => r.changes.length >= fewestPlaces);
  const where = `${sampling.lab.name} tested in ${seasonOfRuns(sampling.date, runs)}`;
  const shown = farm.withheld?.someFields ? "shown here " : "";
  const limed = runs.filter((r) => r.limed);
  const leftOut =
    limed.length === 0
      ? []
      : [`${capital(namesOf(limed))} ${limed.length === 1 ? "is" : "are"} not looked at in zones that were limed in between.`];
  if (enough.length === 0)
    return {
      found: false,
      says: [
        `Whether all zones moved at once, as a laboratory's run or a dry year moves them, cannot be told: of those ${shown}that ${where}, fewer than ${numberWord(fewestPlaces)} can be set beside what was found there before.`,
        ...leftOut,
      ],
      sums: [],
    };
  const looked = enough.flatMap((run) => {
    const outcome = shiftOf(run, enough.length);
    return outcome.kind === "answer" ? [{ run, shift: outcome.value, steps: outcome.steps }] : [];
  });
  const found = looked.filter(({ shift }) => shift.beyondChance);
  const zones = `the ${shown === "" ? "farm's zones" : "zones shown here"} that ${where}`;
  const another = found.some(({ run }) => run.fromAnother) ? "another laboratory than before, " : "";
  const told =
    found.length === 0
      ? [`${capital(zones)} did not move together in ${namesOf(enough, "or")} by more than chance makes.`]
      : [
          `In ${zones}, beside what was found there before: ${found.map(({ run, shift }) => moveWords(run, shift)).join("; ")}.`,
          `What moves all zones at once is in no zone's noise: ${another}a laboratory's run, a dry year, or what was spread and taken off everywhere. Where the last does not explain it, ask the laboratory soon to run some bags again, as it keeps them only for a while. By chance alone up to one season in twenty looks like that.`,
        ];
  return {
    found: found.length > 0,
    says: [...told, ...leftOut],
    sums: looked.map(({ run, shift, steps }) => ({
      name: analytes[run.test.analyte].label,
      found: shift.beyondChance,
      steps: stepRows(steps, farm.references),
    })),
  };
};

const namesOf = (runs: readonly Run[], last?: string): string =>
  list([...new Set(runs.map(({ test }) => analyteInSentence(test.analyte)))], last);

/** "potassium went down in eight of nine, by 18.2 ppm on average, more than chance makes (9.4 ppm)" */
const moveWords = ({ test }: Run, { places, mean, along, least }: CommonShift): string => {
  const zones = along === places ? `all ${numberWord(places)}` : `${numberWord(along)} of ${numberWord(places)}`;
  return `${analyteInSentence(test.analyte)} went ${mean < 0 ? "down" : "up"} in ${zones}, by ${finely(mean, test)} on average, more than chance makes (${leastBeside({ change: mean, least }, test)})`;
};
