import { plain } from "../../interpretation/show.ts";
import { weakestOf } from "../../interpretation/outcome.ts";
import { crops } from "../../interpretation/vocabulary.ts";
import type { Farm, Field, Reference, Zone } from "../../records/model.ts";
import type { AdviceRow } from "../advice/adviceRow.ts";
import type { ZoneAdviceView } from "../advice/adviceView.ts";
import { forCrop, noCropFor, zoneAdviceView } from "../advice/adviceView.ts";
import { adviceParts, advicePath } from "../advice/advicePages.ts";
import type { CautionView } from "../advice/cautionViews.ts";
import { cautionViews } from "../advice/cautionViews.ts";
import type { ZoneAdvice } from "../advice/sample.ts";
import { adviceNow } from "../advice/sample.ts";
import { careOfAdvice } from "../advice/samplingQuality.ts";
import { dueOf } from "../calendar/due.ts";
import { leftOutForReader } from "../leftOut.ts";
import { alreadyWords } from "../season/whyWords.ts";
import type { EvidenceMark } from "../steps.ts";
import { citedReferences, evidenceMark, uncheckedWarning } from "../steps.ts";
import { inUnitsOf } from "../units.ts";
import { count, longDate } from "../words.ts";

/** The newest advice of one zone. */
export interface FieldAdvice {
  readonly zone: Zone;
  readonly crop: string;
  readonly sampling: string;
  readonly sampled: string;
  /** It is due for sampling again. */
  readonly old: boolean;
  /** What in the sampling touches these results. */
  readonly care: string | undefined;
  /** What was spread since, of what it is told to spread. */
  readonly already: string | undefined;
  readonly rows: readonly AdviceRow[];
}

interface ZoneAdvised {
  readonly zone: ZoneAdvice;
  readonly view: ZoneAdviceView;
}

/** The advice of those zones that have any. */
export const adviceOf = (farm: Farm, field: Field, zones: readonly Zone[]): ZoneAdvised[] =>
  zones.flatMap((each) => {
    const zone = adviceNow(farm, field, each);
    return zone ? [{ zone, view: zoneAdviceView(farm, zone) }] : [];
  });

/** What the advice of zones rests on. */
export const adviceFrom = (advised: readonly ZoneAdvised[]): string =>
  `Worked from the newest routine sampling of each zone${advised.some(({ zone }) => zone.nitrogenAlone) ? ", or where there is none from its test of nitrogen" : ""}, for its next crop.`;

export const fieldAdvice = (farm: Farm, field: Field, { zone, view }: ZoneAdvised): FieldAdvice => ({
  zone: zone.zone,
  crop: forCrop(adviceCrop(zone)),
  sampling: zone.sampling.id,
  sampled: longDate(zone.sampling.date),
  old: !zone.nitrogenAlone && dueOf(farm, field, zone.zone).overdue,
  care: careOfAdvice(field, zone.sampling, ["pH", "P", "K"]),
  already:
    (["lime", "fertilizer"] as const)
      .map((job) => alreadyWords([{ field, zone: zone.zone, advised: { advice: zone, view } }], job))
      .filter(Boolean)
      .join(" ") || undefined,
  rows: view.rows,
});

/** What a field of very many zones is advised, without the working. */
export interface RatesByZone {
  /** "Lime", "Potash (K₂O)": what any of the zones was asked for. */
  readonly subjects: readonly string[];
  readonly rows: readonly {
    readonly zone: Zone;
    /** The page of the working. */
    readonly path: string;
    /** One a subject: "94 lb/ac", or why not in two words; absent where it was not asked. */
    readonly cells: readonly ({ readonly words: string; readonly anchor: string } | undefined)[];
  }[];
  /** By whom, and how far each was checked. */
  readonly by: readonly {
    readonly subject: string;
    readonly guideline: NonNullable<AdviceRow["guideline"]>;
    readonly evidence: EvidenceMark;
  }[];
}

/** Every guideline that a subject's rates are by, with its weakest evidence. */
const sourcesOf = (rows: readonly AdviceRow[]): RatesByZone["by"] =>
  [...Map.groupBy(rows, ({ subject, guideline }) => `${subject} ${guideline?.id ?? ""}`).values()].flatMap((same) => {
    const [{ subject, guideline }] = same as [AdviceRow];
    const evidence = evidenceMark(weakestOf(same.flatMap((r) => r.evidence?.grade ?? [])));
    return guideline && evidence ? [{ subject, guideline, evidence }] : [];
  });

export const ratesByZone = (field: Field, advised: readonly ZoneAdvised[]): RatesByZone => {
  const asked = advised.flatMap(({ view }) => view.rows).filter((r) => !r.product);
  const subjects = [...new Set(asked.map((r) => r.subject))];
  return {
    subjects,
    rows: advised.map(({ zone: { zone }, view }) => ({
      zone,
      path: advicePath(field, zone),
      cells: subjects.map((subject) => {
        const row = view.rows.find((r) => r.subject === subject);
        return row && { words: row.none === undefined ? `${row.value}\u00a0${row.unit}` : "no\u00a0rate", anchor: row.id };
      }),
    })),
    by: sourcesOf(asked),
  };
};

/** One page of the working. */
export interface AdvicePageView {
  readonly title: string;
  readonly lede: string;
  readonly advice: readonly FieldAdvice[];
  readonly adviceFrom: string;
  readonly cautions: readonly CautionView[];
  readonly unchecked: string | undefined;
  readonly cited: readonly Reference[];
  readonly others: readonly { readonly part: number; readonly holds: string }[];
}

/** "Cell 1 to Cell 80", "Cell 81" */
const spanned = (zones: readonly Zone[]): string => (zones.length === 1 ? zones[0]!.name : `${zones[0]!.name} to ${zones.at(-1)!.name}`);

export const advicePage = (site: Farm, field: Field, part: number): AdvicePageView => {
  const farm = inUnitsOf(site, field);
  const parts = adviceParts(field);
  const zones = parts[part - 1]!;
  const advised = adviceOf(farm, field, zones);
  const outcomes = advised.flatMap(({ view }) => view.outcomes);
  return {
    title: `Advice for ${field.name}${parts.length > 1 ? `, page ${part} of ${parts.length}` : ""}`,
    lede: `${spanned(zones)}, of ${count(field.zones.length, "zone")}: every rate with its working.`,
    advice: advised.map((each) => fieldAdvice(farm, field, each)),
    adviceFrom: adviceFrom(advised),
    cautions: cautionViews(
      advised.map(({ zone }) => zone),
      dueOf(farm, field).overdue,
    ),
    unchecked: uncheckedWarning(outcomes),
    cited: citedReferences(outcomes, farm.references),
    others: parts.flatMap((each, i) => (i + 1 === part ? [] : [{ part: i + 1, holds: spanned(each) }])),
  };
};

const adviceCrop = (zone: ZoneAdvice): string => {
  if (!zone.crop) return noCropFor(zone);
  const { crop, season, yieldGoal, planned } = zone.crop;
  const goal = (): string => {
    if (yieldGoal) return `${planned ? "yield goal" : "yield"} ${plain(yieldGoal.value)} ${yieldGoal.unit}`;
    return zone.crop!.yieldWithheld ? `its yield goal ${leftOutForReader}` : "no yield goal set";
  };
  return `${crops[crop].label}, ${season}, ${goal()}`;
};
