import type { SeasonBalance } from "../../interpretation/balance/balance.ts";
import type { Outcome } from "../../interpretation/outcome.ts";
import { show } from "../../interpretation/show.ts";

/** Seasons of one zone in pixels: applied upward, removed downward, and the running sum as a line that ends where it is unknown. */
export interface BalanceDrawing {
  readonly width: number;
  readonly height: number;
  readonly plot: { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number };
  readonly zero: number;
  readonly applied: readonly Bar[];
  readonly removed: readonly Bar[];
  /** Seasons whose removal is not known. */
  readonly unknown: readonly { x: number; y: number }[];
  readonly line: string;
  readonly dots: readonly { x: number; y: number }[];
  readonly last: { x: number; y: number; anchor: "middle" | "end"; text: string } | undefined;
  /** How far the last sum reaches by the ends of printed ranges. */
  readonly reach: { x: number; from: number; to: number } | undefined;
  readonly xTicks: readonly { x: number; text: string }[];
  readonly yTicks: readonly { y: number; text: string }[];
}

interface Bar {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** The same for every zone of a figure, so that panels can be read side by side. In the farm's unit. */
export interface BalanceAxis {
  readonly from: number;
  readonly to: number;
  readonly step: number;
}

const width = 320;
const height = 220;
const plot = { left: 44, right: 312, top: 16, bottom: 192 };

const round = (n: number): number => Math.round(n * 10) / 10;
const known = (outcome: Outcome<number>): number[] => (outcome.kind === "answer" ? [outcome.value] : []);

/** An axis over every bar and sum, in steps of 1, 2 or 5 times a power of ten. `scale` turns lb/ac into the farm's unit. */
export const balanceAxis = (zones: readonly (readonly SeasonBalance[])[], scale: number): BalanceAxis => {
  const values = zones
    .flat()
    .flatMap((s) => [0, ...known(s.applied), ...known(s.removed).map((v) => -v), ...known(s.sum)])
    .map((v) => v * scale);
  const [lowest, high] = [Math.min(0, ...values), Math.max(1, ...values)];
  // Room below the lowest mark for the last sum's number.
  const low = lowest < 0 ? lowest - (high - lowest) * 0.12 : lowest;
  const rough = (high - low) / 5;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = ([1, 2, 5].find((f) => f * power >= rough) ?? 10) * power;
  return { from: Math.floor(low / step) * step, to: Math.ceil(high / step) * step, step };
};

/** A value on the axis, with as many decimals as its steps need: a garden's are of tenths. */
const axisText = ({ step }: BalanceAxis, value: number): string => show(value, Math.max(0, Math.ceil(-Math.log10(step) - 1e-9)));

export const drawBalance = (
  seasons: readonly SeasonBalance[],
  axis: BalanceAxis,
  scale: number,
  /** Of the last sum, as the farm's rates have them. */
  decimals = 0,
  ends?: { readonly low: readonly SeasonBalance[]; readonly high: readonly SeasonBalance[] },
): BalanceDrawing => {
  const y = (value: number): number => round(plot.bottom - ((value - axis.from) / (axis.to - axis.from)) * (plot.bottom - plot.top));
  const slot = (plot.right - plot.left) / seasons.length;
  const middle = (i: number): number => round(plot.left + slot * (i + 0.5));
  const bar = (i: number, value: number): Bar => ({
    x: round(middle(i) - slot * 0.31),
    width: round(slot * 0.62),
    y: Math.min(y(0), y(value)),
    height: round(Math.abs(y(value) - y(0))),
  });
  const bars = (of: (s: SeasonBalance) => number[]): Bar[] =>
    seasons.flatMap((s, i) =>
      of(s)
        .filter((v) => v !== 0)
        .map((v) => bar(i, v * scale)),
    );
  const dots = seasons.flatMap((s, i) =>
    (s.fixers.length > 0 ? [] : known(s.sum)).map((v) => ({ x: middle(i), y: y(v * scale), value: v * scale })),
  );
  const end = dots.at(-1);
  const [low, high] = [ends?.low, ends?.high].map((some) => some?.flatMap((s) => known(s.sum)).at(-1));
  const every = Math.ceil(seasons.length / 5);
  const reach =
    end && low !== undefined && high !== undefined && low !== high ? { x: end.x, from: y(low * scale), to: y(high * scale) } : undefined;
  return {
    width,
    height,
    plot,
    zero: y(0),
    applied: bars((s) => known(s.applied)),
    removed: bars((s) => known(s.removed).map((v) => -v)),
    unknown: seasons.flatMap((s, i) =>
      s.removed.kind === "noAnswer" ? [{ x: middle(i), y: round(Math.min(plot.bottom - 4, y(0) + 15)) }] : [],
    ),
    line: dots.length > 1 ? `M${dots.map((d) => `${d.x} ${d.y}`).join("L")}` : "",
    dots: dots.map(({ x, y: at }) => ({ x, y: at })),
    // The number of a sum that reaches further stands beside the mark, not on it.
    last: end && {
      x: reach ? end.x - 8 : end.x,
      anchor: reach ? "end" : "middle",
      y: round(end.value < 0 ? Math.min(end.y + 16, plot.bottom - 2) : Math.max(end.y - 8, plot.top + 8)),
      text: signed(end.value, decimals),
    },
    reach,
    xTicks: seasons.flatMap((s, i) => (i % every === 0 ? [{ x: middle(i), text: String(s.season) }] : [])),
    yTicks: Array.from({ length: Math.round((axis.to - axis.from) / axis.step) + 1 }, (_, i) => axis.from + i * axis.step).map((v) => ({
      y: y(v),
      text: axisText(axis, v),
    })),
  };
};

/** "+42", "−189": a balance always says which way. */
export const signed = (value: number, decimals = 0): string => {
  const text = show(value, decimals);
  return value > 0 && Number(text) !== 0 ? `+${text}` : text;
};
