import { isNitrate } from "../interpretation/nitrateNitrogen.ts";
import { rate } from "../interpretation/rating.ts";
import type { Measurement } from "../interpretation/measurement.ts";
import { methodLabel, numberLabel } from "../interpretation/measurement.ts";
import type { Outcome } from "../interpretation/outcome.ts";
import { plain, show } from "../interpretation/show.ts";
import { analyteIds, analytes, crops, purposes } from "../interpretation/vocabulary.ts";
import { sharesOfBases, shortBase } from "../interpretation/rules/baseShare.ts";
import { sumCations } from "../interpretation/rules/cationSum.ts";
import type { Cations } from "../interpretation/rules/cationSum.ts";
import { sectionsOf } from "../interpretation/guideline.ts";
import type { Composite, Farm, Field, Sampling, Zone } from "../records/model.ts";
import type { CautionView } from "./adviceView.ts";
import { cautionViews } from "./adviceView.ts";
import { awaitedWords, isAwaited } from "./awaited.ts";
import { correctionsOf } from "./correction.ts";
import type { EventQualityView } from "./eventQualityView.ts";
import { eventQualityView } from "./eventQualityView.ts";
import type { Fact } from "./fact.ts";
import type { NitrogenCalled } from "./nitrogenOfSampling.ts";
import { nitrogenOfSampling } from "./nitrogenOfSampling.ts";
import type { ZoneSample } from "./sample.ts";
import { zoneSample } from "./sample.ts";
import type { StepRow } from "./steps.ts";
import { stepRows } from "./steps.ts";
import { depth, inUnitsOf, money } from "./units.ts";
import { capital, list, longDate, stopped } from "./words.ts";
import { fieldAsOf } from "./zonesThen.ts";

export interface BagHead {
  readonly label: string;
  readonly zone: string;
  readonly letter: string;
  readonly cores: string;
  readonly note: string | undefined;
}

export interface BagCell {
  readonly value: string;
  /** The value before its correction. */
  readonly was: string | undefined;
  /** The class, the line of the record, and why it was corrected, in one small line. */
  readonly below: string;
}

export interface ResultLine {
  readonly analyte: string;
  readonly method: string;
  /** One a bag, in the order of the heads. */
  readonly cells: readonly BagCell[];
  /** Whose classes, or why there are none. */
  readonly classes: string;
}

/** The sums, and one sentence for each reason why some zones have none. */
export interface CationsView {
  readonly shown: readonly CationView[];
  readonly silent: readonly string[];
}

interface CationView {
  readonly zone: string;
  readonly facts: readonly Fact[];
  /** A base that may be short beside the others. */
  readonly short: readonly string[];
  readonly steps: readonly StepRow[];
}

export interface SamplingView {
  readonly title: string;
  readonly lede: string;
  readonly facts: readonly Fact[];
  /** How well it was taken for what it was taken for. */
  readonly quality: EventQualityView;
  readonly bags: readonly BagHead[];
  readonly results: readonly ResultLine[];
  readonly missing: string | undefined;
  /** What to beware of before the next samples are taken. */
  readonly cautions: readonly CautionView[];
  readonly cations: CationsView;
  readonly classesNote: string;
  readonly previous: Neighbor | undefined;
  readonly next: Neighbor | undefined;
}

/** The sampling before or after: "routine sampling, 17 October 2023". */
interface Neighbor {
  readonly id: string;
  readonly title: string;
}

const neighbor = (sampling: Sampling | undefined): Neighbor | undefined => sampling && { id: sampling.id, title: `${purposes[sampling.purpose].label}, ${longDate(sampling.date)}` };

/** All that a sampling event's page shows. */
export const samplingView = (site: Farm, today: Field, sampling: Sampling): SamplingView => {
  const farm = inUnitsOf(site, today);
  const field = fieldAsOf(today, sampling.date);
  const sampled = new Set(sampling.composites.map((c) => c.zone));
  const unsampled = field.zones.filter((z) => !sampled.has(z.id)).map((z) => z.name);
  const samples = new Map(field.zones.flatMap((z) => {
    const found = zoneSample(farm, field, z, sampling);
    return found ? [[z.id, found] as const] : [];
  }));
  const bags = field.zones.flatMap((zone) => sampling.composites.filter((c) => c.zone === zone.id).map((composite) => ({ zone, composite })));
  const index = field.samplings.indexOf(sampling);
  const readFor = [...new Set([...samples.values()].flatMap((s) => (s.crop ? `${crops[s.crop.crop].label} ${s.crop.season}` : [])))];
  return {
    title: `${capital(purposes[sampling.purpose].label)}, ${longDate(sampling.date)}`,
    lede: lede(field, sampling, sampled.size, unsampled),
    facts: facts(farm, sampling),
    quality: eventQualityView(site, today, sampling),
    bags: bags.map(({ zone, composite: c }) => ({
      label: c.label,
      zone: zone.name,
      letter: zone.letter,
      cores: c.cores === undefined ? "cores not recorded" : `${c.cores} cores`,
      note: c.note,
    })),
    results: resultLines(bags, samples, (zone) => nitrogenOfSampling(farm, field, zone, sampling)),
    missing: unsampled.length > 0 ? `Not sampled in this event: ${list(unsampled)}.` : undefined,
    cautions: cautionViews([], true),
    cations: sampling.purpose === "routine" ? cations(farm, field, samples) : { shown: [], silent: [] },
    classesNote:
      sampling.composites.every(isAwaited)
        ? "No result yet: every bag is awaited, and until they come back the sampling before goes on speaking."
        : readFor.length > 0
        ? `Classes are those of the guidelines chosen today, read for the crop after this sampling: ${list(readFor)}. They may differ from what a report said at the time.`
        : "Classes are those of the guidelines chosen today. No crop is on record after this sampling, so classes that depend on the crop are not given.",
    previous: neighbor(field.samplings[index - 1]),
    next: neighbor(field.samplings[index + 1]),
  };
};

type Samples = ReadonlyMap<string, ZoneSample>;

/** One line an analyte and method, one cell a bag. */
const resultLines = (bags: readonly { zone: Zone; composite: Composite }[], samples: Samples, nitrogenIn: (zone: Zone) => NitrogenCalled | undefined): ResultLine[] => {
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
          if (!m) return { value: byTest.size === 0 ? "awaited" : "not tested", was: undefined, below: "" };
          const { outcome, pack } = rate(samples.get(zone.id)!.sample, m);
          const called = isNitrate(m) ? nitrogenIn(zone) : undefined;
          reasons.add(called?.by ?? (outcome.kind === "answer" ? (pack?.short ?? "") : `no class: ${outcome.because}`));
          const [fix] = correctionsOf(m);
          return {
            value: numberLabel(m),
            was: fix?.was,
            below: [called ? called.rate : outcome.kind === "answer" && outcome.value.band, `line\u00a0${m.origin.line}`, fix && `corrected: ${fix.why}`].filter(Boolean).join(", "),
          };
        });
        const unit = test.unit === "pH" ? "" : `, ${test.unit}`;
        return { analyte: `${analytes[analyte].label}${unit}`, method: methodLabel(test), cells, classes: [...reasons].join("; ") };
      }),
  );
};

const testKey = (m: Measurement): string => `${m.analyte} ${m.unit} ${methodLabel(m)}`;

const lede = (field: Field, sampling: Sampling, zones: number, unsampled: readonly string[]): string => {
  const bags = sampling.composites.length;
  const awaited = awaitedWords(sampling);
  const scope = unsampled.length === 0 ? "every zone" : `${zones} of ${field.zones.length} zones`;
  const doubles = bags > zones ? `, ${bags - zones} of them ${bags - zones === 1 ? "a duplicate" : "duplicates"}` : "";
  return stopped(`${field.name}, ${scope}: ${bags} ${bags === 1 ? "bag" : "bags"}${doubles}, sent to ${sampling.lab.name}${awaited === undefined ? "" : `; ${awaited}`}`);
};

const facts = (farm: Farm, sampling: Sampling): Fact[] => {
  const { handling } = sampling;
  const offered = sampling.lab.packages[sampling.packageId]!;
  const all: (Fact | undefined)[] = [
    { term: "Depth", value: depth(sampling.depth, farm.units) },
    { term: "Package", value: `${offered.name}${offered.fee === undefined ? "" : `, ${money(offered.fee, farm.currency)} a bag`}` },
    handling.tool ? { term: "Tool", value: handling.tool } : undefined,
    handling.pail ? { term: "Mixed in", value: `a ${handling.pail} pail` } : undefined,
    handling.bag ? { term: "Sent in", value: `${handling.bag} bags` } : undefined,
    handling.moisture ? { term: "Soil was", value: handling.moisture } : undefined,
    handling.keeping ? { term: "Bags kept", value: handling.keeping } : undefined,
    handling.receivedOn ? { term: "At the laboratory", value: longDate(handling.receivedOn) } : undefined,
    handling.reportedOn ? { term: "Reported", value: longDate(handling.reportedOn) } : undefined,
    ...nitrateFacts(sampling),
    { term: "Record", value: sampling.file },
  ];
  return all.filter((f): f is Fact => f !== undefined);
};

/** What a nitrate rule asks of its sampling, as recorded. */
const nitrateFacts = ({ nitrate }: Sampling): Fact[] => {
  if (!nitrate) return [];
  const { cropHeight, hoursToLab, rainOfNormal, daysSinceRain, plannedNitrogen } = nitrate;
  const all: (Fact | undefined)[] = [
    cropHeight && { term: "Height of the crop", value: `${plain(cropHeight.value)} ${cropHeight.unit}` },
    hoursToLab === undefined ? undefined : { term: "Time to the laboratory", value: `${plain(hoursToLab)} hours` },
    rainOfNormal === undefined ? undefined : { term: "Rain since April 1", value: `${plain(rainOfNormal)}% of normal` },
    daysSinceRain === undefined ? undefined : { term: "Since heavy rain", value: `${plain(daysSinceRain)} days` },
    plannedNitrogen && { term: "Nitrogen planned before", value: `${plain(plannedNitrogen.value)} ${plannedNitrogen.unit}` },
  ];
  return all.filter((f): f is Fact => f !== undefined);
};

const cations = (farm: Farm, field: Field, samples: Samples): CationsView => {
  const rule = field.guidelines.flatMap((g) => sectionsOf(g, "cationSum"))[0];
  if (!rule) return { shown: [], silent: [] };
  const silent = new Map<string, string[]>();
  const shown = [...samples.values()].flatMap(({ zone, sample }): CationView[] => {
    const outcome: Outcome<Cations> = sumCations(rule, sample.measurements);
    if (outcome.kind === "noAnswer") {
      silent.set(outcome.because, [...(silent.get(outcome.because) ?? []), zone.name]);
      return [];
    }
    const { cec, saturation, baseSaturation, acidity } = outcome.value;
    const short = field.guidelines.flatMap((g) => sectionsOf(g, "baseShare")).flatMap((each) => shortBase(each, sharesOfBases(outcome.value)) ?? []);
    const shares = Object.entries(saturation).map(([base, percent]) => ({ term: base, value: `${show(percent, 0)}%` }));
    return [{
      zone: zone.name,
      facts: [
        { term: "CEC, meq/100 g", value: show(cec, 1) },
        ...shares,
        { term: "Acidity", value: `${show((100 * acidity) / cec, 0)}%` },
        { term: "Base saturation", value: `${show(baseSaturation, 0)}%` },
      ],
      short: short.map((s) => `${s.what}. ${capital(s.result)}.`),
      steps: stepRows([...outcome.steps, ...short], farm.references),
    }];
  });
  return { shown, silent: [...silent].map(([because, zones]) => `No sum of cations for ${list(zones)}, because ${because}.`) };
};
