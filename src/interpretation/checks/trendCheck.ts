import * as z from "zod";
import { daysBetween } from "../days.ts";
import type { Dated } from "../statistics/dated.ts";
import { normalCdf, normalQuantile } from "../statistics/normal.ts";
import { exactTwoSided } from "../statistics/exactRanks.ts";
import type { LeastSquares } from "../statistics/leastSquares.ts";
import { leastSquares } from "../statistics/leastSquares.ts";
import type { MannKendall } from "../statistics/mannKendall.ts";
import { mannKendall } from "../statistics/mannKendall.ts";
import { slopeInterval, theilSenLine } from "../statistics/theilSen.ts";
import type { CheckKind } from "./check.ts";
import { published, valueOf } from "./check.ts";
import { digits, printedAll, printedNumber } from "./printed.ts";

const y = z.array(z.number()).min(2);
const shape = published.extend({
  digits,
  input: z.union([
    z.strictObject({ x: z.array(z.number()), y }),
    z.strictObject({ dates: z.array(z.iso.date()), y, since: z.iso.date().optional() }),
  ]),
  expect: z.record(z.string(), printedNumber),
});
type Case = z.infer<typeof shape>;

/** Times as the case has them; dates as days since 1970, or since a day of the case's own. */
const pointsOf = (input: Case["input"]): Dated[] => {
  const times = "dates" in input ? input.dates.map((d) => daysBetween(input.since ?? "1970-01-01", d)) : input.x;
  return input.y.map((value, i) => ({ x: times[i]!, y: value }));
};

/** What other programs print by other conventions: no continuity correction, and limits at the nearest whole ranks. */
const otherwise = (m: MannKendall, slopes: readonly number[]): Record<string, number> => ({
  pUncorrected: 2 * normalCdf(-Math.abs(m.s) / Math.sqrt(m.variance)),
  ...Object.fromEntries(
    [90, 95].flatMap((percent) => {
      const reach = normalQuantile((1 + percent / 100) / 2) * Math.sqrt(m.variance);
      const at = (rank: number): number => slopes[Math.min(Math.max(rank, 0), slopes.length - 1)]!;
      return [
        [`reach${percent}`, reach],
        [`from${percent}Rounded`, at(Math.round((slopes.length - reach) / 2) - 1)],
        [`to${percent}Rounded`, at(Math.round((slopes.length + reach) / 2))],
      ] as [string, number][];
    }),
  ),
});

const lineNumbers = (l: LeastSquares): Record<string, number | undefined> => ({
  lineSlope: l.slope,
  lineSlopePerYear: l.slope * 365.25,
  lineIntercept: l.intercept,
  lineSlopeError: l.slopeError,
  lineInterceptError: l.interceptError,
  lineResidualSd: l.residualSd,
  lineRSquared: l.rSquared,
  lineP: l.p,
  lineTRatio: l.slope / l.slopeError,
  lineT: l.t,
  lineDf: l.df,
  lineFrom: l.from,
  lineTo: l.to,
});

export const trendCheck: CheckKind<Case> = {
  file: "trend",
  list: "cases",
  title: "Direction and slope of a series",
  shape,
  run: (c) => {
    const points = pointsOf(c.input);
    const sen = theilSenLine(points)!;
    return valueOf(mannKendall(points), (m) =>
      valueOf(leastSquares(points), (l) => {
        const limits = Object.fromEntries(
          [90, 95].flatMap((percent) => {
            const { from, to, ranks } = slopeInterval(sen.slopes, m.variance, m.n, percent / 100);
            return Object.entries({ from, to, low: ranks[0], high: ranks[1] }).map(([name, value]) => [`${name}${percent}`, value]);
          }),
        ) as Record<string, number>;
        const { slopes, ...numbers } = sen;
        const { method, ...rank } = m;
        return printedAll(
          { ...rank, method, ...numbers, pairs: slopes.length, ...limits, ...otherwise(m, slopes), ...lineNumbers(l) },
          c.expect,
          c.digits,
        );
      }),
    );
  },
};

const tailShape = published.extend({ digits, input: z.strictObject({ n: z.number().int() }), expect: z.record(z.string(), z.number()) });

/** P(S >= s) without ties. */
const upperTail = (n: number, s: number): number => {
  const singles = Array.from({ length: n }, () => 1);
  return s > 0 ? exactTwoSided(singles, singles, s) / 2 : 1 - exactTwoSided(singles, singles, 2) / 2;
};

export const tailsCheck: CheckKind<z.infer<typeof tailShape>> = {
  file: "trend",
  list: "tails",
  title: "Chance of a direction when nothing changes",
  shape: tailShape,
  run: ({ input, expect, digits: places }) =>
    printedAll(Object.fromEntries(Object.keys(expect).map((s) => [s, upperTail(input.n, Number(s))])), expect, places),
};

const smallestShape = published.extend({ digits, expect: z.record(z.string(), z.number()) });

export const smallestCheck: CheckKind<z.infer<typeof smallestShape>> = {
  file: "trend",
  list: "smallest",
  title: "The smallest chance that so few samplings can show",
  shape: smallestShape,
  run: ({ expect, digits: places }) =>
    printedAll(
      Object.fromEntries(
        Object.keys(expect).map((n) => {
          const size = Number(n);
          return [n, 2 * upperTail(size, (size * (size - 1)) / 2)];
        }),
      ),
      expect,
      places,
    ),
};
