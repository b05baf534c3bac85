import { whyNotComparable } from "../../interpretation/comparable.ts";
import type { Measurement } from "../../interpretation/measurement.ts";
import { meanOfBags } from "../../interpretation/measurement.ts";
import type { AreaResult, AreaResults, AreasCompared } from "../../interpretation/statistics/areas.ts";
import { compareAreas } from "../../interpretation/statistics/areas.ts";
import type { MergeVerdict } from "../../interpretation/statistics/equivalence.ts";
import type { Outcome } from "../../interpretation/outcome.ts";
import type { AnalyteId } from "../../interpretation/vocabulary.ts";
import { analyteIds, analyteInSentence } from "../../interpretation/vocabulary.ts";
import type { Farm, Field, Sampling, Zone } from "../../records/model.ts";
import type { Classed, OneClass } from "./oneClass.ts";
import { oneClass } from "./oneClass.ts";
import { adviceNow } from "../advice/sample.ts";
import { bagsSaved } from "./bagCounts.ts";
import { isAnswered, isAwaited } from "../results/awaited.ts";
import { analyteWords, areasWords, isAlike } from "./equivalenceWords.ts";
import { fewestCores, fieldNoise, marginRules } from "../trends/history.ts";
import { zoneMeasurements } from "../results/zoneMeasurements.ts";
import { zonesInPairs } from "./zonesInPairs.ts";
import type { StepRow } from "../steps.ts";
import { stepRows } from "../steps.ts";
import type { Words } from "../trends/trendWords.ts";
import { listedPrice } from "../units.ts";
import { capital, count, list } from "../words.ts";

/** Two zones of a field: may they share a bag next time? */
export interface ZonePair {
  readonly zones: readonly [Zone, Zone];
  readonly verdict: MergeVerdict | "cannot be said";
  readonly words: Words;
  /** A limit is lacking, without which no number of bags would call them alike. */
  readonly wantsLimit: boolean;
  /** What one bag less saves, where they may share one and the fee is known. */
  readonly saves: string | undefined;
  readonly analytes: readonly (Words & { readonly name: string; readonly steps: readonly StepRow[] })[];
  /** Measured in these zones and not compared, and why. */
  readonly notCompared: string | undefined;
}

/** One of the two areas at one sampling event. */
type Bags = readonly [Measurement, ...Measurement[]];
const bagsOf = (m: Measurement): Bags => (m.bags && m.bags.length > 0 ? [m.bags[0]!, ...m.bags.slice(1)] : [m]);

const at = (sampling: Sampling, zone: Zone, analyte: AnalyteId, like?: Measurement): Measurement | undefined =>
  zoneMeasurements(sampling, zone.id).find((m) => m.analyte === analyte && (like === undefined || whyNotComparable(like, m) === undefined));

/** Newest first: the routine samplings at which both zones were sampled. */
const commonEvents = (field: Field, pair: readonly [Zone, Zone]): Sampling[] =>
  field.samplings.filter((s) => s.purpose === "routine" && pair.every((z) => isAnswered(s, z.id))).toReversed();

interface Evidence {
  readonly areas: readonly [AreaResults, AreaResults];
  readonly byEvent: boolean;
}

/** The numbers of one area. A result that the laboratory only bounds ("< 5") is none, and to leave it out would leave out what differs: then there are no numbers. */
const result = (like: Measurement, found: readonly Measurement[]): AreaResult => ({
  method: like.method,
  unit: like.unit,
  values: found.some((m) => m.qualifier) ? [] : found.map((m) => m.value),
});

/** The events at which both zones have a result that may be compared with the newest one, oldest first. */
const pairedResults = (
  events: readonly Sampling[],
  pair: readonly [Zone, Zone],
  analyte: AnalyteId,
): [AreaResult, AreaResult] | undefined => {
  const [newest] = events;
  const like = newest && at(newest, pair[0], analyte);
  if (!like) return undefined;
  const found = events
    .flatMap((s): [Measurement, Measurement][] => {
      const [a, b] = pair.map((zone) => at(s, zone, analyte, like));
      return a && b ? [[a, b]] : [];
    })
    .toReversed();
  return found.length === 0
    ? undefined
    : ([0, 1].map((i) =>
        result(
          like,
          found.map((each) => meanOfBags(bagsOf(each[i]!))),
        ),
      ) as [AreaResult, AreaResult]);
};

/**
 * What the records hold to judge two zones by: the bags of their newest common event where each has several, or what both
 * had at every comparable event, whichever is more.
 */
const evidenceOf = (events: readonly Sampling[], pair: readonly [Zone, Zone], judged: readonly AnalyteId[]): Evidence => {
  const newest = events[0]!;
  const bags = pair.map((zone) => newest.composites.filter((c) => c.zone === zone.id && !isAwaited(c)).length);
  const byEvent = Math.min(...bags) < 2 || events.length > Math.min(...bags);
  const areas: [Record<string, AreaResult>, Record<string, AreaResult>] = [{}, {}];
  for (const analyte of judged) {
    const paired = byEvent ? pairedResults(events, pair, analyte) : undefined;
    pair.forEach((zone, i) => {
      const m = at(newest, zone, analyte);
      const own = paired?.[i] ?? (m && result(m, bagsOf(m)));
      if (own) areas[i]![analyte] = own;
    });
  }
  return { areas, byEvent };
};

/** How the newest results of two zones are classed, each for its next crop. */
const classedNow = (farm: Farm, field: Field, pair: readonly [Zone, Zone], analyte: AnalyteId): Classed[] =>
  pair.flatMap((zone) => {
    const found = adviceNow(farm, field, zone)?.advice.ratings.find((r) => r.measurement.analyte === analyte);
    return found?.pack && found.outcome.kind === "answer"
      ? [{ by: found.pack.short, bands: found.bands, measurement: found.measurement, rating: found.outcome.value }]
      : [];
  });

/** May these two share a bag? */
export const pairOf = (farm: Farm, field: Field, pair: readonly [Zone, Zone]): ZonePair => {
  const names = [pair[0].name, pair[1].name] as const;
  const events = commonEvents(field, pair);
  const [newest] = events;
  const margins = marginRules(farm, field);
  if (!newest)
    return {
      zones: pair,
      verdict: "cannot be said",
      words: { says: `${names[0]} and ${names[1]} were never sampled on one day.`, numbers: [] },
      wantsLimit: false,
      saves: undefined,
      analytes: [],
      notCompared: undefined,
    };
  const measured = analyteIds.filter(
    (analyte) =>
      margins.some((m) => m.analyte === analyte) ||
      pair.some((zone) => zoneMeasurements(newest, zone.id).some((m) => m.analyte === analyte)),
  );
  const { areas, byEvent } = evidenceOf(events, pair, measured);
  const noise = (analyte: AnalyteId, method: Measurement["method"]) => {
    const measurements = events.flatMap((s) =>
      pair.flatMap((z) => zoneMeasurements(s, z.id).filter((m) => m.analyte === analyte && m.method === method)),
    );
    const zones = pair.map((z) => z.id);
    return fieldNoise(farm, field, { analyte, method, cores: fewestCores(field, zones, measurements) });
  };
  const compared: Outcome<AreasCompared> = compareAreas({
    areas,
    margins,
    noise,
    byEvent,
    classes: (analyte) => classedNow(farm, field, pair, analyte),
  });
  const verdict = compared.kind === "answer" ? compared.value.verdict : "cannot be said";
  const classes = new Map(
    (compared.kind === "answer" ? compared.value.analytes : []).flatMap((each): [AnalyteId, OneClass][] => {
      const one = isAlike(each) ? undefined : oneClass(classedNow(farm, field, pair, each.analyte), noise);
      return one ? [[each.analyte, one]] : [];
    }),
  );
  const fee = newest.lab.packages[newest.packageId]?.fee;
  return {
    zones: pair,
    verdict,
    words: areasWords(compared, names, classes.size > 0),
    wantsLimit: compared.kind === "answer" && compared.value.analytes.some((a) => a.lacks !== undefined),
    saves:
      verdict === "may be sampled together next time" && fee !== undefined
        ? savesWords(farm, bagsSaved(field, pair, farm.today), fee)
        : undefined,
    analytes:
      compared.kind === "answer"
        ? compared.value.analytes.map((each) => ({
            name: capital(analyteInSentence(each.analyte)),
            ...analyteWords(each, names, classes.get(each.analyte)),
            steps: each.outcome.kind === "answer" ? stepRows(each.outcome.steps, farm.references) : [],
          }))
        : [],
    notCompared: compared.kind === "answer" ? withoutLimit(compared.value.without) : undefined,
  };
};

/** "Zinc and organic matter are not compared, because no limit is published for them and the farm sets none." */
const withoutLimit = (analytes: readonly AnalyteId[]): string | undefined => {
  if (analytes.length === 0) return undefined;
  const one = analytes.length === 1;
  return `${capital(list(analytes.map(analyteInSentence)))} ${one ? "is" : "are"} not compared, because no limit was found published for ${one ? "it" : "any of them"} and the farm sets none.`;
};

const savesWords = (farm: Farm, bags: number, fee: number): string =>
  bags < 1
    ? "It saves no bag: the guideline asks for as many of their area together."
    : `${capital(count(bags, "bag"))} less ${bags === 1 ? "saves" : "save"} ${listedPrice(bags * fee, farm.currency)} each time.`;

const order: readonly ZonePair["verdict"][] = ["may be sampled together next time", "not enough data", "keep apart", "cannot be said"];

const known = new WeakMap<Field, readonly ZonePair[]>();

/** Every two zones of a field, those that may share a bag first. Worked out once: the field's page and the calendar tell of the same. */
export const zonePairs = (farm: Farm, field: Field): readonly ZonePair[] => {
  let pairs = known.get(field);
  if (!pairs)
    known.set(
      field,
      (pairs = zonesInPairs(field)
        .map((pair) => pairOf(farm, field, pair))
        .sort((a, b) => order.indexOf(a.verdict) - order.indexOf(b.verdict))),
    );
  return pairs;
};
