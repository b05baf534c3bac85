import { boundsOf, planeAround } from "../../exchange/geometry.ts";
import type { Step } from "../../interpretation/outcome.ts";
import { plain, show } from "../../interpretation/show.ts";
import { coresNeeded } from "../../interpretation/statistics/coresNeeded.ts";
import { convert } from "../../interpretation/units.ts";
import { unitChoices } from "../../interpretation/unitChoices.ts";
import { analytes } from "../../interpretation/vocabulary.ts";
import type { Farm, Field } from "../../records/model.ts";
import { noiseRules } from "../trends/history.ts";
import type { PlannedBag, SamplingPlan } from "./planComposites.ts";
import { coreName } from "./planFiles.ts";
import type { StepRow } from "../steps.ts";
import { stepRows } from "../steps.ts";

export interface BagPositions {
  readonly bag: PlannedBag;
  readonly cores: readonly { readonly name: string; readonly east: string; readonly north: string }[];
}

/** Cores for a mean within so many percent, by analyte: what more cores would buy. */
export interface Precision {
  readonly heads: readonly string[];
  /** Where each spread is from. */
  readonly steps: readonly StepRow[];
  readonly spreads: readonly Step[];
  readonly rows: readonly { readonly within: string; readonly cores: readonly string[] }[];
}

/** How far east and north of the south-west corner of all zones each core stands: enough to find it, and no address. */
export const positions = (farm: Farm, field: Field, plan: SamplingPlan): BagPositions[] => {
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

const within = [10, 15, 20, 30];

/** From the spread between single cores, where a guideline at hand tells it. Not of pH: it is a logarithm, and nobody wants it to a percent. */
export const precision = (farm: Farm, field: Field, plan: SamplingPlan): Precision | undefined => {
  const tested = Object.keys(plan.order?.lab.packages[plan.order.packageId]?.measures ?? {});
  const spreads = noiseRules(farm, field).filter(
    (r, i, all) =>
      r.core?.as === "percent" &&
      analytes[r.analyte].unit !== "pH" &&
      tested.includes(r.analyte) &&
      all.findIndex((o) => o.analyte === r.analyte && o.core) === i,
  );
  if (spreads.length === 0) return undefined;
  const steps = spreads.map(({ analyte, core }): Step => ({
    what: `${analytes[analyte].label}, spread between single cores (CV)`,
    result: `${plain(core!.value)}%`,
    source: core!.source,
    evidence: core!.evidence,
    note: core!.note,
  }));
  return {
    heads: spreads.map((r) => `${analytes[r.analyte].label}, CV ${plain(r.core!.value)}%`),
    steps: stepRows(steps, farm.references),
    spreads: steps,
    rows: within.map((error) => ({
      within: `${error}%`,
      cores: spreads.map((r) => {
        const needed = coresNeeded({ cv: r.core!.value, error, confidence: 0.95 });
        return needed.kind === "answer" ? plain(needed.value.cores) : "too many";
      }),
    })),
  };
};
