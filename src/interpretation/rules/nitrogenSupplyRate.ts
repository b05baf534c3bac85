import type { Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { plain } from "../show.ts";
import { convert, sameDimension } from "../units.ts";
import { crops, soilCategories } from "../vocabulary.ts";
import type { NitrogenPlace } from "./nitrateFacts.ts";
import type { NitrogenSupplyRule, Printed, SupplyCrop, SupplyTable } from "./nitrogenSupplyRule.ts";
import type { NutrientRate } from "./nutrientRate.ts";
import { categoryDoubt } from "./soilDoubts.ts";

type Span = readonly [least: number, most: number];

const span = (p: Printed): Span | undefined => (p === null ? undefined : typeof p === "number" ? [p, p] : p);
const words = ([least, most]: Span): string => `${plain(least, 1)}${most > least ? ` to ${plain(most, 1)}` : ""} kg N/ha`;
const exactly = (value: number): number => Number(value.toPrecision(12));

/** The tables for the soil; those for a use of the crop are told beside the rate. */
const tablesFor = (row: SupplyCrop, { facts, pack }: NitrogenPlace): Outcome<readonly SupplyTable[]> => {
  const { soilCategory } = facts;
  if (soilCategory === undefined && row.tables.some((t) => t.soils !== undefined))
    return noAnswer(`the kind of soil is not recorded, and ${pack} sets the nitrogen of ${crops[facts.crop!].label} by it`, [
      "soilCategory",
    ]);
  // A medium soil of Britain may have a topsoil of any texture, a clay over sand as well.
  const doubt = soilCategory === "medium" ? undefined : categoryDoubt(facts);
  if (doubt) return noAnswer(`${doubt}, and ${pack} sets the nitrogen by the category`, ["soilCategory and texture that agree"]);
  const found = row.tables.filter((t) => t.soils === undefined || t.soils.includes(soilCategory!));
  return found.some((t) => t.use === undefined)
    ? answer(found, [])
    : noAnswer(
        `the soil's category is ${soilCategories[soilCategory!]}, and ${pack} sets the nitrogen of ${crops[facts.crop!].label} by others`,
        ["soilCategory"],
      );
};

interface At {
  readonly span: Span;
  readonly steps: readonly Step[];
}

/** More or less for another yield than the table's. What is printed as a range, or as nothing, is not raised: the soil feeds that crop. */
const corrected = (row: SupplyCrop, table: SupplyTable, printed: Span, goal: number): At => {
  const other = row.otherYields;
  const counted = Math.min(goal, other?.most ?? goal);
  const difference = other && table.yield !== undefined ? exactly(counted - table.yield) : 0;
  if (!other || difference === 0) return { span: printed, steps: [] };
  const { source, evidence, note, step, more, less, most } = other;
  const from = { source, evidence, note };
  const higher = difference > 0;
  if (higher && (printed[0] !== printed[1] || printed[0] === 0))
    return { span: printed, steps: [{ what: "A range, or nothing, is not raised for a higher yield", result: words(printed), ...from }] };
  const size = (difference / step) * (higher ? more : less);
  const end = (value: number): number => Math.max(0, exactly(value + size));
  const [high, low] = higher ? [counted, table.yield!] : [table.yield!, counted];
  return {
    span: [end(printed[0]), end(printed[1])],
    steps: [
      {
        what: `${higher ? "More, for the higher" : "Less, for the lower"} yield${goal > most ? `, counted up to ${plain(most)} t/ha` : ""}`,
        expression: `(${plain(high)} − ${plain(low)}) ÷ ${plain(step)} × ${plain(higher ? more : less)}`,
        result: `${plain(Math.abs(size), 1)} kg N/ha`,
        ...from,
      },
    ],
  };
};

/** The rate at one index, for the yield. */
const at = (
  row: SupplyCrop,
  tables: readonly SupplyTable[],
  index: number,
  goal: number | undefined,
  place: NitrogenPlace,
): Outcome<At> => {
  const { pack, facts } = place;
  const { label } = crops[facts.crop!];
  const none = noAnswer(`${pack} prints no nitrogen for ${label} at index ${index} here`, ["a guideline for this place"]);
  const [first] = tables;
  const stepFor = (t: SupplyTable, result: Span): Step => ({
    what: `Table for ${label}${t.soils ? `, ${soilCategories[facts.soilCategory!]} soil` : ""}${t.yield === undefined ? "" : ` at ${plain(t.yield)} t/ha`}, index ${index}`,
    result: words(result),
    source: t.source,
    evidence: t.evidence,
    note: t.note,
  });
  if (tables.length === 1) {
    const printed = span(first!.rates[index]!);
    if (!printed) return none;
    const found = goal === undefined ? { span: printed, steps: [] } : corrected(row, first!, printed, goal);
    return answer({ span: found.span, steps: [stepFor(first!, printed), ...found.steps] }, []);
  }
  const rows = [...tables].sort((a, b) => a.yield! - b.yield!);
  const above = rows.findIndex((t) => goal! <= t.yield!);
  const upper = rows[above];
  const lower = upper?.yield === goal ? upper : rows[above - 1];
  if (!upper || !lower)
    return noAnswer(
      `the yield is ${plain(goal!)} t/ha, and ${pack} prints nitrogen of ${label} for ${plain(rows[0]!.yield!)} to ${plain(rows.at(-1)!.yield!)} t/ha`,
      [`a yield from ${plain(rows[0]!.yield!)} to ${plain(rows.at(-1)!.yield!)} t/ha`],
    );
  const [a, b] = [span(lower.rates[index]!), span(upper.rates[index]!)];
  if (!a || !b) return none;
  if (lower === upper) return answer({ span: b, steps: [stepFor(upper, b)] }, []);
  const share = (goal! - lower.yield!) / (upper.yield! - lower.yield!);
  const between: Span = [exactly(a[0] + share * (b[0] - a[0])), exactly(a[1] + share * (b[1] - a[1]))];
  const line: Step = {
    what: `At ${plain(goal!)} t/ha, on the line between the two`,
    result: words(between),
    source: upper.source,
    evidence: "derived",
  };
  return answer({ span: between, steps: [stepFor(lower, a), stepFor(upper, b), line] }, []);
};

/** Does what the crop gets depend on its yield? */
const byYield = (row: SupplyCrop): boolean =>
  row.otherYields !== undefined || row.tables.filter((t) => t.use === undefined && t.yield !== undefined).length > 1;

const goalOf = (row: SupplyCrop, { yieldGoal, pack }: NitrogenPlace): Outcome<number | undefined> => {
  if (!byYield(row)) return answer(undefined, []);
  if (!yieldGoal) return noAnswer("no yield goal is set, and the rate depends on the yield", ["yieldGoal"]);
  if (!sameDimension(yieldGoal.unit, "t/ha"))
    return noAnswer(`the yield is in ${yieldGoal.unit} and ${pack} reads t/ha`, ["a yield in t/ha"]);
  return answer(convert(yieldGoal.value, yieldGoal.unit, "t/ha"), []);
};

/** What the tables print for the crop, the soil and the yield: from the lower rate at the higher index to the higher one at the lower index. */
export const rateAtIndex = (
  { markedSays }: NitrogenSupplyRule,
  row: SupplyCrop,
  low: number,
  high: number,
  place: NitrogenPlace,
): Outcome<NutrientRate> => {
  const tables = tablesFor(row, place);
  if (tables.kind === "noAnswer") return tables;
  const goal = goalOf(row, place);
  if (goal.kind === "noAnswer") return goal;
  const own = tables.value.filter((t) => t.use === undefined);
  const most = at(row, own, low, goal.value, place);
  if (most.kind === "noAnswer") return most;
  const least = high === low ? most : at(row, own, high, goal.value, place);
  if (least.kind === "noAnswer") return least;
  const [value, to] = [least.value.span[0], Math.max(most.value.span[1], least.value.span[1])];
  const yieldStep: Step[] =
    goal.value === undefined
      ? []
      : [
          {
            what: "Yield",
            result: `${plain(goal.value)} t/ha`,
            ...(place.facts.origins?.yieldGoal && { source: place.facts.origins.yieldGoal }),
          },
        ];
  const marked = own.some((t) => t.marked?.includes(low));
  const uses = tables.value.flatMap((t) => {
    const printed = t.use === undefined ? undefined : [span(t.rates[high]!), span(t.rates[low]!)];
    if (!printed?.[0] || !printed[1]) return [];
    return [
      `For ${t.use!}${t.yield === undefined ? "" : ` of ${plain(t.yield)} t/ha`} the table has ${words([printed[0][0], printed[1][1]]).replace(" N", "")}`,
    ];
  });
  return answer(
    { rate: { value, unit: "kg/ha" }, ...(to > value && { to }) },
    [...yieldStep, ...most.value.steps, ...(high === low ? [] : least.value.steps), { what: "Nitrogen", result: words([value, to]) }],
    [...(marked && markedSays !== undefined ? [markedSays] : []), ...uses],
  );
};
