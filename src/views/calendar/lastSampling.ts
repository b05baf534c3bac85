import type { Sampling, Zone } from "../../records/model.ts";

/** The newest of these samplings, oldest first, that a zone was in. */
export const lastOfZone = (samplings: readonly Sampling[], { id }: Zone): Sampling | undefined =>
  samplings.findLast((s) => s.composites.some((c) => c.zone === id));

/**
 * What the next sampling of these zones follows: the one that was the last of most of them, and of two the newer; else the newest of all.
 * A bag taken since from one zone alone, at another laboratory or in another season, is no measure for the others.
 */
export const lastSampling = (samplings: readonly Sampling[], zones: readonly Zone[]): Sampling | undefined => {
  const lasts = zones.flatMap((zone) => lastOfZone(samplings, zone) ?? []);
  const shares = (s: Sampling): number => lasts.filter((last) => last === s).length;
  const most = Math.max(...lasts.map(shares));
  return samplings.findLast((s) => lasts.includes(s) && shares(s) === most) ?? samplings.at(-1);
};
