import { list } from "../list.ts";
import * as z from "zod";
import type { Measurement } from "../measurement.ts";
import { boundWords } from "../measurement.ts";
import type { NoAnswer, Step } from "../outcome.ts";
import { noAnswer } from "../outcome.ts";
import type { FactTest } from "./factTests.ts";
import { factTest, holds, testLabel, testRange } from "./factTests.ts";
import type { Limits } from "./limits.ts";
import { outsideLimits } from "./limits.ts";
import type { NitrateHistory, NitrogenPlace } from "./nitrateFacts.ts";
import { capital, factLabel, historyStep, shownFact } from "./nitrateFacts.ts";
import { graded, provenance } from "./sourced.ts";

/**
 * What a publication asks of the test before its rate may be read. A `condition` that fails or is not recorded gives no
 * rate; an `advice` that fails or is not recorded is a caution beside the rate. What other publications ask (`by`) is said
 * in one sentence, whose rate this is not.
 */
export const precondition = z
  .strictObject({
    weight: z.enum(["condition", "advice"]),
    anyOf: z.array(factTest).min(1).describe("one of these must hold"),
    by: z.string().min(1).optional().describe("who asks it, where that is not the publication of the pack; then it can only be advice"),
    ...provenance,
  })
  .check(graded)
  .refine((p) => p.by === undefined || p.weight === "advice", "names another publication, so it can only be advice");
export type Precondition = z.infer<typeof precondition>;

export const preconditionLabel = (p: Precondition): string => p.anyOf.map(testLabel).join(", or ");

/** "6 to 12 in", "anything but muck or peat" */
const wanted = (t: FactTest): string => testRange(t).replace(/^not /, "anything but ");

export interface Checked {
  readonly refused: NoAnswer | undefined;
  readonly cautions: readonly string[];
  readonly steps: readonly Step[];
}

/**
 * Hold the sampling and its history against what the publication asks, before any rate. The first condition that fails
 * refuses and says which; then the first that is not recorded refuses and names what is missing.
 */
export const checkPreconditions = (all: readonly Precondition[], history: NitrateHistory, pack: string): Checked => {
  const cautions: string[] = [];
  const steps: Step[] = [];
  let failed: NoAnswer | undefined;
  let unknown: NoAnswer | undefined;
  for (const p of all) {
    const verdicts = p.anyOf.map((t) => holds(t, history));
    const passing = verdicts.indexOf(true);
    if (passing >= 0) {
      if (p.weight === "advice") continue;
      const t = p.anyOf[passing]!;
      const fact = historyStep(t.fact, history);
      steps.push({ ...fact, what: `${fact.what}, where ${wanted(t)} is asked for`, source: p.source, evidence: p.evidence });
      continue;
    }
    if (p.by !== undefined) continue;
    const open = p.anyOf.filter((_, i) => verdicts[i] === undefined);
    const [only] = p.anyOf;
    const asked = `${pack} asks ${p.anyOf.length > 1 ? `that ${preconditionLabel(p)}` : `for ${wanted(only!)}`}`;
    if (open.length > 0) {
      const because = `${list(open.map((t) => factLabel(t.fact)))} ${open.length > 1 ? "are" : "is"} not recorded, and ${asked}`;
      if (p.weight === "condition")
        unknown ??= noAnswer(
          because,
          open.map((t) => t.fact),
        );
      else cautions.push(`${capital(because)}.`);
      continue;
    }
    const because = `${factLabel(only!.fact)} is ${shownFact(only!.fact, history[only!.fact]!.value)}, and ${asked}`;
    if (p.weight === "condition") failed ??= noAnswer(because, [`a nitrate test where ${preconditionLabel(p)}`]);
    else cautions.push(`${capital(because)}.`);
  }
  return { refused: failed ?? unknown, cautions: [...cautions, ...othersSay(all, history)], steps };
};

/** The same of a nitrate test, after its method, unit, depth and crop, and that it is a number. */
export const checkNitrateTest = (
  { limits, requires }: { readonly limits: Limits; readonly requires: readonly Precondition[] },
  m: Measurement,
  { facts, history, pack }: NitrogenPlace,
): Checked => {
  const unread =
    outsideLimits(limits, m, facts.crop, pack) ??
    (m.qualifier && noAnswer(`${boundWords(m)}, and ${pack} reads a number`, ["nitrateN as a number"]));
  return unread ? { refused: unread, cautions: [], steps: [] } : checkPreconditions(requires, history, pack);
};

/** "Others would doubt this test: New York asks that the fertilizer nitrogen before the test is at most 40 lb/ac (here 46 lb/ac)." */
const othersSay = (all: readonly Precondition[], history: NitrateHistory): string[] => {
  const unmet = all.filter((p) => p.by !== undefined && !p.anyOf.some((t) => holds(t, history)));
  const unknown = unmet.filter((p) => p.anyOf.some((t) => holds(t, history) === undefined));
  const here = ({ fact }: FactTest): string => shownFact(fact, history[fact]!.value);
  const sentence = (start: string, some: readonly Precondition[], told: (p: Precondition) => string): string[] =>
    some.length === 0
      ? []
      : [
          `${start}: ${[...Map.groupBy(some, (p) => p.by!)].map(([by, theirs]) => `${by} asks ${list(theirs.map((p) => `that ${told(p)}`))}`).join("; ")}.`,
        ];
  return [
    ...sentence(
      "Others would doubt this test",
      unmet.filter((p) => !unknown.includes(p)),
      (p) => `${preconditionLabel(p)} (here ${here(p.anyOf[0]!)})`,
    ),
    ...sentence("Others ask what the records do not say", unknown, preconditionLabel),
  ];
};
