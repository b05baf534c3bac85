import { spawnSync } from "node:child_process";
import { join } from "node:path";
import { installation } from "./options.ts";

export interface Histories {
  /** Zones' histories judged in a second by one core. */
  readonly perSecond: number;
  /** Time for a thousand zones over the time for five hundred: 2 where the work grows with the zones and no faster. */
  readonly growth: number;
}

/** Made-up results of 15 samplings, two years apart, drifting and straying as soil tests do; the same on every run. */
const code = (file: (path: string) => string): string => `
const { trendOf } = await import(${file("src/interpretation/statistics/trend.ts")});
const { noiseOf } = await import(${file("src/interpretation/statistics/noise.ts")});
const { Random } = await import(${file("tests/support/random.ts")});
const rule = { kind: "noise", id: "made", analyte: "K", together: { value: 10, as: "percent", source: "common-practice" } };
const random = new Random(1);
const zones = Array.from({ length: 1000 }, () => {
  const slope = random.between(-2, 2);
  return Array.from({ length: 15 }, (_, i) => ({ x: 1996 + 2 * i, y: Math.round(150 + slope * i + random.between(-15, 15)) }));
});
const judge = (n) => {
  const began = performance.now();
  for (const points of zones.slice(0, n)) trendOf({ points, unit: "ppm" }, noiseOf({ analyte: "K", method: "mehlich3" }, [rule]));
  return performance.now() - began;
};
for (let i = 0; i < 5; i++) judge(1000);
let [half, whole] = [Infinity, Infinity];
for (let i = 0; i < 40; i++) { half = Math.min(half, judge(500)); whole = Math.min(whole, judge(1000)); }
process.stdout.write(JSON.stringify({ perSecond: 1e6 / whole, growth: whole / half }));`;

/** Judge the histories of 1,000 zones with 15 samplings each, every step built, in a process of their own; the best of 40 rounds, since a busy machine only slows. */
export const histories = (): Histories => {
  const script = code((path) => JSON.stringify(join(installation, path)));
  const { stdout, stderr, status } = spawnSync(process.execPath, ["--input-type=module", "-e", script], {
    cwd: installation,
    encoding: "utf8",
  });
  if (status !== 0) throw new Error(`a measured run failed:\n${stderr}`);
  return JSON.parse(stdout) as Histories;
};
