import { round } from "../../interpretation/show.ts";
import type { Farm, Field } from "../../records/model.ts";
import { mayBeInTime, yearsAfter } from "../calendar/due.ts";
import type { Fact } from "../fact.ts";
import type { FollowedKind } from "../issued/followed.ts";
import { followed } from "../issued/followed.ts";
import { inYearsShown, leavesOut, leftOutForReader, otherYearsLeftOut } from "../leftOut.ts";
import { intervalOf } from "../calendar/nextSamplings.ts";
import { latestAdvice } from "../advice/sample.ts";
import { isAwaited } from "../results/awaited.ts";
import { area, areaUnit } from "../units.ts";
import { count, list, listOrCount, longDate, monthYear } from "../words.ts";
import { samplingCounts } from "../samplingName.ts";

/** How much of the land was tested within the interval of its own guideline, by the day the site speaks from; without fields that have none. */
export interface TestedShare {
  /** Square meters; of zones whose area is known. */
  readonly inTime: number;
  readonly all: number;
  readonly zonesInTime: number;
  readonly zones: number;
  /** Zones without an area are counted as zones: then the share is told in zones. */
  readonly unmeasured: number;
  /** Zones of which no sampling is shown, and an earlier one may be in time; not in the share. */
  readonly untold: number;
}

/** A bag whose results are awaited tests nothing yet: the newest full sampling that was answered counts. */
export const testedShare = (farm: Farm, fields: readonly Field[]): TestedShare => {
  const all = fields
    .filter((field) => intervalOf(field).years !== undefined)
    .flatMap((field) => {
      const { years } = intervalOf(field);
      return field.zones.map((zone) => {
        const date = latestAdvice(farm, field, zone)?.sampling.date;
        return {
          zone,
          untold: date === undefined && mayBeInTime(farm, zone, years),
          inTime: date !== undefined && years !== undefined && yearsAfter(date, years) >= farm.today,
        };
      });
    });
  const zones = all.filter((z) => !z.untold);
  const size = (each: typeof zones): number => each.reduce((sum, { zone }) => sum + (zone.squareMeters ?? 0), 0);
  const inTime = zones.filter((z) => z.inTime);
  return {
    inTime: size(inTime),
    all: size(zones),
    zonesInTime: inTime.length,
    zones: zones.length,
    unmeasured: zones.filter((z) => z.zone.squareMeters === undefined).length,
    untold: all.length - zones.length,
  };
};

/** "26.8 of 32.9 acres, 81 percent"; in zones where an area is not known; empty where no guideline says how often. */
export const shareWords = ({ inTime, all, zonesInTime, zones, unmeasured }: TestedShare, units: Farm["units"]): string => {
  if (zones === 0) return "";
  if (unmeasured > 0) return `${zonesInTime} of ${count(zones, "zone")}, not every area being known`;
  // Rounding must not make a whole of what is not quite one, nor nothing of a little.
  const percent = Math.min(99, Math.max(1, round((inTime / all) * 100, 0)));
  if (zonesInTime === 0) return `none of ${area(all, units)} ${areaUnit(units)}`;
  return zonesInTime === zones
    ? `all ${area(all, units)} ${areaUnit(units)}`
    : `${area(inTime, units)} of ${area(all, units)} ${areaUnit(units)}, ${percent} percent`;
};

/** Zones and days with two bags or more. */
const duplicates = (field: Field): number =>
  field.samplings.reduce(
    (sum, { composites }) =>
      sum + new Set(composites.filter((c, i) => composites.some((other, j) => j !== i && other.zone === c.zone)).map((c) => c.zone)).size,
    0,
  );

const corrections = (field: Field): number =>
  field.samplings.reduce((sum, s) => sum + s.composites.reduce((n, c) => n + c.measurements.filter((m) => m.correction).length, 0), 0);

/** How the advice kept as issued was followed: each amount of lime or of a nutrient on a zone counted once. */
const followedCounts = (farm: Farm, fields: readonly Field[]): Readonly<Record<FollowedKind, number>> => {
  const counts = { followed: 0, more: 0, "in part": 0, not: 0, "over crops": 0, apart: 0, unrecorded: 0, "no rate": 0, open: 0 };
  for (const field of fields)
    for (const issued of field.recommendations) {
      for (const { rows } of followed(issued, farm, field)) for (const { kind } of rows) counts[kind] += 1;
    }
  return counts;
};

const followedWords = (farm: Farm, fields: readonly Field[]): string => {
  const c = followedCounts(farm, fields);
  const issued = fields.flatMap((f) => f.recommendations.map((r) => r.id)).sort();
  if (issued.length === 0) return `not known, because no advice was kept as issued${inYearsShown(farm)}`;
  const judged = c.followed + c.more + c["in part"] + c.not;
  const parts = [
    c.more > 0 && `${c.more} exceeded`,
    c["in part"] > 0 && `${c["in part"]} followed in part`,
    c.not > 0 && `${c.not} not followed`,
  ].filter((part): part is string => part !== false);
  const aside = [
    c["over crops"] > 0 && `${c["over crops"]} not judged, because several crops were harvested before the next sampling`,
    c.apart > 0 && `${c.apart} not judged, because parts of the land were not spread alike`,
    c.unrecorded > 0 && `${c.unrecorded} not judged, because a season is not recorded`,
    c.open > 0 && `${c.open} still open, because the land was not sampled again yet`,
  ].filter(Boolean);
  const said =
    judged === 0 ? "none can be judged yet" : `${c.followed} of ${judged} amounts as advised${parts.length > 0 ? `, ${list(parts)}` : ""}`;
  const shown = fields.some((f) => f.recommendations.some((r) => r.excerpt)) ? "Of what is shown of" : "Of";
  const kept =
    issued.length === 1
      ? `${shown} the advice kept as issued on ${longDate(issued[0]!)}`
      : `${shown} ${count(issued.length, "piece")} of advice kept as issued, the last on ${longDate(issued.at(-1)!)}`;
  return `${kept}: ${[said, ...aside].join("; ")}`;
};

/** "Tri-State 2020: every 3 to 4 years." Of one guideline that has several, each named once: "RB209 2023: every 3 to 5 years or at least every 3 years, by the field's use." */
const intervalWords = (words: readonly string[]): string =>
  [...Map.groupBy(words, (w) => w.slice(0, w.lastIndexOf(": ")))]
    .map(([guideline, of]) =>
      of.length === 1
        ? of[0]!
        : `${guideline}: ${list(
            of.map((w) => w.slice(guideline.length + 2).replace(/\.$/, "")),
            "or",
          )}, by the field's use.`,
    )
    .join(" ");

/** The share, and how often a full sampling is asked for, by each guideline that says so. */
const testedWords = (fields: readonly Field[], share: string, untold: number): string => {
  const intervals = fields.map((field) => ({ name: field.name, ...intervalOf(field) }));
  const refused = intervals.flatMap(({ name, outcome }) => (outcome.kind === "noAnswer" ? [{ name, because: outcome.because }] : []));
  const reasons = [...Map.groupBy(refused, ({ because }) => because)].map(([because, of]) => {
    const names = of.map(({ name }) => name);
    return { because, where: listOrCount(names, "field") };
  });
  if (share === "" && untold > 0) return `not known, because earlier samplings are ${leftOutForReader}`;
  if (share === "")
    return reasons.length > 1
      ? `not known: ${reasons.map(({ because, where }) => `of ${where}, because ${because}`).join("; ")}`
      : `not known, because ${reasons[0]?.because ?? "there is no field"}`;
  const said = intervalWords([...new Set(intervals.filter((i) => i.years !== undefined).map((i) => i.words))]);
  const unsaid = reasons.map(({ because, where }) => ` Without ${where}, because ${because}.`).join("");
  const without = untold === 0 ? "" : ` Without ${count(untold, "zone")}, whose earlier samplings are ${leftOutForReader}.`;
  return `${share}. ${said}${without}${unsaid}`;
};

/** The records behind a sheet, as facts: of one field, or of the whole farm. */
export const recordsKept = (farm: Farm, fields: readonly Field[]): Fact[] => {
  const all = fields.flatMap((f) => f.samplings);
  const samplings = all.filter((s) => !s.composites.every(isAwaited));
  const open = all.length - samplings.length;
  const awaited = open === 0 ? "" : `; results of ${count(open, "sampling")} are awaited`;
  const first = samplings.map((s) => s.date).sort()[0];
  const byPurpose = samplingCounts(samplings).map(({ n, purpose, name }) =>
    count(n, purpose === "routine" ? "full sampling" : purpose === "phCheck" ? name.label : `${name.short} test`),
  );
  const seasons = [...new Set(fields.flatMap((f) => f.seasons.map((s) => s.season)))].sort((a, b) => a - b);
  const shown = otherYearsLeftOut(farm);
  const [firstSeason, lastSeason] = [seasons[0], seasons.at(-1)];
  const yields = leavesOut(farm, "yields") ? `; yields are ${leftOutForReader}` : "";
  const recorded =
    seasons.length > 1
      ? `${count(seasons.length, "season")} recorded, ${firstSeason!} to ${lastSeason!}`
      : firstSeason === undefined
        ? "none recorded"
        : `recorded for ${firstSeason}`;
  const tested = testedShare(farm, fields);
  const share = shareWords(tested, farm.units);
  const pairs = fields.reduce((sum, f) => sum + duplicates(f), 0);
  const corrected = fields.reduce((sum, f) => sum + corrections(f), 0);
  return [
    { term: "Samplings", value: `${first === undefined ? "none" : `${list(byPurpose)} since ${monthYear(first)}${shown}`}${awaited}` },
    { term: "Tested in time", value: testedWords(fields, share, tested.untold) },
    { term: "Crops, yields and applications", value: `${recorded}${yields}${shown}` },
    { term: "Advice followed", value: followedWords(farm, fields) },
    {
      term: "Checks on the laboratory",
      value:
        `${count(pairs, "pair")} of duplicate bags; ${count(corrected, "corrected result")}, the first value kept beside ${corrected === 1 ? "it" : "each"}`.replace(
          /; no corrected results, .*/,
          "; no corrected results",
        ),
    },
  ];
};
