import type { UnitChoice } from "../../interpretation/unitChoices.ts";
import type { CautionPlace } from "../../interpretation/caution.ts";
import type { Farm, Field } from "../../records/model.ts";
import type { SpreadLine } from "./seasonLines.ts";
import type { SeasonZone } from "./seasonZones.ts";
import type { CautionView } from "../advice/cautionViews.ts";
import { cautionView, cautionViews } from "../advice/cautionViews.ts";
import { isAmmonia } from "../advice/bandedAmmonia.ts";
import { byUnits } from "./seasonZones.ts";
import { capital, listOrCount } from "../words.ts";

/** One product spread with one setting of the spreader: every zone that takes it, in the order of fields. */
export interface SpreadJob {
  /** `us-fertilizer-potash`, for anchors. */
  readonly id: string;
  readonly key: string;
  readonly units: UnitChoice;
  readonly kind: SpreadLine["kind"];
  readonly product: SpreadLine["product"];
  /** "Muriate of potash, 0-0-60"; with the fields where the farm counts in several units. */
  readonly title: string;
  readonly rows: readonly { readonly zone: SeasonZone; readonly line: SpreadLine }[];
}

const order = ["lime", "fertilizer", "starter"] as const;

/** What is to be spread on the farm or on some of its fields, lime first, then by the products' ids; zones in other units make a job of their own. */
export const spreadJobs = (farm: Farm, fields: readonly Field[] = farm.fields): SpreadJob[] =>
  byUnits(farm, fields).flatMap(({ units, zones }) => {
    const rows = zones.flatMap((zone) => zone.lines.map((line) => ({ zone, line })));
    const keys = [...new Set(rows.map(({ line }) => line.job))];
    return keys
      .map((key): SpreadJob => {
        const own = rows.filter(({ line }) => line.job === key);
        const { kind, product } = own[0]!.line;
        const where = units === farm.units ? "" : `: ${listOrCount([...new Set(own.map((r) => r.zone.field.name))], "field")}`;
        return {
          id: `${units}-${key}`,
          key,
          units,
          kind,
          product,
          title: `${capital(product.name)}${kind === "starter" ? ", as starter" : ""}${where}`,
          rows: own,
        };
      })
      .sort((a, b) => order.indexOf(a.kind) - order.indexOf(b.kind) || (a.key < b.key ? -1 : 1));
  });

const places: Partial<Record<string, CautionPlace>> = {
  N: "nitrogen",
  P2O5: "phosphorus",
  P: "phosphorus",
  K2O: "potassium",
  K: "potassium",
};

/** The advice whose cautions belong beside a job: lime's, or that of each nutrient which the product brings. */
const cautionPlaces = ({ kind, rows }: SpreadJob): CautionPlace[] =>
  kind === "lime" ? ["lime"] : [...new Set(rows.flatMap(({ line }) => line.brings.flatMap((b) => places[b.nutrient] ?? [])))];

const ammonia = cautionView("anhydrousAmmonia").id;

/** What to beware of with some jobs, of all that is advised for their zones; `besides`: elsewhere too. A product that is no ammonia needs no word of it. */
export const jobCautions = (jobs: readonly SpreadJob[], besides: readonly CautionPlace[] = []): CautionView[] =>
  cautionViews(
    jobs.flatMap(({ rows }) => rows.flatMap((r) => r.zone.advised?.advice ?? [])),
    false,
    [...besides, ...jobs.flatMap(cautionPlaces)],
  ).filter(({ id }) => id !== ammonia || jobs.some(({ rows }) => rows.some(({ line }) => line.fertilizer && isAmmonia(line.fertilizer))));
