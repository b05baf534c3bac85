import { toCsv } from "../../exchange/csv.ts";
import { pointsGeoJson } from "../../exchange/cores/corePointsGeoJson.ts";
import { toGpx } from "../../exchange/cores/gpx.ts";
import type { SamplingDepth } from "../../interpretation/rules/samplingParts.ts";
import { samplingDepthLabel } from "../../interpretation/rules/samplingParts.ts";
import { convert } from "../../interpretation/units.ts";
import { counted, round } from "../../interpretation/show.ts";
import { unitChoices } from "../../interpretation/unitChoices.ts";
import { analytes } from "../../interpretation/vocabulary.ts";
import type { AnalyteId } from "../../interpretation/vocabulary.ts";
import type { Farm, Field } from "../../records/model.ts";
import type { PlannedBag, SamplingPlan } from "./planComposites.ts";
import { inUnitsOf } from "../units.ts";
import { plannedName } from "../samplingName.ts";

/** What a core is called on the map, in a receiver and in every list: "A7", or "A2-7" in the second bag of a zone. */
export const coreName = ({ mark }: Pick<PlannedBag, "mark">, index: number): string =>
  mark.length === 1 ? `${mark}${index + 1}` : `${mark}-${index + 1}`;

/** "0 to 8 in", "0 to 15.2 or 20.3 cm": a planned depth in the units of the page, whatever unit its guideline speaks. */
export const plannedDepth = ({ from, to, toMost, unit }: SamplingDepth, units: Farm["units"]): string => {
  const shown = unitChoices[units].length;
  const inUnits = (d: number): number => round(convert(d, unit, shown), 1);
  return samplingDepthLabel({
    from: inUnits(from),
    to: inUnits(to),
    toMost: toMost === undefined ? undefined : inUnits(toMost),
    unit: shown,
  });
};

const depthOf = (farm: Farm, { depth }: SamplingPlan): string =>
  depth.kind === "answer" ? `Sample ${plannedDepth(depth.value, farm.units)} deep` : "Depth not known";

/** Positions for a hand-held receiver: a waypoint each, and a route a bag in walking order. */
export const planGpx = (farm: Farm, field: Field, plan: SamplingPlan): string =>
  toGpx({
    name: `${field.name}, ${plannedName(field.guidelines, plan.request.purpose).label}, ${plan.request.season ?? plan.request.date}`,
    about: `${farm.name}. ${depthOf(inUnitsOf(farm, field), plan)}. Seed ${plan.request.seed}.`,
    routes: plan.bags
      .filter((bag) => bag.points.length > 0)
      .map((bag) => ({
        name: bag.label,
        about: `${bag.zone.name}: ${counted(bag.points.length, "core")} into one bag`,
        points: bag.points.map((at, i) => ({ at, name: coreName(bag, i), about: bag.label })),
      })),
  });

/** The same positions as RFC 7946 GeoJSON: a point a core, in walking order, with its bag. */
export const planGeoJson = (field: Field, plan: SamplingPlan): string =>
  pointsGeoJson(
    plan.bags.flatMap((bag) =>
      bag.points.map((at, i) => ({
        at,
        properties: {
          core: coreName(bag, i),
          order: i + 1,
          label: bag.label,
          field: field.id,
          zone: bag.zone.id,
          purpose: plan.request.purpose,
          ...(plan.request.season ? { season: plan.request.season } : { date: plan.request.date }),
        },
      })),
    ),
  );

/** What the laboratory is asked to test: "pH, phosphorus, potassium". */
export const testsOf = ({ order }: SamplingPlan): string =>
  Object.keys(order?.lab.packages[order.packageId]?.measures ?? {})
    .map((a) => analytes[a as AnalyteId].label)
    .join(", ");

/** The list that goes with the bags: a row a bag, its label letter for letter as on the bag. */
export const planLabelsCsv = (farm: Farm, field: Field, plan: SamplingPlan): string => {
  const units = unitChoices[inUnitsOf(farm, field).units];
  const areaName = units.area === "acre" ? "acres" : units.area.replace(" ", "_");
  const deep = plan.depth.kind === "answer" ? plan.depth.value : undefined;
  const inUnits = (d: number): number => round(convert(d, deep!.unit, units.length), 1);
  return toCsv(
    [
      "label",
      "farm",
      "field",
      "zone",
      "planned_for",
      "purpose",
      "cores",
      `depth_from_${units.length}`,
      `depth_to_${units.length}`,
      // Where the guideline leaves a choice, "0 to 6 or 8 in".
      `depth_to_most_${units.length}`,
      `area_${areaName}`,
      "laboratory",
      "package",
      "tests",
    ],
    plan.bags.map((bag) => [
      bag.label,
      farm.name,
      field.name,
      bag.zone.name,
      plan.request.season ? undefined : plan.request.date,
      plan.request.purpose,
      bag.cores,
      deep && inUnits(deep.from),
      deep && inUnits(deep.to),
      deep?.toMost === undefined ? undefined : inUnits(deep.toMost),
      bag.squareMeters === undefined ? undefined : round(convert(bag.squareMeters, "sq m", units.area), 2),
      plan.order?.lab.name,
      plan.order?.lab.packages[plan.order.packageId]?.name,
      testsOf(plan),
    ]),
  );
};
