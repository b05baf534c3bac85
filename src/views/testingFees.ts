import type { Outcome } from "../interpretation/outcome.ts";
import { answer, noAnswer } from "../interpretation/outcome.ts";
import type { PurposeId } from "../interpretation/vocabulary.ts";
import type { Farm, Field, Lab } from "../records/model.ts";
import { leavesOut } from "./leftOut.ts";

export interface Fee {
  readonly fee: number;
  readonly package: string;
  readonly lab: string;
}

const wanted = { routine: undefined, phCheck: "pH", nitrate: "nitrateN" } as const;

/** The laboratory's cheapest package that makes the one test a purpose asks for. */
const cheapest = (lab: Lab, purpose: "phCheck" | "nitrate"): Fee | undefined =>
  Object.values(lab.packages)
    .flatMap((p): Fee[] => (p.fee !== undefined && p.measures[wanted[purpose]] !== undefined ? [{ fee: p.fee, package: p.name, lab: lab.name }] : []))
    .sort((a, b) => a.fee - b.fee)[0];

/** What a bag costs next time: the package of the field's newest sampling for the purpose, else the cheapest of its laboratory that will do. */
export const nextFee = (farm: Farm, field: Field, purpose: PurposeId): Outcome<Fee> => {
  if (leavesOut(farm, "costs")) return noAnswer("fees are left out for this reader");
  const last = field.samplings.findLast((s) => s.purpose === purpose);
  if (last) {
    const offered = last.lab.packages[last.packageId]!;
    return offered.fee === undefined ? noAnswer(`the fee of ${offered.name} at ${last.lab.name} is not recorded`, ["a fee in the laboratory's file"]) : answer({ fee: offered.fee, package: offered.name, lab: last.lab.name }, []);
  }
  const lab = field.samplings.at(-1)?.lab;
  if (purpose === "routine" || !lab) return noAnswer("the field was never sampled, so no laboratory and package are on record", ["a sampling"]);
  const found = cheapest(lab, purpose);
  return found ? answer(found, []) : noAnswer(`${lab.name} lists no package with a fee for this test`, ["a fee in the laboratory's file"]);
};
