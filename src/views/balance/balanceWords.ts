import type { BalancedId, SeasonBalance } from "../../interpretation/balance/balance.ts";
import type { NoAnswer, Outcome } from "../../interpretation/outcome.ts";
import { unitChoices } from "../../interpretation/unitChoices.ts";
import { convert } from "../../interpretation/units.ts";
import { crops, nutrients } from "../../interpretation/vocabulary.ts";
import type { Farm } from "../../records/model.ts";
import { signed } from "./balanceDrawing.ts";
import { nutrientRate, roundedApart } from "../units.ts";
import { list, zonesOrCount } from "../words.ts";
import type { ZoneBalance } from "./zoneBalances.ts";

/** The unit a balance is shown in: lb/ac or kg/ha. */
export const balanceUnit = (farm: Farm): "lb/ac" | "kg/ha" =>
  nutrientRate({ value: 0, unit: "lb/ac" }, farm.units).unit as "lb/ac" | "kg/ha";

/** An amount of lb/ac in the farm's unit, with its direction where it is a difference. */
export const balanceAmount = (outcome: Outcome<number>, farm: Farm, sign = false): string => {
  if (outcome.kind === "noAnswer") return "not known";
  return sign
    ? signed(convert(outcome.value, "lb/ac", balanceUnit(farm)), unitChoices[farm.units].decimals)
    : nutrientRate({ value: outcome.value, unit: "lb/ac" }, farm.units).value;
};

const summed = (seasons: readonly SeasonBalance[]): readonly SeasonBalance[] => seasons.filter((s) => s.sum.kind === "answer");
const total = (seasons: readonly SeasonBalance[] | undefined): number | undefined => {
  const last = seasons && summed(seasons).at(-1)?.sum;
  return last?.kind === "answer" ? last.value : undefined;
};

/** "soybean and alfalfa": what took nitrogen from the air in the seasons that are summed. */
const fixersOf = (seasons: readonly SeasonBalance[]): string =>
  list([...new Set(seasons.flatMap((s) => s.fixers))].map((c) => crops[c].label));

/** "in 2014", "from 2014 to 2025" */
const spanOf = (seasons: readonly SeasonBalance[]): string =>
  seasons.length === 1 ? `in ${seasons[0]!.season}` : `from ${seasons[0]!.season} to ${seasons.at(-1)!.season}`;

/** "488 applied, 512 removed from 2014 to 2025: −24 lb/ac." */
export const balanceVerdict = ({ seasons, ends }: ZoneBalance, farm: Farm): string => {
  const known = summed(seasons);
  const counted = known.filter((s) => s.fixers.length === 0);
  const gap = seasons.find((s) => s.sum.kind === "noAnswer")?.sum as NoAnswer | undefined;
  const because = gap && `${gap.because.replace("it is incomplete", "The sum is incomplete")}.`;
  if (known.length === 0) return because ?? "No season is recorded.";
  const fixers = fixersOf(known);
  if (counted.length === 0) {
    const passed = !gap ? "every season" : known.length === 1 ? `the season of ${known[0]!.season}` : `the seasons ${spanOf(known)}`;
    return [`Nothing is summed, because ${passed} had ${fixers}.`, because].filter(Boolean).join(" ");
  }
  const add = (of: (s: SeasonBalance) => Outcome<number>): string =>
    balanceAmount(
      { kind: "answer", value: counted.map(of).reduce((sum, o) => sum + (o.kind === "answer" ? o.value : 0), 0), steps: [], cautions: [] },
      farm,
    );
  const span = spanOf(counted);
  const [low, high] = [total(ends?.low), total(ends?.high)].map(
    (value) => value !== undefined && signed(convert(value, "lb/ac", balanceUnit(farm)), unitChoices[farm.units].decimals),
  );
  const reach = low && high && low !== high ? `, and between ${low} and ${high} by the ends of the printed ranges` : "";
  const [applied, removed, sum] = [add((s) => s.applied), add((s) => s.removed), balanceAmount(known.at(-1)!.sum, farm, true)];
  return [
    `${applied} applied, ${removed} removed ${span}${fixers ? `, the seasons of ${fixers} left out` : ""}: ${sum} ${balanceUnit(farm)}${roundedApart([sum, removed], applied)}${reach}.`,
    because,
  ]
    .filter(Boolean)
    .join(" ");
};

/** "More potash was removed than put back on Knoll and Outwash." */
export const balanceFinding = (zones: readonly ZoneBalance[]): string => {
  const label = nutrients[zones[0]!.nutrient].label.toLowerCase();
  const sums = zones.flatMap(({ zone, seasons, ends }) => {
    const value = total(seasons);
    if (value === undefined || seasons.every((s) => s.sum.kind === "noAnswer" || s.fixers.length > 0)) return [];
    const way =
      (total(ends?.low) ?? value) < 0 ? ((total(ends?.high) ?? value) < 0 ? ("out" as const) : ("either" as const)) : ("in" as const);
    return [{ zone, way }];
  });
  if (sums.length === 0) return `The ${label} balance cannot be summed`;
  const on = (way: "out" | "in" | "either"): string | undefined => {
    const some = sums.filter((s) => s.way === way);
    return some.length === 0
      ? undefined
      : some.length === zones.length
        ? ""
        : ` on ${zonesOrCount(
            some.map((s) => s.zone),
            zones.length,
          )}`;
  };
  const [out, back, either] = [on("out"), on("in"), on("either")];
  const told = out !== undefined || back !== undefined;
  const says = [
    out !== undefined && `more ${label} was removed than put back${out}`,
    back !== undefined && `${out === undefined ? `more ${label} was put on than removed` : "more was put on than removed"}${back}`,
    either !== undefined &&
      (told ? `${either.trimStart()} it cannot be told` : `whether more ${label} was put on than removed cannot be told${either}`),
  ].filter((each): each is string => each !== false);
  const aside = fixersOf(zones.flatMap((z) => summed(z.seasons)));
  const partly = zones.some((z) => z.seasons.some((s) => s.sum.kind === "noAnswer")) ? ", as far as it can be summed" : "";
  const text = `${aside ? `seasons of ${aside} aside, ` : ""}${says.join("; ")}${partly}`;
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
};

/** What the sums of a nutrient leave out, and how ranges are worked. */
export const balanceNotes = (nutrient: BalancedId, zones: readonly ZoneBalance[]): string[] => {
  const fixers = fixersOf(zones.flatMap((z) => z.seasons));
  return [
    ...new Set(zones.flatMap((z) => z.seasons.flatMap((s) => (s.removed.kind === "answer" ? s.removed.cautions : [])))),
    ...(zones.some((z) => z.ends)
      ? ["Where the publication prints a range, the removal is worked with its middle, and its ends stand in brackets."]
      : []),
    ...(fixers
      ? [`The nitrogen sum passes over the seasons of ${fixers}: part of their nitrogen came from the air, and nobody measured how much.`]
      : []),
    ...(nutrient === "N"
      ? [
          "Also left out: nitrogen that rain brings, that the soil itself releases, and that is lost to air and water. A sum above zero is not nitrogen that is still there.",
        ]
      : ["Left out: what erosion and drainage carry away."]),
  ];
};
