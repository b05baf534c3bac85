import { isSeasonal } from "../../interpretation/comparable.ts";
import { noDay } from "../../interpretation/noDay.ts";
import type { Outcome } from "../../interpretation/outcome.ts";
import type { Span } from "../../interpretation/rules/samplingParts.ts";
import { spanLabel } from "../../interpretation/rules/samplingParts.ts";
import { samplingAdvice } from "../../interpretation/sampling/samplingAdvice.ts";
import { seasonName, seasonOf, seasonYear } from "../../interpretation/season.ts";
import { plain } from "../../interpretation/show.ts";
import type { PurposeId } from "../../interpretation/vocabulary.ts";
import { analyteInSentence, crops } from "../../interpretation/vocabulary.ts";
import type { Farm, Field, Zone } from "../../records/model.ts";
import { bagsOf } from "../alike/bagCounts.ts";
import { inYearsShown } from "../leftOut.ts";
import { withZonesOf } from "../../interpretation/zoneLife.ts";
import { dueOf } from "./due.ts";
import { openQuestions } from "../alike/openQuestions.ts";
import { latestAdvice } from "../advice/sample.ts";
import type { Slot } from "./slots.ts";
import { compareSlots, endOf, falls, nextSlot, notBefore, slotLabel, slotOf } from "./slots.ts";
import { nextFee } from "./testingFees.ts";
import { list, longDate, zonesOrCount } from "../words.ts";
import { comingChangeWords } from "../zonesThen.ts";

/** One sampling to come. */
export interface NextSampling {
  readonly field: Field;
  readonly purpose: PurposeId;
  /** Absent where no guideline says how long to wait. */
  readonly slot: Slot | undefined;
  readonly overdue: boolean;
  readonly zones: readonly Zone[];
  readonly bags: number;
  readonly fee: ReturnType<typeof nextFee>;
  /** Why then, and how; a sentence each. Worked out when it is read: what one more sampling would show asks every trend, and most readers want the date. */
  readonly why: readonly string[];
}

/** A sampling that can be planned now: it is overdue, or falls in the half year at hand or the next one. */
export const isDue = (next: NextSampling, today: string): next is NextSampling & { readonly slot: Slot } =>
  next.zones.length > 0 && next.slot !== undefined && (next.overdue || falls(next.slot, today));

export const bagsFor = (farm: Farm, field: Field, zones: readonly Zone[], purpose: PurposeId): number =>
  zones.reduce((sum, z) => sum + bagsOf(field, z, purpose, farm.today), 0);

/** "every 3 to 5 years", "at least every 3 years" where only the longest wait is printed, "at least every year". */
const howOften = ({ least, most }: Span): string => {
  const onlyMost = least === undefined && most !== undefined;
  const years = most === 1 ? "year" : `${onlyMost ? plain(most) : spanLabel({ least, most })} years`;
  return `${onlyMost ? "at least " : ""}every ${years}`;
};

/** Years between two full samplings by the first guideline that says, and whose word it is. */
export const intervalOf = (
  field: Field,
): { readonly years: number | undefined; readonly words: string; readonly outcome: Outcome<unknown> } => {
  const { outcome, pack } = samplingAdvice(field.guidelines, {
    purpose: "routine",
    tillage: field.tillage,
    crop: field.plan[0]?.crop,
  }).interval;
  if (outcome.kind === "noAnswer") return { years: undefined, outcome, words: `When is not said, because ${outcome.because}.` };
  return {
    years: outcome.value.most,
    outcome,
    words: `${pack?.short ?? "The guideline"}: ${howOften(outcome.value)}.`,
  };
};

const newestOf = (field: Field, purpose: PurposeId): string | undefined => field.samplings.findLast((s) => s.purpose === purpose)?.date;

/** Each zone's newest full sampling, oldest first. */
const zoneDates = (field: Field): string[] =>
  field.zones
    .flatMap((z) => field.samplings.findLast((s) => s.purpose === "routine" && s.composites.some((c) => c.zone === z.id))?.date ?? [])
    .sort();

const oneSeason = (field: Field): boolean => new Set(zoneDates(field).map(seasonOf)).size <= 1;

/** "Last sampled 18 October 2025"; of zones sampled in different seasons, when the first and the last of them were. */
const lastSampled = (field: Field, newest: string): string =>
  oneSeason(field)
    ? `Last sampled ${longDate(newest)}`
    : `Zones last sampled from ${longDate(zoneDates(field)[0]!)} to ${longDate(newest)}`;

/** Zones that are to be drawn anew until the sampling is taken are sampled as they will be. */
const inNewZones = (farm: Farm, sampling: NextSampling): NextSampling => {
  const { field, purpose, slot } = sampling;
  if (slot === undefined) return sampling;
  const then = withZonesOf(field, endOf(slot));
  if (then === field) return sampling;
  const isOf = (zone: Zone): boolean => sampling.zones.some((old) => old === zone || zone.formerly?.includes(old.id));
  const zones = then.zones.filter(isOf);
  if (zones.length === sampling.zones.length && zones.every((z) => sampling.zones.includes(z))) return sampling;
  return {
    ...sampling,
    zones,
    bags: bagsFor(farm, then, zones, purpose),
    get why() {
      return [...sampling.why, comingChangeWords(field)].filter(Boolean);
    },
  };
};

/** The next full sampling of the zones that there will be. */
export const fullSampling = (farm: Farm, field: Field): NextSampling => inNewZones(farm, fullSamplingOfZones(farm, field));

/** The next full sampling: the interval after the zone that waits longest, in the season the field is sampled in. */
const fullSamplingOfZones = (farm: Farm, field: Field): NextSampling => {
  const base = {
    field,
    purpose: "routine",
    zones: field.zones,
    bags: bagsFor(farm, field, field.zones, "routine"),
    fee: nextFee(farm, field, "routine"),
  } as const;
  const newest = newestOf(field, "routine");
  const { last, next, overdue, words: dueWords } = dueOf(farm, field);
  if (last === undefined && !overdue) return { ...base, slot: undefined, overdue, why: [`When is ${dueWords}.`] };
  if (newest === undefined) {
    const never = inYearsShown(farm) === "" ? "It was never fully sampled" : `It was not fully sampled${inYearsShown(farm)}`;
    return {
      ...base,
      slot: farm.today === noDay ? undefined : slotOf(farm.today),
      overdue: true,
      why: [`${never}. Take it in the season it can be taken in every time.`],
    };
  }
  const season = seasonName(newest);
  const moved = (["pH", "K"] as const).filter(isSeasonal).map(analyteInSentence);
  const keep = `${lastSampled(field, newest)}: keep to ${oneSeason(field) ? list([...new Set(zoneDates(field).map(seasonName))], "or") : "each zone's own season"}, because ${list(moved)} move with the season.`;
  if (last === undefined)
    return {
      ...base,
      slot: nextSlot(season, farm.today),
      overdue: true,
      get why() {
        return [`One of its zones has no full sampling${inYearsShown(farm) || " yet"}.`, keep, ...openQuestions(farm, field)];
      },
    };
  const { years, words } = intervalOf(field);
  if (years === undefined)
    return {
      ...base,
      slot: undefined,
      overdue: false,
      get why() {
        return [words, keep, ...openQuestions(farm, field)];
      },
    };
  const due: Slot = { year: seasonYear(last) + years, part: season };
  const slot = notBefore(due, farm.today);
  return {
    ...base,
    slot,
    overdue,
    get why() {
      return [
        words,
        ...(overdue && next !== undefined ? [`It was due in ${slotLabel(slotOf(next))}.`] : []),
        keep,
        ...cropThen(field, slot),
        ...openQuestions(farm, field),
      ];
    },
  };
};

/** What is planned for the slot's own year, since a crop is best sampled after the same crop each time. */
const cropThen = (field: Field, slot: Slot): string[] => {
  const named = [...new Set(field.plan.filter((p) => p.season === slot.year).map((p) => crops[p.crop].label))];
  return named.length > 0 ? [`Planned that year: ${list(named)}.`] : [];
};

/** Zones where lime is called for now, or was spread since the last full sampling. */
const limeZones = (farm: Farm, field: Field, since: string): Zone[] =>
  field.zones.filter((zone) => {
    const lime = latestAdvice(farm, field, zone)?.advice.lime.needed;
    const spread = field.seasons.some((s) => s.applications.some((a) => a.product.lime && a.date >= since && a.zones.includes(zone.id)));
    return spread || (lime?.kind === "answer" && lime.value !== "none");
  });

/** A check of pH alone, halfway to the next full sampling, where lime is at work or called for and none was made since. */
export const phCheck = (farm: Farm, field: Field, full: NextSampling): NextSampling | undefined => {
  const newest = newestOf(field, "routine");
  const { years } = intervalOf(field);
  const checked = newestOf(field, "phCheck");
  if (
    newest === undefined ||
    years === undefined ||
    years < 2 ||
    full.slot === undefined ||
    full.overdue ||
    (checked !== undefined && checked > newest)
  )
    return undefined;
  const zones = limeZones(farm, field, newest);
  if (zones.length === 0) return undefined;
  const season = seasonName(checked ?? newest);
  // From an autumn sampling the spring half of a year is the year after.
  const half: Slot = { year: seasonYear(newest) + Math.ceil(years / 2), part: season };
  const slot = notBefore(half, farm.today);
  if (compareSlots(slot, full.slot) >= 0) return undefined;
  const because = `Lime is called for or was spread on ${zonesOrCount(zones, field.zones.length)}; halfway between two full samplings is common practice.`;
  const keep =
    checked === undefined
      ? `In ${season}, as the full samplings, so that the results may be compared.`
      : `In ${season}, as the last check.`;
  return inNewZones(farm, {
    field,
    purpose: "phCheck",
    slot,
    overdue: false,
    zones,
    bags: bagsFor(farm, field, zones, "phCheck"),
    fee: nextFee(farm, field, "phCheck", zones),
    why: [because, keep],
  });
};
