import type { Composite, Field, Sampling, Zone } from "../../records/model.ts";
import { capital, count, longDate, stopped } from "../words.ts";

/** Whether a zone's bag has come back: until the laboratory answers, a bag says nothing, and older results go on speaking. */
export const isAnswered = (sampling: Pick<Sampling, "composites">, zone: string): boolean =>
  sampling.composites.some((c) => c.zone === zone && !isAwaited(c));

export const isAwaited = (bag: Composite): boolean => bag.measurements.length === 0;

/** "results awaited", of the whole event, or of how many of its bags; `undefined` when every bag has a result. */
export const awaitedWords = ({ composites }: Pick<Sampling, "composites">): string | undefined => {
  const open = composites.filter(isAwaited).length;
  if (open === 0) return undefined;
  return open === composites.length ? "results awaited" : `results of ${count(open, "bag")} awaited`;
};

/** "Three bags of 20 November 2025 are at Fulmar Soil Laboratory.", one sentence a laboratory's event; only of `zone` where one is given. */
export const awaitedOf = (field: Field, zone?: Zone): string[] =>
  field.samplings.flatMap((s) => {
    const open = s.composites.filter((c) => isAwaited(c) && (zone === undefined || c.zone === zone.id)).length;
    return open === 0
      ? []
      : [stopped(`${capital(count(open, "bag"))} of ${longDate(s.date)} ${open === 1 ? "is" : "are"} at ${s.lab.name}`)];
  });

/** Why there is nothing to advise a zone from, as a clause. */
export const unadvisedBecause = (field: Field, zone?: Zone): string =>
  awaitedOf(field, zone).length > 0 ? "the laboratory's results are awaited" : "there is no routine sampling";
