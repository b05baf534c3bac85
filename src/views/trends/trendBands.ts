import type { Band } from "../../interpretation/rules/bands.ts";
import type { TrendModel } from "./trend.ts";
import type { TrendPanel, TrendSegment } from "./trendPanel.ts";

/** The segment with the newest point: its classes are the ones named at the edge. */
export const newestSegment = ({ segments }: Pick<TrendPanel, "segments">): TrendSegment | undefined =>
  segments.reduce<TrendSegment | undefined>((best, s) => (best && best.points.at(-1)!.x >= s.points.at(-1)!.x ? best : s), undefined);

/** The class of a band's ground: below, within or above the range. */
export const bandCss = (b: Band): "low" | "ok" | "high" => (b.position === "below" ? "low" : b.position === "above" ? "high" : "ok");

/** From which year to which a segment's bands hold: up to the break on either side of it, else to the end of the axis. */
export const segmentSpan = (
  model: Pick<TrendModel, "x">,
  { segments, breaks }: TrendPanel,
  index: number,
): { from: number; to: number } => {
  const { points } = segments[index]!;
  return {
    from: breaks.findLast((b) => b.x < points[0]!.x)?.x ?? model.x.from,
    to: breaks.find((b) => b.x > points.at(-1)!.x)?.x ?? model.x.to,
  };
};
