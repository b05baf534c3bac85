import type { Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import type { MarginRule } from "../rules/margin.ts";
import type { Band } from "../rules/bands.ts";
import { plain } from "../show.ts";
import type { AnalyteId, MethodId, SoilTestUnit } from "../vocabulary.ts";
import { analyteInSentence, methods } from "../vocabulary.ts";

/** What a margin is asked for. */
export interface MarginQuestion {
  readonly analyte: AnalyteId;
  readonly method: MethodId;
  readonly unit: SoilTestUnit;
  /** Kilograms in a liter of the soil as the laboratory scoops it; absent where nobody weighed it. */
  readonly density?: number | undefined;
  /** By which classes results of this method are read; absent: none is known. */
  readonly classes?: readonly Classes[] | undefined;
}

/** The classes of one guideline, in the unit of the results. */
export interface Classes {
  readonly by: string;
  readonly bands: readonly Band[];
}

export interface Margin {
  /** In the unit asked for. */
  readonly within: number;
  readonly unit: SoilTestUnit;
}

/** The number in another unit. By volume and by mass differ by the density of the ground soil: 5 mg/l at 1.25 kg/l is 4 ppm. */
const inUnit = (
  value: number,
  from: SoilTestUnit,
  to: SoilTestUnit,
  density: number | undefined,
): { value: number; assumed: boolean } | undefined => {
  if (from === to) return { value, assumed: false };
  const known = density ?? 1;
  if (from === "mg/l" && to === "ppm") return { value: value / known, assumed: density === undefined };
  if (from === "ppm" && to === "mg/l") return { value: value * known, assumed: density === undefined };
  return undefined;
};

/** The narrowest class that judges and has both ends, the lowest one from nothing up, since no test reads less. */
const narrowest = (classes: readonly Classes[]): { by: string; name: string; from: number; to: number } | undefined =>
  classes
    .filter(({ bands }) => bands.some((b) => b.position !== undefined))
    .flatMap(({ by, bands }) =>
      bands.slice(0, -1).map((b, i) => {
        const next = bands[i + 1]!;
        return { by, name: b.name, from: b.from ?? b.above ?? 0, to: next.from ?? next.above ?? 0 };
      }),
    )
    .sort((a, b) => a.to - a.from - (b.to - b.from))[0];

/**
 * The margin of an analyte, from the first rule whose unit can be read. A margin is a convention in the units of one test. One
 * stated for another extractant is taken over and said to be; one by volume is read by mass over the density, and without a
 * density as if a liter of soil weighed a kilogram, and that is said too. No answer where no rule is installed, nor by another
 * extractant where a whole class is narrower than the margin: soils that are told unlike rates would be called alike.
 */
export const marginOf = (question: MarginQuestion, rules: readonly MarginRule[]): Outcome<Margin> => {
  const { analyte, method, unit, density, classes = [] } = question;
  const own = rules.filter((r) => r.analyte === analyte);
  const rule = own.find((r) => r.methods.includes(method) && r.unit === unit) ?? own.find((r) => inUnit(1, r.unit, unit, density));
  if (own.length === 0) return noAnswer(`no margin is set for ${analyteInSentence(analyte)}`, [`a margin for ${analyte}`]);
  const read = rule && inUnit(rule.within.value, rule.unit, unit, density);
  if (!rule || !read)
    return noAnswer(
      `the margin for ${analyteInSentence(analyte)} is in ${own[0]!.unit} and the results are ${unit === "index" ? "an index" : `in ${unit}`}`,
      [`a margin for ${analyte} ${unit === "index" ? "as an index" : `in ${unit}`}`],
    );
  const borrowed = !rule.methods.includes(method);
  const stated = rule.methods.map((m) => methods[m].label).join(" or ");
  const least = borrowed && unit !== "pH" ? narrowest(classes) : undefined;
  if (least && least.to - least.from < read.value)
    return noAnswer(
      `the margin for ${analyteInSentence(analyte)}, ${plain(rule.within.value)} ${rule.unit}, is published for ${stated}, and by ${methods[method].label} a whole class is narrower: ${least.by} has ${least.name} from ${plain(least.from)} to ${plain(least.to)} ${unit}`,
      [`a margin for ${analyte} by ${methods[method].label}`],
    );
  const steps: Step[] = [
    {
      what: "Differences up to this do not matter",
      result: `${plain(rule.within.value)}${rule.unit === "pH" ? " pH" : ` ${rule.unit}`}`,
      source: rule.within.source,
      evidence: rule.within.evidence,
      note: rule.within.note,
    },
  ];
  const cautions: string[] = [];
  if (rule.unit !== unit) {
    steps.push({
      what: read.assumed ? "Taken for granted" : "Read by the density of the ground soil",
      expression: `${plain(rule.within.value)} ${rule.unit} ${rule.unit === "mg/l" ? "÷" : "×"} ${plain(density ?? 1)} kg/l`,
      result: `${plain(read.value)} ${unit}`,
      note: read.assumed ? "the density was not measured; soils weigh more or less than a kilogram a liter" : undefined,
    });
    if (read.assumed)
      cautions.push(
        `The margin for ${analyteInSentence(analyte)} is published in ${rule.unit} and read here in ${unit}, which is the same only where a liter of the ground soil weighs a kilogram.`,
      );
  }
  if (borrowed) {
    steps.push({
      what: "Taken for granted",
      result: `a margin for ${stated} also serves ${methods[method].label}`,
      source: "common-practice",
      note: "no publication was found that says so; extractants give different numbers on one soil",
    });
    cautions.push(
      `The margin for ${analyteInSentence(analyte)} is published for ${stated}, not for ${methods[method].label}. Set your own if you know better.`,
    );
  }
  return answer({ within: read.value, unit }, steps, cautions);
};
