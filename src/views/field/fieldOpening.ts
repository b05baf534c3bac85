import type { Farm, Field } from "../../records/model.ts";
import type { ZoneAdviceView } from "../advice/adviceView.ts";
import { awaitedOf } from "../results/awaited.ts";
import { dueOf } from "../calendar/due.ts";
import { excessOf } from "../advice/excess.ts";
import { jobs, where } from "../advice/jobs.ts";
import { inYearsShown, leavesOutProducts, leftOutForReader, ratesLeftOut } from "../leftOut.ts";
import type { ZoneAdvice } from "../advice/sample.ts";
import { seasonZonesByField } from "../season/seasonZones.ts";
import { nitrogenLimits } from "../advice/nitrogenLimit.ts";
import { silentOf } from "../advice/silent.ts";
import { inUnitsOf, money } from "../units.ts";
import { alreadyWords, limeWhy, lowWhy, unlimedWhy } from "../season/whyWords.ts";
import { longDate } from "../words.ts";

/** A zone's newest advice, and how a page lays it out. */
export interface AdvisedZone {
  readonly zone: ZoneAdvice;
  readonly view: ZoneAdviceView;
}

export interface FieldOpening {
  /** What to do; where nothing is, what was found, or why nothing can be said. */
  readonly lede: string;
  /** Why, from when, and what it costs where that is known. */
  readonly why: string;
}

/** A field's first sentences. */
export const fieldOpening = (site: Farm, field: Field, advised: readonly AdvisedZone[]): FieldOpening => {
  const farm = inUnitsOf(site, field);
  const sampled = advised.filter(({ zone }) => !zone.nitrogenAlone);
  if (sampled.length === 0) return unsampled(farm, field, advised);
  const todo = [
    ...sampleAgain(farm, field),
    ...jobs(
      advised.flatMap(({ view }) => view.actions),
      field.zones.length,
    ).map((job) => job.text),
    ...excessOf(advised.map(({ zone }) => zone)).map(({ text, zones }) => `${text} on ${where(zones, field.zones.length)}`),
  ];
  const limits = nitrogenLimits(
    farm,
    advised.map(({ zone }) => zone),
    field.zones.length,
  );
  const found = [...reasons(site, field), ...limits];
  const limeCost = advised.reduce((sum, { view }) => sum + (view.limeCost ?? 0), 0);
  return {
    lede: todo.length > 0 ? `${inOneSentence(todo)}.` : nothingToDo(farm, found, silentOf(advised.flatMap(({ view }) => view.rows))),
    why: [
      // Who is shown no rates is told first what is low, where anything is.
      ...(todo.length > 0 ? found : []),
      `From the newest routine sampling of each zone, ${sampledWords(sampled.map(({ zone }) => zone.sampling.date))}.`,
      ...(["lime", "fertilizer"] as const).map((job) => alreadyWords(seasonZonesByField(site).get(field) ?? [], job)),
      limeCost > 0 ? `The lime comes to about ${money(limeCost, farm.currency)}.` : "",
      ratesLeftOut(farm).trim(),
      "Every rate has its working.",
    ]
      .filter(Boolean)
      .join(" "),
  };
};

const unsampled = (farm: Farm, field: Field, tested: readonly AdvisedZone[]): FieldOpening => {
  const { lede, why } = withoutSampling(farm, field);
  if (tested.length === 0) return { lede, why };
  const spread = jobs(
    tested.flatMap(({ view }) => view.actions),
    field.zones.length,
  ).map((job) => `${job.text}.`);
  const limits = nitrogenLimits(
    farm,
    tested.map(({ zone }) => zone),
    field.zones.length,
  );
  const dates = sampledWords(tested.map(({ zone }) => zone.sampling.date));
  return { lede: [lede, ...spread, ...limits].join(" "), why: `There is nothing to advise from but the test of nitrogen, ${dates}.` };
};

const withoutSampling = (farm: Farm, field: Field): FieldOpening => {
  const awaited = awaitedOf(field);
  if (awaited.length > 0)
    return { lede: `Results are awaited. ${awaited.join(" ")}`, why: "Until they come there is nothing to advise from." };
  const { overdue, redrawn } = dueOf(farm, field);
  if (!overdue)
    return {
      lede: `No routine sampling of this field is shown.`,
      why: `There is nothing to advise from: earlier samplings are ${leftOutForReader}.`,
    };
  if (redrawn)
    return {
      lede: "Sample this field: it was not sampled since its zones were drawn anew.",
      why: "New zones are advised from samplings of their own.",
    };
  return {
    lede: `Sample this field: it has no routine sampling${inYearsShown(farm) || " yet"}.`,
    why: "Without one there is nothing to advise from.",
  };
};

const sampleAgain = (farm: Farm, field: Field): string[] => {
  const due = dueOf(farm, field);
  if (!due.overdue) return [];
  return [
    due.last === undefined
      ? "Sample every zone: not all have been sampled"
      : `Sample again: the next sampling was due ${due.words.replace(", overdue", "")}`,
  ];
};

/** "Sample again; apply potash on Knoll" */
const inOneSentence = ([first = "", ...others]: readonly string[]): string =>
  [first, ...others.map((t) => `${t.charAt(0).toLowerCase()}${t.slice(1)}`)].join("; ");

/** What the results were found to be; else why a question has no answer; else that nothing is due. */
const nothingToDo = (farm: Farm, found: readonly string[], silent: readonly string[]): string => {
  if (found.length > 0) return [...found, ...(farm.withheld ? [] : silent.slice(0, 1))].join(" ");
  return silent[0] ?? (leavesOutProducts(farm) ? "Nothing that this reader is shown needs doing now." : "Nothing needs doing now.");
};

/** Why there is something to do: what the results were found to be. */
const reasons = (site: Farm, field: Field): string[] => {
  const zones = seasonZonesByField(site).get(field) ?? [];
  return [limeWhy(zones), ...unlimedWhy(zones), ...lowWhy(zones)].filter(Boolean);
};

/** "18 October 2025"; "12 October 2021 to 18 October 2025" where zones were not sampled together. */
const sampledWords = (dates: readonly string[]): string => {
  const inOrder = [...dates].sort();
  const [first, last] = [inOrder[0]!, inOrder.at(-1)!];
  return first === last ? longDate(first) : `${longDate(first)} to ${longDate(last)}`;
};
