import type { Guideline } from "../../interpretation/guideline.ts";
import { isNitrogenTest } from "../../interpretation/nitrogen/nitrateNitrogen.ts";
import { rate } from "../../interpretation/rating.ts";
import { counted } from "../../interpretation/show.ts";
import type { Measurement } from "../../interpretation/measurement.ts";
import { methodLabel, numberLabel } from "../../interpretation/measurement.ts";
import { analyteIds, analytes } from "../../interpretation/vocabulary.ts";
import type { Composite, Farm, Field, Sampling, Zone } from "../../records/model.ts";
import type { CautionView } from "../advice/cautionViews.ts";
import { cautionViews } from "../advice/cautionViews.ts";
import { cropsBySeason } from "../advice/cropWords.ts";
import { awaitedWords, isAwaited } from "../results/awaited.ts";
import type { CationsView } from "./cationsView.ts";
import { cationsView } from "./cationsView.ts";
import { correctionsOf } from "../results/correction.ts";
import { ownTarget } from "../results/ownTarget.ts";
import type { EventQualityView } from "./eventQualityView.ts";
import { eventQualityView } from "./eventQualityView.ts";
import type { Fact } from "../fact.ts";
import type { NitrogenCalled } from "../advice/nitrogenOfSampling.ts";
import { nitrogenOfSampling } from "../advice/nitrogenOfSampling.ts";
import type { ZoneSample } from "../advice/sample.ts";
import { zoneSample } from "../advice/sample.ts";
import { inUnitsOf } from "../units.ts";
import { samplingFacts } from "./samplingFacts.ts";
import type { ResultChange } from "../trends/changes.ts";
import { briefChange, changeOf } from "../trends/changes.ts";
import type { SharedMoves } from "../trends/sharedMoves.ts";
import { sharedMoves } from "../trends/sharedMoves.ts";
import { capital, list, longDate, monthYear, stopped, zonesOrCount } from "../words.ts";
import { fieldAsOf } from "../zonesThen.ts";
import { samplingName } from "../samplingName.ts";

export interface BagHead {
  readonly label: string;
  readonly zone: Zone;
  readonly cores: string;
  readonly note: string | undefined;
}

export interface BagCell {
  readonly value: string;
  /** The value before its correction. */
  readonly was: string | undefined;
  /** The class, the line of the record, and why it was corrected, in one small line. */
  readonly below: string;
  /** What it changed by since the zone's result before it, and whether that is more than noise; empty where it has none. */
  readonly since: string;
}

export interface ResultLine {
  readonly analyte: string;
  readonly method: string;
  /** One a bag, in the order of the heads. */
  readonly cells: readonly BagCell[];
  /** Whose classes, or why there are none. */
  readonly classes: string;
}

export interface SamplingView {
  readonly title: string;
  readonly lede: string;
  readonly facts: readonly Fact[];
  /** How well it was taken for what it was taken for. */
  readonly quality: EventQualityView;
  readonly bags: readonly BagHead[];
  readonly results: readonly ResultLine[];
  /** Of bags too many to stand side by side: the tests of each list that has a line a bag. Empty where one table holds all. */
  readonly lists: readonly (readonly ResultLine[])[];
  readonly missing: string | undefined;
  /** What to beware of before the next samples are taken. */
  readonly cautions: readonly CautionView[];
  readonly cations: CationsView;
  readonly classesNote: string;
  /** What the small lines below a result are, and what its change is counted from. */
  readonly legend: string;
  readonly moves: SharedMoves | undefined;
  /** The chosen guidelines that the classes, or their want, are put down to. */
  readonly guidelines: readonly Guideline[];
  readonly previous: Neighbor | undefined;
  readonly next: Neighbor | undefined;
}

/** The sampling before or after: "routine sampling, 17 October 2023". */
interface Neighbor {
  readonly id: string;
  readonly title: string;
}

const neighbor = (sampling: Sampling | undefined): Neighbor | undefined =>
  sampling && { id: sampling.id, title: `${samplingName(sampling).label}, ${longDate(sampling.date)}` };

/** All that a sampling event's page shows. */
export const samplingView = (site: Farm, today: Field, sampling: Sampling): SamplingView => {
  const farm = inUnitsOf(site, today);
  const field = fieldAsOf(today, sampling.date);
  const sampled = new Set(sampling.composites.map((c) => c.zone));
  const unsampled = field.zones.filter((z) => !sampled.has(z.id));
  const samples = new Map(
    field.zones.flatMap((z) => {
      const found = zoneSample(farm, field, z, sampling);
      return found ? [[z.id, found] as const] : [];
    }),
  );
  const bags = field.zones.flatMap((zone) =>
    sampling.composites.filter((c) => c.zone === zone.id).map((composite) => ({ zone, composite })),
  );
  const index = field.samplings.indexOf(sampling);
  const readFor = cropsBySeason([...samples.values()].flatMap((s) => s.crop ?? [])).map(({ season, words }) => `${words} ${season}`);
  const changes = new Map(
    bags.flatMap(({ zone, composite }) =>
      composite.measurements.flatMap((m): [Measurement, ResultChange][] => {
        const change = changeOf(farm, today, zone, m);
        return change ? [[m, change]] : [];
      }),
    ),
  );
  const results = resultLines(bags, samples, changes, (zone) => nitrogenOfSampling(farm, field, zone, sampling));
  return {
    title: `${capital(samplingName(sampling).label)}, ${longDate(sampling.date)}`,
    lede: lede(field, sampling, sampled.size, unsampled),
    facts: samplingFacts(farm, sampling),
    quality: eventQualityView(site, today, sampling),
    bags: bags.map(({ zone, composite: c }) => ({
      label: c.label,
      zone,
      cores: c.cores === undefined ? "cores not recorded" : counted(c.cores, "core"),
      note: c.note,
    })),
    results,
    lists: bags.length > mostAbreast ? dealt(results) : [],
    missing: unsampled.length > 0 ? `Not sampled in this event: ${zonesOrCount(unsampled, field.zones.length)}.` : undefined,
    cautions: cautionViews([], true),
    cations: sampling.purpose === "routine" ? cationsView(farm, field, samples.values()) : { shown: [], silent: [] },
    classesNote: classesNote(sampling, readFor),
    legend: legend([...changes.values()]),
    moves: sharedMoves(site, sampling),
    guidelines: field.guidelines.filter(({ short }) => results.some(({ classes }) => classes.includes(short))),
    previous: neighbor(field.samplings[index - 1]),
    next: neighbor(field.samplings[index + 1]),
  };
};

/** Columns beside the first that have room on a sheet of paper. */
const mostAbreast = 8;

/** The tests in as many lists as they need, of about one length. */
const dealt = (results: readonly ResultLine[]): ResultLine[][] => {
  const each = Math.ceil(results.length / Math.ceil(results.length / (mostAbreast - 1)));
  return Array.from({ length: Math.ceil(results.length / each) }, (_, i) => results.slice(i * each, (i + 1) * each));
};

/** Whose classes the results bear. `readFor`: the crops after the sampling. */
const classesNote = (sampling: Sampling, readFor: readonly string[]): string => {
  if (sampling.composites.every(isAwaited))
    return "No result yet: every bag is awaited, and until they come back the sampling before goes on speaking.";
  if (readFor.length === 0)
    return "Classes are those of the guidelines chosen today. No crop is on record after this sampling, so classes that depend on the crop are not given.";
  return `Classes are those of the guidelines chosen today, read for the crop after this sampling: ${list(readFor)}. They may differ from what a report said at the time.`;
};

type Samples = ReadonlyMap<string, ZoneSample>;

/** One line an analyte and method, one cell a bag. */
const resultLines = (
  bags: readonly { zone: Zone; composite: Composite }[],
  samples: Samples,
  changes: ReadonlyMap<Measurement, ResultChange>,
  nitrogenIn: (zone: Zone) => NitrogenCalled | undefined,
): ResultLine[] => {
  const columns = bags.map(({ zone, composite }) => ({ zone, byTest: new Map(composite.measurements.map((m) => [testKey(m), m])) }));
  const tests = new Map<string, Measurement>();
  for (const { byTest } of columns) for (const [key, m] of byTest) if (!tests.has(key)) tests.set(key, m);
  return analyteIds.flatMap((analyte) =>
    [...tests]
      .filter(([, test]) => test.analyte === analyte)
      .map(([key, test]): ResultLine => {
        const reasons = new Set<string>();
        const cells = columns.map(({ zone, byTest }): BagCell => {
          const m = byTest.get(key);
          if (!m) return { value: byTest.size === 0 ? "awaited" : "not tested", was: undefined, below: "", since: "" };
          const change = changes.get(m);
          const { outcome, pack } = rate(samples.get(zone.id)!.sample, m);
          const called = isNitrogenTest(m) ? nitrogenIn(zone) : undefined;
          reasons.add(called?.by ?? (outcome.kind === "answer" ? (pack?.short ?? ownTarget) : `no class: ${outcome.because}`));
          const [fix] = correctionsOf(m);
          return {
            value: numberLabel(m),
            was: fix?.was,
            below: [
              called ? called.rate : outcome.kind === "answer" && outcome.value.band,
              `line\u00a0${m.origin.line}`,
              fix && `corrected: ${fix.why}`,
            ]
              .filter(Boolean)
              .join(", "),
            since: change ? `${change.ofMean ? "mean: " : ""}${briefChange(change, m)}` : "",
          };
        });
        const unit = test.unit === "pH" ? "" : `, ${test.unit}`;
        return { analyte: `${analytes[analyte].label}${unit}`, method: methodLabel(test), cells, classes: [...reasons].join("; ") };
      }),
  );
};

const legend = (changes: readonly ResultChange[]): string => {
  const lines = "The small line below a number is its class and the line of the record it stands on";
  const days = changes.map((c) => c.before.date).sort();
  const [first, last] = [days[0], days.at(-1)];
  if (first === undefined || last === undefined) return `${lines}.`;
  const months = monthYear(first) === monthYear(last) ? monthYear(last) : `${monthYear(first)} to ${monthYear(last)}`;
  return `${lines}; the one below that, its change since the zone's last comparable result, of ${months}. Noise is what two samples of one soil differ by.`;
};

const testKey = (m: Measurement): string => `${m.analyte} ${m.unit} ${methodLabel(m)}`;

const lede = (field: Field, sampling: Sampling, zones: number, unsampled: readonly Zone[]): string => {
  const bags = sampling.composites.length;
  const awaited = awaitedWords(sampling);
  const scope = unsampled.length === 0 ? "every zone" : `${zones} of ${field.zones.length} zones`;
  const doubles = bags > zones ? `, ${bags - zones} of them ${bags - zones === 1 ? "a duplicate" : "duplicates"}` : "";
  return stopped(
    `${field.name}, ${scope}: ${bags} ${bags === 1 ? "bag" : "bags"}${doubles}, sent to ${sampling.lab.name}${awaited === undefined ? "" : `; ${awaited}`}`,
  );
};
