import { measurementLabel, methodLabel } from "../../interpretation/measurement.ts";
import type { AnalyteId } from "../../interpretation/vocabulary.ts";
import type { Farm, Field, Zone } from "../../records/model.ts";
import { correctionsOf } from "../results/correction.ts";
import { changesByChance } from "./byChance.ts";
import { changesOf, changeWords } from "./changes.ts";
import type { ResultRow } from "../results/rows.ts";
import type { ZoneAdvice } from "../advice/sample.ts";
import { seriesNumbers } from "../results/series.ts";
import type { StepRow } from "../steps.ts";
import { stepRows } from "../steps.ts";
import type { TrendModel } from "./trend.ts";
import { trendModel } from "./trend.ts";
import type { PanelDrawing } from "./trendDrawing.ts";
import { drawPanel } from "./trendDrawing.ts";
import type { SharedWords } from "./sharedWords.ts";
import { sharedWords } from "./sharedWords.ts";
import { depth } from "../units.ts";
import { everyZone } from "../zonesThen.ts";
import { samplingName } from "../samplingName.ts";

export interface Trend {
  readonly model: TrendModel;
  readonly panels: readonly PanelDrawing[];
  /** Where each panel's results are going; what is so of all of them stands once, above them. */
  readonly says: SharedWords;
  /** What casts doubt on the newest sampling of all panels alike. */
  readonly care: string | undefined;
  /** The sum behind each panel's verdict. */
  readonly steps: readonly (readonly StepRow[])[];
  readonly rows: readonly TrendRow[];
  /** How many of the changes in the rows are more than noise, and how many chance alone would make; empty where there are few. */
  readonly changes: string;
}

/** A line of the table below a trend: the same rows that the points are drawn from. */
export interface TrendRow {
  readonly date: string;
  readonly sampling: string;
  readonly zone: Zone;
  /** The value before its correction. */
  readonly was: string | undefined;
  readonly value: string;
  /** Rows of one zone with the same number may be compared. */
  readonly series: number;
  /** From the result before it in its series, and whether that is more than noise; empty for a first one, and for a day's second bag. */
  readonly change: string;
  readonly method: string;
  readonly depth: string;
  readonly cores: string;
  readonly bag: string;
  readonly remark: string;
}

const sharedCare = ({ panels }: TrendModel): string | undefined => {
  const cares = new Set(panels.map((p) => p.verdict.care));
  return panels.length > 1 && cares.size === 1 ? [...cares][0] : undefined;
};

/** One analyte of a field over the years: the drawing, the sum behind it and the rows it is drawn from. Of some zones only, on the axes of all. */
export const trendFigure = (
  farm: Farm,
  field: Field,
  analyte: AnalyteId,
  advised: ReadonlyMap<string, ZoneAdvice>,
  rows: readonly ResultRow[],
  zones: readonly Zone[] = everyZone(field),
): Trend | undefined => {
  const whole = trendModel(farm, field, analyte, advised);
  const model = whole && { ...whole, panels: whole.panels.filter((p) => zones.includes(p.zone)) };
  const changes = changesOf(farm, field, analyte, zones);
  const judged = [...changes.values()].flatMap((step) => (step.judged.kind === "answer" ? step.judged.value : []));
  const panels = model?.panels.map((panel) => drawPanel(model, panel)) ?? [];
  const crowded = panels.some((p) => p.labels.some((label) => label.text === ""));
  return (
    model && {
      model: crowded
        ? { ...model, caption: `${model.caption} Values that have no room beside their marks stand in the table below.` }
        : model,
      panels,
      says: sharedWords(model.panels.map((p) => p.verdict.says)),
      care: sharedCare(model),
      steps: model.panels.map((panel) => stepRows(panel.verdict.steps, farm.references)),
      rows: rows
        .filter((r) => r.measurement.analyte === analyte && zones.includes(r.zone))
        .map(({ sampling, zone, composite, measurement: m }) => ({
          date: sampling.date,
          sampling: sampling.id,
          zone,
          was: correctionsOf(m)[0]?.was,
          value: measurementLabel(m),
          series: seriesNumbers(field).get(m)!,
          change: changes.has(m) ? changeWords(changes.get(m)!, m) : "",
          method: methodLabel(m),
          depth: depth(m.depth, farm.units),
          cores: composite.cores === undefined ? "not recorded" : String(composite.cores),
          bag: composite.label,
          remark: [...correctionsOf(m).map((c) => `corrected: ${c.why}`), sampling.purpose !== "routine" && samplingName(sampling).short]
            .filter(Boolean)
            .join("; "),
        })),
      changes: changesByChance(judged.length, judged.filter((c) => c.beyondNoise).length),
    }
  );
};
