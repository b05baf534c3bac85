import { boundsOf, planeAround } from "../exchange/geometry.ts";
import type { Answer, Outcome, Step } from "../interpretation/outcome.ts";
import type { Task } from "../interpretation/planHandling.ts";
import { planHandling } from "../interpretation/planHandling.ts";
import { samplingDepthLabel, spanLabel } from "../interpretation/rules/samplingParts.ts";
import { plain, show } from "../interpretation/show.ts";
import { coresNeeded } from "../interpretation/statistics/coresNeeded.ts";
import { convert } from "../interpretation/units.ts";
import { unitChoices } from "../interpretation/unitChoices.ts";
import { analytes, crops, purposes } from "../interpretation/vocabulary.ts";
import type { Farm, Field, Reference } from "../records/model.ts";
import type { CautionView } from "./adviceView.ts";
import { cautionViews } from "./adviceView.ts";
import { dueOf } from "./due.ts";
import type { Fact } from "./field.ts";
import { noiseRules } from "./history.ts";
import type { KeptRow } from "./planCompared.ts";
import { keptRows } from "./planCompared.ts";
import type { PlannedBag, PlannedZone, PlanRequest, SamplingPlan } from "./planComposites.ts";
import { planSampling } from "./planComposites.ts";
import { coreName, planGeoJson, planGpx, planLabelsCsv, testsOf } from "./planFiles.ts";
import type { PlanMap } from "./planMap.ts";
import { planMap } from "./planMap.ts";
import { weight } from "./rows.ts";
import type { EvidenceMark, Link, StepRow } from "./steps.ts";
import { citedReferences, evidenceMark, sourceLink, stepRows } from "./steps.ts";
import { area, areaUnit, inUnitsOf, money } from "./units.ts";
import { capital, count, list, longDate } from "./words.ts";

/** The plan that a field's page shows: a routine sampling on the day the site speaks from. */
export const sitePlan = (farm: Farm): PlanRequest => ({ purpose: "routine", date: farm.today, seed: 1 });

export interface PlanZoneRow {
  readonly zone: PlannedZone["zone"];
  readonly area: string;
  readonly bags: string;
  readonly each: string;
  readonly spec: string;
  readonly cores: string;
  readonly setback: string;
  readonly steps: readonly StepRow[];
  readonly notes: readonly string[];
}

export interface TaskRow {
  readonly text: string;
  readonly source: Link | undefined;
  readonly evidence: EvidenceMark | undefined;
  readonly note: string | undefined;
}

export interface PlanView {
  readonly plan: SamplingPlan;
  readonly title: string;
  readonly lede: string;
  readonly why: string;
  readonly facts: readonly Fact[];
  readonly cautions: readonly CautionView[];
  readonly zones: readonly PlanZoneRow[];
  readonly depth: { readonly text: string; readonly steps: readonly StepRow[]; readonly notes: readonly string[] };
  /** Cores for a mean within so many percent, by analyte: what more cores would buy. */
  readonly precision: { readonly heads: readonly string[]; readonly rows: readonly { readonly within: string; readonly cores: readonly string[] }[] } | undefined;
  readonly kept: readonly KeptRow[];
  readonly map: PlanMap | undefined;
  /** Why zones have no positions. */
  readonly unplaced: readonly string[];
  readonly tasks: readonly { readonly title: string; readonly rows: readonly TaskRow[] }[];
  readonly positions: readonly { readonly bag: PlannedBag; readonly cores: readonly { readonly name: string; readonly east: string; readonly north: string }[] }[];
  /** The unit of `positions`: ft or m from the south-west corner of the map. */
  readonly unit: string;
  /** Does the owner let the site tell where the field lies? Only then are positions in degrees on it. */
  readonly located: boolean;
  readonly tests: string;
  readonly cited: readonly Reference[];
  readonly weights: { readonly gpx: string; readonly geojson: string; readonly csv: string };
}

const places: Readonly<Record<Task["place"], string>> = { before: "Before you go", field: "In the field", bench: "At the bench and on the way" };

/** Everything the plan of one sampling shows, in the field's own units. */
export const planView = (theFarm: Farm, field: Field, request: PlanRequest): PlanView => {
  const farm = inUnitsOf(theFarm, field);
  const plan = planSampling(farm, field, request);
  const tasks = planHandling(field.guidelines, farm.allGuidelines.values(), request.purpose);
  const zones = plan.zones.map((z) => zoneRow(farm, plan, z));
  const told: Outcome<unknown>[] = [plan.depth, ...plan.zones.flatMap((z) => [z.cores, z.asked.outcome]), { kind: "answer", value: undefined, steps: [...tasks, ...(plan.setback ? [plan.setback] : [])].map(({ source }) => ({ what: "", result: "", source })), cautions: [] } satisfies Answer<undefined>];
  return {
    plan,
    title: `Sampling plan for ${field.name}`,
    ...opening(farm, field, plan),
    facts: facts(farm, plan),
    cautions: cautionViews([], true),
    zones,
    depth: { text: plan.depth.kind === "answer" ? samplingDepthLabel(plan.depth.value) : `No depth, because ${plan.depth.because}.`, steps: plan.depth.kind === "answer" ? stepRows(plan.depth.steps, farm.references) : [], notes: plan.depth.kind === "answer" ? plan.depth.cautions : [] },
    precision: precision(farm, field, plan),
    kept: keptRows(farm, plan),
    map: planMap(farm, field, plan),
    unplaced: [...new Set(plan.zones.flatMap((z) => (z.places.kind === "noAnswer" ? `No positions in ${z.zone.name}, because ${z.places.because}.` : [])))],
    tasks: (Object.keys(places) as Task["place"][]).map((place) => ({
      title: places[place],
      rows: tasks.filter((t) => t.place === place).map((t) => ({ text: t.text, source: sourceLink(t.source, farm.references), evidence: evidenceMark(t.evidence), note: t.note && capital(t.note) })),
    })),
    positions: positions(farm, field, plan),
    unit: unitChoices[farm.units].map,
    located: farm.publish.location,
    tests: testsOf(plan),
    cited: citedReferences(told, farm.references),
    weights: { gpx: weight(planGpx(farm, field, plan)), geojson: weight(planGeoJson(field, plan)), csv: weight(planLabelsCsv(farm, field, plan)) },
  };
};

const distance = (farm: Farm, meters: number): string => {
  const unit = unitChoices[farm.units].map;
  return `${show(convert(meters, "m", unit), 0)} ${unit}`;
};

/** How far east and north of the south-west corner of all zones each core stands: enough to find it, and no address. */
const positions = (farm: Farm, field: Field, plan: SamplingPlan): PlanView["positions"] => {
  const { west, south } = boundsOf(field.zones.flatMap((z) => z.area ?? []));
  const plane = planeAround([west, south]);
  const far = (meters: number): string => show(convert(meters, "m", unitChoices[farm.units].map), 0);
  return plan.bags
    .filter((b) => b.points.length > 0)
    .map((bag) => ({
      bag,
      cores: bag.points.map((at, i) => {
        const { x, y } = plane.toPlane(at);
        return { name: coreName(bag, i), east: far(x), north: far(y) };
      }),
    }));
};

/** What is asked to keep from an edge, and what is kept. */
const setbackSteps = (farm: Farm, setback: SamplingPlan["setback"], kept: number | undefined): Step[] =>
  setback === undefined || kept === undefined
    ? []
    : [
        { what: "Distance of a core from an edge", result: setback.asked, source: setback.source, evidence: setback.evidence, note: setback.pack.short },
        { what: "Kept in this zone", result: distance(farm, kept), ...(kept < setback.meters - 1e-9 && { note: "the largest part of it that leaves half of the zone to sample" }) },
      ];

const zoneRow = (farm: Farm, { setback }: SamplingPlan, { zone, asked, cores, places: found, bags }: PlannedZone): PlanZoneRow => {
  const unit = areaUnit(farm.units);
  const spec = asked.outcome;
  const kept = found.kind === "answer" ? found.value.setback : undefined;
  const shrunk = kept !== undefined && setback !== undefined && kept < setback.meters - 1e-9;
  return {
    zone,
    area: zone.squareMeters === undefined ? "not mapped" : `${area(zone.squareMeters, farm.units)} ${unit}`,
    bags: plain(bags.length),
    each: bags[0]?.squareMeters === undefined ? "not known" : `${area(Math.max(...bags.map((b) => b.squareMeters!)), farm.units)} ${unit}`,
    spec: spec.kind === "answer" ? `${asked.pack!.short} asks for ${spanLabel(spec.value)}; ${spec.steps[0]!.what.charAt(0).toLowerCase()}${spec.steps[0]!.what.slice(1)}: ${spec.steps[0]!.result}` : `One bag, because ${spec.because}`,
    cores: cores.kind === "answer" ? plain(cores.value) : `No number, because ${cores.because}`,
    setback: kept === undefined ? "no positions" : distance(farm, kept),
    steps: stepRows([...(spec.kind === "answer" ? spec.steps : []), ...(cores.kind === "answer" ? cores.steps : []), ...setbackSteps(farm, setback, kept)], farm.references),
    notes: [
      ...(shrunk ? [`${zone.name}: cores stay ${distance(farm, kept)} from every edge. ${setback.pack.short} asks for ${setback.asked}, which would leave less than half of the zone.`] : []),
      ...(spec.kind === "answer" && spec.value.most > spec.value.least ? [`${zone.name}: up to ${plain(spec.value.most)} bags by the smaller area that the guideline prints.`] : []),
      ...(bags.length > 1 ? [`${zone.name}: its ${count(bags.length, "bag")} stand for different parts of the zone. Make zones of them in field.yaml: two bags of one zone on one day are taken for duplicates.`] : []),
    ],
  };
};

const opening = (farm: Farm, field: Field, plan: SamplingPlan): { lede: string; why: string } => {
  const counts = [...new Set(plan.bags.map((b) => b.cores))];
  const cores = counts.length === 1 && counts[0] !== undefined ? `Take ${plain(counts[0])} cores ` : "Take cores ";
  const where = field.zones.length === 1 ? "from the field" : `from each of ${count(field.zones.length, "zone")}`;
  const deep = plan.depth.kind === "answer" ? `, ${samplingDepthLabel(plan.depth.value)} deep` : "";
  const due = dueOf(farm, field);
  return {
    lede: `${cores}${where}${deep}, into ${plan.bags.length === 1 ? "one bag" : plan.bags.length === field.zones.length ? "a bag each" : count(plan.bags.length, "bag")}.`,
    why: plan.request.purpose !== "routine" ? `A ${purposes[plan.request.purpose].label}, planned for ${longDate(plan.request.date)}.` : plan.last ? `Last sampled ${longDate(plan.last.date)}; the next sampling ${due.overdue ? "was" : "is"} due ${due.words.replace(", overdue", "")}.` : "This field has no routine sampling yet.",
  };
};

const facts = (farm: Farm, plan: SamplingPlan): Fact[] => {
  const { last, bags } = plan;
  const fee = last?.lab.packages[last.packageId]?.fee;
  const walked = bags.reduce((sum, b) => sum + (b.walk ?? 0), 0);
  const next = [...new Set(plan.zones.flatMap(({ zone }) => farm.fields.flatMap((f) => (f.zones.includes(zone) ? f.plan.filter((p) => p.zones.includes(zone.id)).slice(0, 1) : [])).map((p) => `${crops[p.crop].label}, ${p.season}`)))];
  return [
    { term: "Purpose", value: purposes[plan.request.purpose].label },
    { term: "Planned for", value: longDate(plan.request.date) },
    { term: "Depth", value: plan.depth.kind === "answer" ? samplingDepthLabel(plan.depth.value) : "not known" },
    { term: "Bags", value: plain(bags.length) },
    ...(last ? [{ term: "Laboratory", value: last.lab.name }] : []),
    ...(fee === undefined ? [] : [{ term: "Fee", value: `${money(fee * bags.length, farm.currency)}, ${money(fee, farm.currency)} a bag` }]),
    ...(walked > 0 ? [{ term: "Walk between cores", value: distance(farm, walked) }] : []),
    ...(next.length > 0 ? [{ term: "Next crop", value: list(next) }] : []),
    { term: "Seed of the positions", value: plain(plan.request.seed).replaceAll(",", "") },
  ];
};

const within = [10, 15, 20, 30];

/** From the spread between single cores, where a guideline at hand tells it. */
const precision = (farm: Farm, field: Field, plan: SamplingPlan): PlanView["precision"] => {
  const tested = Object.keys(plan.last?.lab.packages[plan.last.packageId]?.measures ?? {});
  const spreads = noiseRules(farm, field).filter((r, i, all) => r.core?.as === "percent" && tested.includes(r.analyte) && all.findIndex((o) => o.analyte === r.analyte && o.core) === i);
  if (spreads.length === 0) return undefined;
  return {
    heads: spreads.map((r) => `${analytes[r.analyte].label}, CV ${plain(r.core!.value)}%`),
    rows: within.map((error) => ({
      within: `${error}%`,
      cores: spreads.map((r) => {
        const needed = coresNeeded({ cv: r.core!.value, error, confidence: 0.95 });
        return needed.kind === "answer" ? plain(needed.value.cores) : "too many";
      }),
    })),
  };
};
