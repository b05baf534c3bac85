import type { Evidence, Outcome, Source, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { plain } from "../show.ts";
import type { LengthUnit } from "../units.ts";
import { convert } from "../units.ts";
import { purposes } from "../vocabulary.ts";
import type { AreaRow, ByAreaRow, DistanceRow, BoundRow, SamplingSpecRule, StatementRow } from "./samplingSpec.ts";
import { samplingBounds } from "./samplingSpec.ts";
import type { SamplingQuestion, SamplingWhen } from "./samplingWhen.ts";
import { firstRow, samplingFactLabels, samplingWhenLabel } from "./samplingWhen.ts";

export interface Span {
  readonly least?: number | undefined;
  readonly most?: number | undefined;
}

export interface SamplingDepth {
  readonly from: number;
  readonly to: number;
  /** The deeper end, where a range is printed. */
  readonly toMost?: number | undefined;
  readonly unit: LengthUnit;
}

export interface Handling {
  readonly bounds: readonly BoundRow[];
  readonly distances: readonly DistanceRow[];
  readonly statements: readonly StatementRow[];
}

/** One answer, or none, for each thing a sampling plan has to settle. */
export interface SamplingParts {
  /** In one composite. */
  readonly cores: Outcome<Span>;
  readonly depth: Outcome<SamplingDepth>;
  /** For the whole area that was asked for; `least` and `most` differ where a range is printed. */
  readonly composites: Outcome<Required<Span>>;
  /** Years between two samplings. */
  readonly interval: Outcome<Span>;
  /** Whether each sampling is to be taken after the same crop; no answer where the publication is silent. */
  readonly sameCrop: Outcome<true>;
  readonly handling: Outcome<Handling>;
}

interface From {
  readonly source: Exclude<Source, { record: unknown }>;
  readonly evidence?: Evidence | undefined;
  readonly note?: string | undefined;
}
const graduated = ({ source, evidence, note }: From): Pick<Step, "source" | "evidence" | "note"> => ({ source, evidence, note });

/** "10", "10 to 20", "at least 10", "up to 20". */
export const spanLabel = ({ least, most }: Span): string =>
  least === undefined
    ? `up to ${plain(most!)}`
    : most === undefined
      ? `at least ${plain(least)}`
      : least === most
        ? plain(most)
        : `${plain(least)} to ${plain(most)}`;

export const samplingDepthLabel = ({ from, to, toMost, unit }: SamplingDepth): string =>
  `${plain(from)} to ${plain(to)}${toMost === undefined ? "" : ` or ${plain(toMost)}`} ${unit}`;

const forWhom = (what: string, when: SamplingWhen | undefined): string => [what, samplingWhenLabel(when)].filter(Boolean).join(", ");

/**
 * What one publication asks of a sampling for one purpose: cores a composite, depth, composites for the area, years between
 * samplings, and handling, each by itself. Areas in any unit of area; the answer keeps the publication's own units.
 * No answer to a part that it is silent on, that it has for other places only, or that hangs on a fact not given.
 */
export const samplingBySpec = (rule: SamplingSpecRule, question: SamplingQuestion, pack: string): SamplingParts => {
  const purpose = purposes[rule.purpose].label;
  const pick = <R extends From & { when?: SamplingWhen | undefined }, T>(
    what: string,
    rows: readonly R[] | undefined,
    of: (found: R) => Outcome<T>,
  ): Outcome<T> => {
    if (rule.purpose !== question.purpose || !rows)
      return noAnswer(`${pack} says nothing of ${what} for ${purposes[question.purpose].label}`, [`a guideline on ${what}`]);
    const { found, missing } = firstRow(rows, question);
    if (found) return of(found);
    if (missing)
      return noAnswer(`${samplingFactLabels[missing]!} is not known, and ${pack} sets ${what} by it`, [
        missing === "crops" ? "crop" : missing,
      ]);
    return noAnswer(`${pack} says nothing of ${what} for ${purpose} in such a place`, [`a guideline on ${what}`]);
  };
  const span =
    (label: string, unit: string) =>
    (found: From & Span & { when?: SamplingWhen | undefined }): Outcome<Span> =>
      answer({ least: found.least, most: found.most }, [
        { what: forWhom(label, found.when), result: `${spanLabel(found)} ${unit}`, ...graduated(found) },
      ]);
  const handling: Handling = { bounds: rule.bounds ?? [], distances: rule.distances ?? [], statements: rule.statements ?? [] };
  const steps: Step[] = [
    ...handling.bounds.map((l) => ({
      what: samplingBounds[l.what].label,
      result: `${plain(l.value)} ${samplingBounds[l.what].unit}${l.otherwise ? `; otherwise ${l.otherwise}` : ""}`,
      ...graduated(l),
    })),
    ...handling.distances.map((d) => ({ what: `Stay away from ${d.from}`, result: `${plain(d.value)} ${d.unit}`, ...graduated(d) })),
    ...handling.statements.map((s) => ({ what: `On the ${s.about}`, result: s.statement, ...graduated(s) })),
  ];
  return {
    cores: pick("the number of cores", rule.cores, span("Cores in one composite", "cores")),
    depth: pick("the depth", rule.depths, (d) =>
      answer({ from: d.from, to: d.to, toMost: d.toMost, unit: d.unit }, [
        { what: forWhom("Depth of sampling", d.when), result: samplingDepthLabel(d), ...graduated(d) },
      ]),
    ),
    composites: compositesFor(rule, question, pack, pick),
    interval: pick("the interval", rule.years, span("Years between two samplings", "years")),
    sameCrop: pick("the crop before", rule.sameCrop && [rule.sameCrop], (s) =>
      answer<true>(true, [{ what: "Sample after the same crop each time", result: "the same", ...graduated(s) }]),
    ),
    handling:
      rule.purpose === question.purpose && steps.length > 0
        ? answer(handling, steps)
        : noAnswer(`${pack} says nothing of handling for ${purposes[question.purpose].label}`, ["a guideline on handling"]),
  };
};

type PickRow = <R extends From & { when?: SamplingWhen | undefined }, T>(
  what: string,
  rows: readonly R[] | undefined,
  of: (found: R) => Outcome<T>,
) => Outcome<T>;

/** By the publication's table where it has one for the place, else the area over the largest that one composite may stand for. */
const compositesFor = (rule: SamplingSpecRule, question: SamplingQuestion, pack: string, pick: PickRow): Outcome<Required<Span>> => {
  const what = "the number of composites";
  const { area: asked } = question;
  if (!asked) return noAnswer("the area is not known", ["area"]);
  const tries = [
    ...(rule.composites ? [pick(what, rule.composites, (t) => byTable(t, convert(asked.value, asked.unit, t.unit), pack))] : []),
    ...(rule.areas ? [pick(what, rule.areas, (a) => byShare(a, convert(asked.value, asked.unit, a.unit)))] : []),
  ];
  return tries.find((t) => t.kind === "answer") ?? tries[0] ?? pick<never, Required<Span>>(what, undefined, (none) => none);
};

const byTable = ({ rows, unit, when, ...from }: ByAreaRow, area: number, pack: string): Outcome<Required<Span>> => {
  const size = `${plain(area, 1)} ${unit === "acre" ? "acres" : "ha"}`;
  const found = area < rows[0]![0] - 1e-9 ? undefined : rows.find(([, to]) => area <= to + 1e-9);
  if (!found)
    return noAnswer(`the field has ${size} and the table of ${pack} is for ${plain(rows[0]![0])} to ${plain(rows.at(-1)![1])}`, [
      "a guideline for a field of this size",
    ]);
  const [least, most, samples] = found;
  return answer({ least: samples, most: samples }, [
    {
      what: forWhom(`Composites for ${plain(least)} to ${plain(most)} ${unit === "acre" ? "acres" : "ha"}`, when),
      expression: size,
      result: plain(samples),
      ...graduated(from),
    },
  ]);
};

const byShare = (a: AreaRow, area: number): Outcome<Required<Span>> => {
  const unit = a.unit === "acre" ? "acres" : "ha";
  const parts = (share: number): number => Math.max(1, Math.ceil(area / share - 1e-9));
  const value = { least: parts(a.most), most: parts(a.least ?? a.most) };
  return answer(value, [
    {
      what: forWhom("Largest area of one composite", a.when),
      result: `${spanLabel(a.least === undefined ? { least: a.most, most: a.most } : a)} ${unit}`,
      ...graduated(a),
    },
    {
      what: "Composites for the area, rounded up",
      expression: `${plain(area, 1)} ÷ ${plain(a.most)}${a.least === undefined ? "" : ` to ${plain(area, 1)} ÷ ${plain(a.least)}`}`,
      result: spanLabel(value),
    },
  ]);
};
