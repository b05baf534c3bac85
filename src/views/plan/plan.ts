import type { Answer, Outcome } from "../../interpretation/outcome.ts";
import type { Task } from "../../interpretation/sampling/planHandling.ts";
import { planHandling } from "../../interpretation/sampling/planHandling.ts";
import { plain } from "../../interpretation/show.ts";
import { unitChoices } from "../../interpretation/unitChoices.ts";
import type { PurposeId } from "../../interpretation/vocabulary.ts";
import type { Farm, Field, Reference } from "../../records/model.ts";
import type { CautionView } from "../advice/cautionViews.ts";
import { cautionViews } from "../advice/cautionViews.ts";
import { dueOf } from "../calendar/due.ts";
import type { DuePlan } from "./duePlans.ts";
import type { Fact } from "../fact.ts";
import type { KeptRow } from "./planCompared.ts";
import { keptRows } from "./planCompared.ts";
import type { AvoidedPlace, PlanRequest, SamplingPlan } from "./planComposites.ts";
import { planSampling } from "./planComposites.ts";
import { planGeoJson, planGpx, plannedDepth, planLabelsCsv, testsOf } from "./planFiles.ts";
import type { PlanMap } from "./planMap.ts";
import { planMap } from "./planMap.ts";
import type { BagPositions, Precision } from "./planTables.ts";
import { positions, precision } from "./planTables.ts";
import type { PlanZoneRow } from "./planZones.ts";
import { distance, zoneNames, zoneNotes, zoneRow } from "./planZones.ts";
import { weight } from "../results/rows.ts";
import { cropsBySeason } from "../advice/cropWords.ts";
import { nextCrop } from "../advice/nextCrop.ts";
import type { EvidenceMark, Link, StepRow } from "../steps.ts";
import { citedReferences, evidenceMark, sourceLink, stepRows } from "../steps.ts";
import { inUnitsOf, listedPrice } from "../units.ts";
import { capital, count, list, longDate } from "../words.ts";
import { plannedName } from "../samplingName.ts";

/** "28 October 2025", or "June 2026" where no day is known. */
export const plannedFor = ({ date, season }: PlanRequest): string => season ?? longDate(date);

/** "nitrate sampling plan"; by a sampling plan, that of a full sampling is meant. */
export const planName = ({ guidelines }: Field, purpose: PurposeId): string =>
  purpose === "routine" ? "sampling plan" : `${plannedName(guidelines, purpose).label} plan`;

/** "Nitrate sampling plan for Netloft" */
export const planTitle = (field: Field, purpose: PurposeId): string => `${capital(planName(field, purpose))} for ${field.name}`;

export interface TaskRow {
  readonly text: string;
  readonly source: Link | undefined;
  readonly evidence: EvidenceMark | undefined;
  readonly note: string | undefined;
}

export interface PlanView {
  readonly plan: SamplingPlan;
  readonly title: string;
  /** "nitrate sampling plan" */
  readonly name: string;
  readonly lede: string;
  readonly why: string;
  readonly facts: readonly Fact[];
  readonly cautions: readonly CautionView[];
  /** What the positions were drawn by. */
  readonly seed: number;
  readonly zones: readonly PlanZoneRow[];
  /** What is to be said of single zones, each thing once. */
  readonly notes: readonly string[];
  readonly depth: { readonly text: string; readonly steps: readonly StepRow[]; readonly notes: readonly string[] };
  /** `undefined` where no guideline at hand tells the spread between cores. */
  readonly precision: Precision | undefined;
  readonly kept: readonly KeptRow[];
  readonly map: PlanMap | undefined;
  /** What cores stay away from, a sentence each. */
  readonly avoid: readonly string[];
  /** Why zones have no positions. */
  readonly unplaced: readonly string[];
  readonly tasks: readonly { readonly title: string; readonly rows: readonly TaskRow[] }[];
  readonly positions: readonly BagPositions[];
  /** The unit of `positions`: ft or m from the south-west corner of the map. */
  readonly unit: string;
  /** Does the owner let the site tell where the field lies? Only then are positions in degrees on it. */
  readonly located: boolean;
  readonly tests: string;
  readonly cited: readonly Reference[];
  readonly weights: { readonly gpx: string; readonly geojson: string; readonly csv: string };
}

const places: Readonly<Record<Task["place"], string>> = {
  before: "Before you go",
  field: "In the field",
  bench: "At the bench and on the way",
};

/** Everything the plan of one sampling shows, in the field's own units. */
export const planView = (theFarm: Farm, field: Field, request: PlanRequest): PlanView => {
  const farm = inUnitsOf(theFarm, field);
  const plan = planSampling(farm, field, request);
  const tasks = planHandling(field.guidelines, farm.allGuidelines.values(), request.purpose, farm.units);
  const zones = plan.zones.map((z) => zoneRow(farm, plan, z));
  const more = precision(farm, field, plan);
  const rules = [...tasks, ...(more?.spreads ?? []), ...(plan.setback ? [plan.setback] : []), ...plan.avoid.flatMap((a) => a.by ?? [])];
  const cited: Answer<undefined> = {
    kind: "answer",
    value: undefined,
    steps: rules.map(({ source }) => ({ what: "", result: "", source })),
    cautions: [],
  };
  const told: Outcome<unknown>[] = [plan.depth, ...plan.zones.flatMap((z) => [z.cores, z.asked.outcome]), cited];
  return {
    plan,
    title: planTitle(field, request.purpose),
    name: planName(field, request.purpose),
    ...opening(farm, field, plan),
    facts: facts(farm, field, plan),
    cautions: cautionViews([], true),
    seed: plan.request.seed,
    zones,
    notes: zoneNotes(zones).map(capital),
    depth: depthView(farm, plan),
    precision: more,
    kept: keptRows(farm, plan),
    map: planMap(farm, field, plan),
    avoid: plan.avoid.map((a) => avoidWords(farm, a)),
    unplaced: unplacedWords(plan),
    tasks: (Object.keys(places) as Task["place"][]).map((place) => ({
      title: places[place],
      rows: tasks
        .filter((t) => t.place === place)
        .map((t) => ({
          text: t.text,
          source: sourceLink(t.source, farm.references),
          evidence: evidenceMark(t.evidence),
          note: t.note && capital(t.note),
        })),
    })),
    positions: positions(farm, field, plan),
    unit: unitChoices[farm.units].map,
    located: farm.publish.location,
    tests: testsOf(plan),
    cited: citedReferences(told, farm.references),
    weights: {
      gpx: weight(planGpx(farm, field, plan)),
      geojson: weight(planGeoJson(field, plan)),
      csv: weight(planLabelsCsv(farm, field, plan)),
    },
  };
};

const depthView = (farm: Farm, { depth }: SamplingPlan): PlanView["depth"] =>
  depth.kind === "answer"
    ? { text: plannedDepth(depth.value, farm.units), steps: stepRows(depth.steps, farm.references), notes: depth.cautions }
    : { text: `No depth, because ${depth.because}.`, steps: [], notes: [] };

/** Why zones have no positions, each reason once. */
const unplacedWords = ({ zones }: SamplingPlan): string[] => {
  const without = zones.flatMap(({ zone, places: found }) => (found.kind === "noAnswer" ? [{ zone, because: found.because }] : []));
  return [...new Set(without.map((w) => w.because))].map(
    (because) =>
      `No positions in ${zoneNames(
        without.filter((w) => w.because === because).map((w) => w.zone),
        zones.length,
      )}, because ${because}.`,
  );
};

const avoidWords = (farm: Farm, { what, meters, by }: AvoidedPlace): string =>
  meters === undefined
    ? `Stay away from ${what}: no guideline at hand says how far, and field.yaml gives no distance, so cores may fall on it.`
    : `Cores stay ${distance(farm, meters)} away from ${what}${by ? `, as ${by.pack.short} asks` : ""}.`;

/** The plan of a sampling that is due, with why it is. */
export const duePlanView = (farm: Farm, due: DuePlan): PlanView => {
  const view = planView(farm, due.field, due.request);
  return due.purpose === "routine" ? view : { ...view, why: `${view.why} ${due.why.join(" ")}` };
};

const opening = (farm: Farm, field: Field, plan: SamplingPlan): { lede: string; why: string } => {
  const counts = [...new Set(plan.bags.map((b) => b.cores))];
  const cores = counts.length === 1 && counts[0] !== undefined ? `Take ${plain(counts[0])} cores ` : "Take cores ";
  const [one, ...others] = plan.zones;
  const few = field.zones.length === 1 ? "from the field" : others.length === 0 ? `from ${one!.zone.name}` : undefined;
  // Cores are counted by the bag, and a large zone takes several.
  const parted = plan.bags.length > plan.zones.length;
  const where = parted
    ? `for each of ${count(plan.bags.length, "bag")}, ${few ?? `from ${count(plan.zones.length, "zone")}`}`
    : (few ?? `from each of ${count(plan.zones.length, "zone")}`);
  const deep = plan.depth.kind === "answer" ? `, ${plannedDepth(plan.depth.value, farm.units)} deep` : "";
  return {
    lede: `${cores}${where}${deep}${parted ? "" : `, into ${plan.bags.length === 1 ? "one bag" : "a bag each"}`}.`,
    why: whyPlanned(farm, field, plan),
  };
};

const whyPlanned = (farm: Farm, field: Field, { request, last, others }: SamplingPlan): string => {
  if (request.purpose !== "routine")
    return `A ${plannedName(field.guidelines, request.purpose).label}, planned for ${plannedFor(request)}.`;
  const due = dueOf(farm, field);
  if (!last) return due.redrawn ? "This field was not sampled since its zones were drawn anew." : "This field has no routine sampling yet.";
  const before = [longDate(last.date), ...others.map((o) => `${list(o.zones.map((z) => z.name))} on ${longDate(o.last.date)}`)];
  const next =
    due.next !== undefined
      ? `the next sampling ${due.overdue ? "was" : "is"} due ${due.words.replace(", overdue", "")}`
      : due.last === undefined
        ? `the next sampling is due ${due.words}`
        : "no chosen guideline says when the next is due";
  return `Last sampled ${list(before)}; ${next}.`;
};

const facts = (farm: Farm, field: Field, plan: SamplingPlan): Fact[] => {
  const { order, bags } = plan;
  const fee = order?.lab.packages[order.packageId]?.fee;
  const walked = bags.reduce((sum, b) => sum + (b.walk ?? 0), 0);
  const next = cropsBySeason(plan.zones.flatMap(({ zone }) => nextCrop(field, zone.id, plan.request.date) ?? [])).map(
    ({ season, words }) => `${words}, ${season}`,
  );
  return [
    { term: "Purpose", value: plannedName(field.guidelines, plan.request.purpose).label },
    { term: "Planned for", value: capital(plannedFor(plan.request)) },
    { term: "Depth", value: plan.depth.kind === "answer" ? plannedDepth(plan.depth.value, farm.units) : "not known" },
    { term: "Bags", value: plain(bags.length) },
    ...(order ? [{ term: "Laboratory", value: order.lab.name }] : []),
    ...(fee === undefined
      ? []
      : [
          {
            term: "Fee",
            value: `${listedPrice(fee * bags.length, farm.currency)}${bags.length === 1 ? "" : `, ${listedPrice(fee, farm.currency)} a bag`}`,
          },
        ]),
    ...(walked > 0 ? [{ term: "Walk between cores", value: distance(farm, walked) }] : []),
    ...(next.length > 0 ? [{ term: "Next crop", value: next.join("; ") }] : []),
  ];
};
