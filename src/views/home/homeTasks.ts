import type { CautionId } from "../../interpretation/cautions.ts";
import { cautions } from "../../interpretation/cautions.ts";
import type { Guideline } from "../../interpretation/guideline.ts";
import { limeCounted } from "../../interpretation/lime/lime.ts";
import type { Outcome } from "../../interpretation/outcome.ts";
import { weakestEvidence } from "../../interpretation/outcome.ts";
import type { Farm, Field } from "../../records/model.ts";
import { awaitedOf } from "../results/awaited.ts";
import { dueOf } from "../calendar/due.ts";
import { byNeed, fieldList } from "./fieldList.ts";
import type { NeedKind } from "../season/fieldNeeds.ts";
import { isUnlimed, needKinds } from "../season/fieldNeeds.ts";
import { excessOf } from "../advice/excess.ts";
import { cropsBySeason } from "../advice/cropWords.ts";
import { jobs, where } from "../advice/jobs.ts";
import { laterCropsLeftOut, laterRatesLeftOut, ratesLeftOut } from "../leftOut.ts";
import type { Bought } from "../advice/productsView.ts";
import type { SeasonZone } from "../season/seasonZones.ts";
import { currentNitrogen } from "../advice/zonePurchase.ts";
import { nitrogenLimits } from "../advice/nitrogenLimit.ts";
import { silentOf } from "../advice/silent.ts";
import { seasonZonesByField } from "../season/seasonZones.ts";
import type { ZoneAdvice } from "../advice/sample.ts";
import type { EvidenceMark } from "../steps.ts";
import { evidenceMark } from "../steps.ts";
import { mass, money } from "../units.ts";
import { alreadyWords, limeWhy, lowWhy, lowWords, unfedWhy, unlimedWhy } from "../season/whyWords.ts";
import { list, monthYear } from "../words.ts";

export interface Task {
  readonly field: Field;
  readonly kind: NeedKind;
  readonly when: string;
  readonly urgent: boolean;
  /** False for a line that only says why there is nothing to do. */
  readonly job: boolean;
  readonly text: string;
  /** Why, and how much. */
  readonly detail: string;
  /** Whose rule gives the rates, and how well it is known; absent where there is no rate. */
  readonly by?:
    | { readonly guidelines: readonly { readonly id: string; readonly short: string }[]; readonly evidence: EvidenceMark | undefined }
    | undefined;
}

const known = new WeakMap<Farm, readonly Task[]>();

/** What is to be done on every field, most urgent first; of one urgency the longest untested first, as in the list of fields. Worked out once a farm. */
export const farmTasks = (farm: Farm): readonly Task[] => {
  let tasks = known.get(farm);
  if (!tasks) {
    const zonesOf = seasonZonesByField(farm);
    const all = byNeed(fieldList(farm)).flatMap(({ field }) => [
      ...samplingTasks(farm, field),
      ...adviceTasks(farm, field, zonesOf.get(field) ?? []),
    ]);
    known.set(farm, (tasks = all.sort((a, b) => needKinds.indexOf(a.kind) - needKinds.indexOf(b.kind))));
  }
  return tasks;
};

const samplingTasks = (farm: Farm, field: Field): Task[] => {
  const due = dueOf(farm, field);
  const awaited = awaitedOf(field);
  const late: Task[] = due.overdue
    ? [
        {
          field,
          kind: "sampling",
          when: "Now",
          urgent: true,
          job: true,
          text: due.last
            ? "Sample again"
            : due.redrawn
              ? "Sample the new zones"
              : due.never
                ? "Sample for the first time"
                : "Sample every zone",
          detail: due.last
            ? `Last sampled ${monthYear(due.last)}; the next sampling was due ${due.words.replace(", overdue", "")}.`
            : due.redrawn
              ? "None of its zones was sampled since they were drawn anew."
              : due.never
                ? "It has no routine sampling."
                : "Not every zone has a routine sampling.",
        },
      ]
    : [];
  return awaited.length === 0
    ? late
    : [
        ...late,
        {
          field,
          kind: "awaited",
          when: "At the laboratory",
          urgent: false,
          job: false,
          text: "Results awaited",
          detail: awaited.join(" "),
        },
      ];
};

const adviceTasks = (farm: Farm, field: Field, zones: readonly SeasonZone[]): Task[] => {
  const shown = zones[0]?.farm ?? farm;
  const advised = zones.flatMap(({ advised: found }) => found ?? []);
  const next = cropsBySeason(advised.flatMap(({ advice }) => advice.crop ?? [])).map(({ season, words }) => `${season} ${words}`);
  const when =
    next.length > 0 ? `For ${list(next)}` : laterCropsLeftOut(farm) ? "For a crop after the years shown" : "Next crop not planned";
  const fieldJobs = jobs(
    advised.flatMap(({ view }) => view.actions),
    field.zones.length,
  );
  const base = { field, when, urgent: false };
  // A caution without which the advice itself would be wrong: the first page shows no others.
  const warned = (id: CautionId): boolean => advised.some(({ advice }) => advice.advice.cautions.includes(id));
  const tasks = fieldJobs.map((job): Task => {
    if (job.lime)
      return {
        ...base,
        kind: "lime",
        job: true,
        text: job.text,
        detail: [
          limeWhy(zones),
          job.detail,
          alreadyWords(zones, "lime"),
          limeCostWords(farm, zones),
          warned("commonScab") ? cautions.commonScab.text : "",
        ]
          .filter(Boolean)
          .join(" "),
        by: ruleOf(advised.flatMap(({ advice }) => limeRates(advice))),
      };
    const low = lowWhy(zones);
    const kind = lowWords(zones, "K") !== "" ? "potassium" : low.length > 0 ? "phosphorus" : "crop";
    return {
      ...base,
      kind,
      job: true,
      text: job.text,
      detail: [
        ...low,
        `${job.detail}${shoppingWords(
          shown,
          advised.flatMap(({ view }) => view.bought),
        )}`,
        alreadyWords(zones, "fertilizer") || (warned("manureInRates") ? "What manure for this crop brings is not taken off." : ""),
        ...unfedWhy(zones, "K"),
        ...unfedWhy(zones, "P"),
      ]
        .filter(Boolean)
        .join(" "),
      by: ruleOf(advised.flatMap(({ advice }) => [...currentNitrogen(advice), ...advice.advice.rates])),
    };
  });
  for (const { text, detail, zones: on } of excessOf(advised.map(({ advice }) => advice)))
    tasks.push({ ...base, kind: "excess", job: true, text: `${text} on ${where(on, field.zones.length)}`, detail });
  const unlimed = zones.filter(isUnlimed);
  if (unlimed.length > 0)
    tasks.push({
      ...base,
      kind: "lime",
      job: true,
      text: `Lime is due on ${where(
        unlimed.map((z) => z.zone),
        field.zones.length,
      )}`,
      detail: [...unlimedWhy(zones), ...limeSilent(unlimed)].join(" "),
    });
  const silent = silentOf(advised.flatMap(({ view }) => view.rows));
  const due = dueOf(farm, field);
  const limits = nitrogenLimits(
    shown,
    advised.map(({ advice }) => advice),
    field.zones.length,
  );
  if (tasks.length > 0 || advised.length === 0 || (due.overdue && limits.length === 0)) return tasks;
  const leftOut = advised.some(({ advice }) => advice.sample.facts.cropWithheld) ? laterRatesLeftOut : ratesLeftOut(farm);
  if (leftOut !== "") return [{ ...base, kind: "question", job: false, text: "No rates are shown", detail: leftOut }];
  return [
    {
      ...base,
      kind: silent.length > 0 ? "question" : "nothing",
      job: false,
      text: limits.length > 0 ? "A limit of nitrogen" : silent.length > 0 ? "No advice" : "Nothing to do",
      detail: [...limits, ...(due.overdue ? [] : [silent[0] ?? `Next sampling ${due.words}.`])].join(" "),
    },
  ];
};

/** What zones that are to be limed require, where it is one and the same, and why they have no rate of a material to spread. */
const limeSilent = (zones: readonly SeasonZone[]): string[] => {
  const rows = zones.flatMap(({ zone, advised }) => (advised?.view.rows ?? []).filter((r) => r.id === `${zone.id}-lime`));
  const required = new Set(rows.map((r) => (r.value === "" ? "" : `Requirement: ${r.value} ${r.unit} ${r.detail}.`)));
  const because = rows[0]?.none ?? (required.size === 1 ? "" : "The farm lists no liming material.");
  return [...(required.size === 1 ? required : []), because].filter(Boolean);
};

interface Ruled {
  readonly pack: Guideline | undefined;
  readonly outcome: Outcome<unknown>;
}

/** A rate of lime rests on the guideline's requirement and on what the farm's material is worth. */
const limeRates = ({ advice: { lime } }: ZoneAdvice): Ruled[] => {
  const { needed } = lime;
  if (needed.kind === "noAnswer" || needed.value === "none") return [];
  const { pack } = needed.value;
  const counted = limeCounted(lime);
  return [needed, ...(counted ? [counted.outcome] : [])].map((outcome) => ({ pack, outcome }));
};

const ruleOf = (rates: readonly Ruled[]): Task["by"] => {
  const answered = rates.filter((r) => r.outcome.kind === "answer");
  const packs = new Map(answered.flatMap(({ pack }) => (pack ? [[pack.id, { id: pack.id, short: pack.short }]] : [])));
  return {
    guidelines: [...packs.values()],
    evidence: evidenceMark(weakestEvidence(answered.flatMap(({ outcome }) => (outcome.kind === "answer" ? outcome.steps : [])))),
  };
};

const limeCostWords = (farm: Farm, zones: readonly SeasonZone[]): string => {
  const cost = zones.reduce((sum, { advised }) => sum + (advised?.view.limeCost ?? 0), 0);
  return cost > 0 ? `About ${money(cost, farm.currency)} of lime on this field.` : "";
};

/** " That takes 1,120 lb of muriate of potash, 0-0-60, about $252." */
const shoppingWords = (farm: Farm, bought: readonly Bought[]): string => {
  const totals = new Map<string, Bought>();
  for (const b of bought) {
    const so = totals.get(b.name);
    totals.set(
      b.name,
      so
        ? { name: b.name, pounds: so.pounds + b.pounds, cost: so.cost === undefined || b.cost === undefined ? undefined : so.cost + b.cost }
        : b,
    );
  }
  if (totals.size === 0) return "";
  return ` That takes ${list([...totals.values()].map((b) => `${mass(b.pounds, farm.units)} of ${b.name}${b.cost === undefined ? "" : ` (about ${money(b.cost, farm.currency)})`}`))}.`;
};
