import type { CoreRequest, PlacedCores } from "../../exchange/cores/corePoints.ts";
import { corePoints } from "../../exchange/cores/corePoints.ts";
import type { Position } from "../../exchange/geometry.ts";
import { seedOf } from "../../exchange/cores/seeded.ts";
import type { Outcome } from "../../interpretation/outcome.ts";
import { answer, noAnswer } from "../../interpretation/outcome.ts";
import type { LastTime, WantedError } from "../../interpretation/sampling/planCores.ts";
import { planCores, planDepth } from "../../interpretation/sampling/planCores.ts";
import type { Setback } from "../../interpretation/sampling/planHandling.ts";
import { planAvoided, planSetback } from "../../interpretation/sampling/planHandling.ts";
import { bagLabel, fieldCode } from "../../interpretation/sampling/planLabel.ts";
import type { SamplingDepth } from "../../interpretation/rules/samplingParts.ts";
import type { SamplingAdvice } from "../../interpretation/sampling/samplingAdvice.ts";
import { convert } from "../../interpretation/units.ts";
import { usualDepth } from "../../interpretation/sampling/usualDepth.ts";
import type { PurposeId } from "../../interpretation/vocabulary.ts";
import type { Farm, Field, Sampling, Zone } from "../../records/model.ts";
import { nextCrop } from "../advice/nextCrop.ts";
import { bandedAmmonia } from "../advice/bandedAmmonia.ts";
import { zoneSamplingAdvice } from "../advice/samplingQuality.ts";
import { lastOfZone, lastSampling } from "../calendar/lastSampling.ts";
import type { Order } from "../calendar/testingFees.ts";
import { nextOrder } from "../calendar/testingFees.ts";

export interface PlanRequest {
  readonly purpose: PurposeId;
  /** The day it is planned for, `YYYY-MM-DD`. */
  readonly date: string;
  /** "June 2026", where the day only stands for a season: it is shown in place of the day. */
  readonly season?: string | undefined;
  /** Ids of the zones to sample; every zone where it is left out. */
  readonly zones?: readonly string[] | undefined;
  /** The same seed gives the same places. */
  readonly seed: number;
  /** Cores by a wanted error rather than by a guideline. */
  readonly wanted?: WantedError | undefined;
  /** What labels begin with instead of the field's code. */
  readonly labelStart?: string | undefined;
}

/** One bag to fill. */
export interface PlannedBag {
  readonly label: string;
  readonly zone: Zone;
  /** "A", or "A1" and "A2" where a zone is too large for one bag: cores are named after it. */
  readonly mark: string;
  readonly cores: number | undefined;
  /** In walking order; empty where no place could be found. */
  readonly points: readonly Position[];
  readonly squareMeters: number | undefined;
  /** Meters from its first core to its last. */
  readonly walk: number | undefined;
}

export interface PlannedZone {
  readonly zone: Zone;
  /** How many bags the guidelines ask of its area. */
  readonly asked: SamplingAdvice["composites"];
  readonly cores: Outcome<number>;
  readonly places: Outcome<PlacedCores>;
  readonly bags: readonly PlannedBag[];
}

export interface SamplingPlan {
  readonly request: PlanRequest;
  /** What it follows: the sampling for the same purpose that was the last of most of its zones. */
  readonly last: Sampling | undefined;
  /** Zones that were last sampled on another day. */
  readonly others: readonly { readonly last: Sampling; readonly zones: readonly Zone[] }[];
  /** Where the bags go: as last time, else where it was sampled for another purpose. */
  readonly order: Order | undefined;
  readonly depth: Outcome<SamplingDepth>;
  readonly zones: readonly PlannedZone[];
  readonly bags: readonly PlannedBag[];
  readonly setback: Setback | undefined;
  readonly avoid: readonly AvoidedPlace[];
}

/** Something in or beside the field that cores stay away from; `meters` is absent where neither the record nor a guideline says how far. */
export interface AvoidedPlace {
  readonly what: string;
  readonly line: readonly Position[];
  readonly meters: number | undefined;
  /** Whose distance it is; absent for the record's own. */
  readonly by?: Setback | undefined;
}

const avoidedPlaces = (farm: Farm, field: Field): AvoidedPlace[] =>
  field.avoid.map(({ what, kind, distance, where }) => {
    const by = kind && !distance ? planAvoided(field.guidelines, farm.allGuidelines.values(), kind) : undefined;
    return { what, line: where, meters: distance ? convert(distance.value, distance.unit, "m") : by?.meters, by };
  });

/** A field's samplings for the purpose before, or on, the day of the plan, oldest first. */
const earlierOf = (field: Field, { purpose, date }: PlanRequest): Sampling[] =>
  field.samplings.filter((s) => s.purpose === purpose && s.date <= date);

/** Cores of the newest bag of a zone that says how many it had. */
const lastCores = (earlier: readonly Sampling[], zone: Zone): LastTime<number> | undefined => {
  const bag = earlier.flatMap((s) => s.composites).findLast((c) => c.zone === zone.id && c.cores !== undefined);
  return bag && { value: bag.cores!, source: { record: bag.origin } };
};

/**
 * The cores that guidelines ask for. Where they hang on ammonia banded before the crop, which may yet be done where no record tells of it,
 * those for ground where it was: enough for both. Cores of last time go before it.
 */
const coresAsked = (field: Field, zone: Zone, { purpose, date }: PlanRequest, { cores }: SamplingAdvice): SamplingAdvice["cores"] => {
  if (cores.outcome.kind === "answer" || !cores.outcome.missing.includes("bandedAmmonia")) return cores;
  const whereBanded = zoneSamplingAdvice(field, zone, purpose, date, { bandedAmmonia: "yes" }).cores;
  if (bandedAmmonia(field, zone, { purpose, date }) === "yes") return whereBanded;
  const { pack, outcome } = whereBanded;
  return outcome.kind === "answer"
    ? {
        pack,
        outcome: {
          ...outcome,
          cautions: [
            `no record tells whether anhydrous ammonia was banded, so the cores are as many as ${pack?.short ?? "the guideline"} asks for where it was.`,
          ],
        },
      }
    : cores;
};

/** Kept off edges, in meters, where no guideline at hand says how far: the reach of an arm and a half. */
const plainSetback = 1;

/** Everything a sampling is planned with, short of words: bags, cores and their places, zone by zone in the field's order. */
export const planSampling = (farm: Farm, field: Field, request: PlanRequest): SamplingPlan => {
  const earlier = earlierOf(field, request);
  const setback = planSetback(field.guidelines, farm.allGuidelines.values());
  const taken = new Set(farm.fields.flatMap((f) => f.samplings.flatMap((s) => s.composites.map((c) => c.label.toUpperCase()))));
  const start =
    request.labelStart ??
    fieldCode(
      field.id,
      farm.fields.map((f) => f.id),
    );
  const sampled = field.zones.filter((z) => request.zones?.includes(z.id) ?? true);
  const last = lastSampling(earlier, sampled);
  const others = Map.groupBy(sampled, (zone) => lastOfZone(earlier, zone));
  const ask = (zone: Zone): SamplingAdvice => zoneSamplingAdvice(field, zone, request.purpose, request.date);
  const avoid = avoidedPlaces(farm, field);
  const away = avoid.flatMap(({ line, meters }) => (meters === undefined ? [] : [{ line, meters }]));
  let from: Position | undefined;
  const zones = sampled.map((zone): PlannedZone => {
    const advice = ask(zone);
    const before = lastCores(earlier, zone);
    const cores = planCores(request.purpose, before ? advice.cores : coresAsked(field, zone, request, advice), before, request.wanted);
    const composites = advice.composites.outcome.kind === "answer" ? advice.composites.outcome.value.least : 1;
    const places = placesOf(zone, cores, composites, {
      setback: setback?.meters ?? plainSetback,
      avoid: away,
      seed: seedOf(`${request.seed} ${field.id} ${zone.id}`),
      from,
    });
    const bags = Array.from({ length: composites }, (_, i): PlannedBag => {
      const found = places.kind === "answer" ? places.value.composites[i] : undefined;
      from = found?.cores.at(-1) ?? from;
      return {
        label: bagLabel(start, zone.letter, request.date, request.purpose, taken),
        zone,
        mark: composites === 1 ? zone.letter : `${zone.letter}${i + 1}`,
        cores: cores.kind === "answer" ? cores.value : undefined,
        points: found?.cores ?? [],
        squareMeters: found?.squareMeters ?? (zone.squareMeters === undefined ? undefined : zone.squareMeters / composites),
        walk: found?.walk,
      };
    });
    return { zone, asked: advice.composites, cores, places, bags };
  });
  const [first] = sampled;
  const depth = planDepth(
    request.purpose,
    first ? ask(first).depth : { pack: undefined, outcome: noAnswer("no zone is to be sampled", ["a zone"]) },
    last && { value: last.depth, source: { record: { file: last.file, line: 1, column: 1 } } },
    usualDepth(request.purpose, {
      packs: field.guidelines,
      crop: first && nextCrop(field, first.id, request.date)?.crop,
      sod: field.tillage === "sod",
    }),
  );
  const order = last ? { lab: last.lab, packageId: last.packageId } : nextOrder(farm, field, request.purpose, sampled);
  return {
    request,
    last,
    others: [...others].flatMap(([other, of]) => (other === undefined || other === last ? [] : [{ last: other, zones: of }])),
    order,
    depth,
    zones,
    bags: zones.flatMap((z) => z.bags),
    setback,
    avoid,
  };
};

const placesOf = (
  zone: Zone,
  cores: Outcome<number>,
  composites: number,
  how: Pick<CoreRequest, "setback" | "avoid" | "seed" | "from">,
): Outcome<PlacedCores> => {
  if (!zone.area) return noAnswer(`zone ${zone.name} has no boundary in zones.geojson`, ["boundary"]);
  if (cores.kind === "noAnswer") return cores;
  const found = corePoints(zone.area, { composites, cores: cores.value, ...how });
  if (found.kind === "placed") return answer(found, []);
  if (found.because === "avoided")
    return noAnswer(`what is to be avoided leaves less than half of zone ${zone.name}`, ["a zone away from it"]);
  return found.because === "tooNarrow"
    ? noAnswer(`zone ${zone.name} is too narrow: even a small part of the distance to its edges leaves less than half of it`, [
        "a wider zone",
      ])
    : noAnswer(`zone ${zone.name} is too small for ${composites * cores.value} cores: they would stand within half a meter of each other`, [
        "a larger zone",
        "fewer cores",
      ]);
};
