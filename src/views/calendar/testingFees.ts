import type { Outcome } from "../../interpretation/outcome.ts";
import { answer, noAnswer } from "../../interpretation/outcome.ts";
import type { PurposeId } from "../../interpretation/vocabulary.ts";
import type { Farm, Field, Lab, Zone } from "../../records/model.ts";
import { leavesOut } from "../leftOut.ts";
import { lastSampling } from "./lastSampling.ts";

/** Where the bags of a field's next sampling go, and what is tested there. */
export interface Order {
  readonly lab: Lab;
  readonly packageId: string;
}

/** The tests of which a purpose cannot do without one. */
const wanted = { routine: ["P"], phCheck: ["pH"], nitrate: ["nitrateN", "mineralN"] } as const;

/** The laboratory's packages that will do, the cheapest and then the smallest first. */
const fitting = (lab: Lab, purpose: PurposeId): string[] => {
  const size = (id: string): number => Object.keys(lab.packages[id]!.measures).length;
  return Object.keys(lab.packages)
    .filter((id) => wanted[purpose].some((analyte) => lab.packages[id]!.measures[analyte] !== undefined))
    .sort((a, b) => (lab.packages[a]!.fee ?? Infinity) - (lab.packages[b]!.fee ?? Infinity) || size(a) - size(b));
};

/**
 * The laboratory and package of the zones' last sampling for the purpose; else, at the laboratory it last went to or the only
 * one on record, the cheapest that makes the one test of a pH check or a nitrate test, or the only one for a full sampling:
 * nobody has chosen among several yet.
 */
export const nextOrder = (farm: Farm, field: Field, purpose: PurposeId, zones: readonly Zone[] = field.zones): Order | undefined => {
  const last = lastSampling(
    field.samplings.filter((s) => s.purpose === purpose),
    zones,
  );
  if (last) return { lab: last.lab, packageId: last.packageId };
  const [only, ...more] = farm.labs.values();
  const lab = field.samplings.at(-1)?.lab ?? (more.length === 0 ? only : undefined);
  const [first, ...others] = lab ? fitting(lab, purpose) : [];
  return lab && first !== undefined && (purpose !== "routine" || others.length === 0) ? { lab, packageId: first } : undefined;
};

/** What a bag costs next time. */
export const nextFee = (
  farm: Farm,
  field: Field,
  purpose: PurposeId,
  zones: readonly Zone[] = field.zones,
): Outcome<{ readonly fee: number }> => {
  if (leavesOut(farm, "costs")) return noAnswer("fees are left out for this reader");
  const order = nextOrder(farm, field, purpose, zones);
  if (!order) {
    const lab = purpose === "routine" ? undefined : field.samplings.at(-1)?.lab;
    return lab
      ? noAnswer(`${lab.name} lists no package for this test`, ["a package in the laboratory's file"])
      : noAnswer("the field was never sampled, so no laboratory and package are on record", ["a sampling"]);
  }
  const { fee, name } = order.lab.packages[order.packageId]!;
  return fee === undefined
    ? noAnswer(`the fee of ${name} at ${order.lab.name} is not recorded`, ["a fee in the laboratory's file"])
    : answer({ fee }, []);
};
