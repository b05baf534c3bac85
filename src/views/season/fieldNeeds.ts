import type { AnalyteId } from "../../interpretation/vocabulary.ts";
import { analyteInSentence, nutrients } from "../../interpretation/vocabulary.ts";
import type { Farm, Field, Zone } from "../../records/model.ts";
import { awaitedOf } from "../results/awaited.ts";
import { dueOf } from "../calendar/due.ts";
import { excessOf } from "../advice/excess.ts";
import { leavesOut } from "../leftOut.ts";
import type { SeasonZone } from "./seasonZones.ts";
import { seasonZonesByField } from "./seasonZones.ts";
import { list, monthYear, numberWord } from "../words.ts";
import { isWithheld } from "../../interpretation/firstAnswer.ts";

/** What a field may need, most urgent first. */
export const needs = {
  sampling: "Sampling overdue",
  lime: "Lime due",
  potassium: "Potassium low",
  phosphorus: "Phosphorus low",
  excess: "Phosphorus in excess",
  other: "Another nutrient low",
  crop: "Fertilizer for the next crop, nothing low",
  awaited: "Results awaited",
  question: "A question open",
  nothing: "Nothing now",
} as const;
export type NeedKind = keyof typeof needs;
export const needKinds = Object.keys(needs) as NeedKind[];

/** One need of a field, from the advice for its zones: never more than that advice says. */
export interface Need {
  readonly kind: NeedKind;
  /** "lime due", "zinc low", "no rate of lime" */
  readonly what: string;
  /** The same with its place: "lime due on Outwash". */
  readonly words: string;
  readonly zones: readonly Zone[];
}

/** Nutrients besides phosphorus and potassium that a guideline may call low. */
const others: readonly AnalyteId[] = ["Mg", "S", "Ca", "Na", "Zn", "B", "Mn", "Cu", "Fe", "Cl"];

/** Is a result in a class below the range its guideline sets for the next crop? */
export const isLow = (zone: SeasonZone, analyte: AnalyteId): boolean =>
  (zone.advised?.advice.advice.ratings ?? []).some(
    (r) => r.measurement.analyte === analyte && r.outcome.kind === "answer" && r.outcome.value.position === "below",
  );

/** The nutrients that are advised where an analyte is low: as oxide, or as element. */
export const fedBy = { P: ["P2O5", "P"], K: ["K2O", "K"] } as const;

/** Has the zone a rate of the nutrient that the analyte is a test of, as its page shows it? */
export const isFed = ({ advised }: SeasonZone, analyte: "P" | "K"): boolean =>
  (advised?.view.actions ?? []).some((a) => fedBy[analyte].some((nutrient) => nutrient === a.kind));

/** Lime is called for: by a requirement, or by a soil pH below its range or the field's own target where none can be told. A table is only lacked where lime is due. */
export const isLimeDue = (zone: SeasonZone): boolean => {
  const needed = zone.advised?.advice.advice.lime.needed;
  return needed?.kind === "answer" ? needed.value !== "none" : isLow(zone, "pH") || needed?.missing.includes("a lime table") === true;
};

/** Lime is called for, and there is no rate of a material to spread. */
export const isUnlimed = (zone: SeasonZone): boolean => isLimeDue(zone) && zone.advised!.view.actions.every((a) => a.kind !== "lime");

/** Nutrients with a rate for the zone's next crop. */
const ratesOf = ({ advised }: SeasonZone): string[] =>
  (advised?.view.actions ?? []).flatMap(({ kind }) => (kind === "lime" ? [] : [nutrients[kind].label.toLowerCase()]));

/** Rates that every zone is asked for and this one has none of: not nitrogen, whose tests the calendar asks for, and not what is left out for a reader. */
const unanswered = ({ farm, advised }: SeasonZone): string[] => {
  if (!advised || advised.advice.nitrogenAlone) return [];
  const { lime, rates } = advised.advice.advice;
  const none = leavesOut(farm, "yields")
    ? []
    : rates.filter(
        (r) =>
          r.outcome.kind === "noAnswer" && !isWithheld(r.outcome) && (["P2O5", "K2O", "P", "K"] as const).some((n) => n === r.nutrient),
      );
  return [
    ...(lime.needed.kind === "noAnswer" && !isWithheld(lime.needed) ? ["lime"] : []),
    ...none.map((r) => nutrients[r.nutrient].label.toLowerCase()),
  ];
};

/** " on Knoll and Outwash", " on four of six zones"; nothing where it is the whole field. */
export const onZones = (field: Field, zones: readonly Zone[]): string => {
  if (zones.length === field.zones.length) return "";
  return zones.length > 2
    ? ` on ${numberWord(zones.length)} of ${numberWord(field.zones.length)} zones`
    : ` on ${list(zones.map((z) => z.name))}`;
};

const samplingNeed = (farm: Farm, field: Field): Need[] => {
  const due = dueOf(farm, field);
  if (!due.overdue) return [];
  const words = due.redrawn
    ? "not sampled since the zones were drawn anew"
    : due.never
      ? "never sampled"
      : due.last === undefined
        ? "not every zone has been sampled"
        : `sampling overdue, last ${monthYear(due.last)}`;
  return [{ kind: "sampling", what: "sampling overdue", words, zones: field.zones }];
};

const adviceNeeds = (field: Field, zones: readonly SeasonZone[]): Need[] => {
  const where = (test: (zone: SeasonZone) => boolean): Zone[] => zones.filter(test).map((z) => z.zone);
  const need = (kind: NeedKind, what: string, on: readonly Zone[]): Need[] =>
    on.length === 0 ? [] : [{ kind, what, words: `${what}${onZones(field, on)}`, zones: on }];
  const low = need(
    "potassium",
    "potassium low",
    where((z) => isLow(z, "K")),
  );
  const lowP = need(
    "phosphorus",
    "phosphorus low",
    where((z) => isLow(z, "P")),
  );
  const lowOther = others.flatMap((analyte) =>
    need(
      "other",
      `${analyteInSentence(analyte)} low`,
      where((z) => isLow(z, analyte)),
    ),
  );
  const anyLow = [...low, ...lowP, ...lowOther].length > 0;
  const fed = [...new Set(zones.flatMap(ratesOf))];
  const open = zones.map((z) => ({ zone: z.zone, rates: unanswered(z) }));
  const lacking = (rate: string): Zone[] => open.flatMap(({ zone, rates }) => (rates.includes(rate) ? [zone] : []));
  // Rates that the same zones lack stand together; of others it must not be said that all of these zones lack them.
  const sameZones = Map.groupBy(new Set(open.flatMap(({ rates }) => rates)), (rate) =>
    lacking(rate)
      .map((z) => z.id)
      .join(),
  );
  return [
    ...need("lime", "lime due", where(isLimeDue)),
    ...low,
    ...lowP,
    ...excessOf(zones.flatMap(({ advised }) => advised?.advice ?? [])).flatMap(({ what, zones: on }) => need("excess", what, on)),
    ...lowOther,
    ...(anyLow || fed.length === 0
      ? []
      : need(
          "crop",
          `${list(fed)} for the next crop`,
          where((z) => ratesOf(z).length > 0),
        )),
    ...[...sameZones.values()].flatMap((rates) => need("question", `no rate of ${list(rates, "or")}`, lacking(rates[0]!))),
  ];
};

const known = new WeakMap<Farm, ReadonlyMap<Field, readonly Need[]>>();

/** What every field needs, most urgent first, and at least one line each; worked out once a farm. */
export const farmNeeds = (farm: Farm): ReadonlyMap<Field, readonly Need[]> => {
  let all = known.get(farm);
  if (!all) {
    known.set(farm, (all = new Map([...seasonZonesByField(farm)].map(([field, zones]) => [field, needsOf(farm, field, zones)]))));
  }
  return all;
};

const needsOf = (farm: Farm, field: Field, zones: readonly SeasonZone[]): Need[] => {
  const awaited =
    awaitedOf(field).length > 0
      ? [{ kind: "awaited", what: "results awaited", words: "results awaited", zones: field.zones } as const]
      : [];
  const found: Need[] = [...samplingNeed(farm, field), ...adviceNeeds(field, zones), ...awaited];
  if (found.length === 0) return [{ kind: "nothing", what: "nothing now", words: "nothing now", zones: field.zones }];
  return found.sort((a, b) => needKinds.indexOf(a.kind) - needKinds.indexOf(b.kind));
};
