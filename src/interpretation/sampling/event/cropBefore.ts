import type { CropId } from "../../vocabulary.ts";
import { crops } from "../../vocabulary.ts";
import { eventMonth } from "./eventMonth.ts";
import type { Finding, SampledPlace, SamplingEvent } from "./finding.ts";
import { provenanceOf, testedIn } from "./finding.ts";
import { list } from "../../list.ts";

interface Changed {
  readonly zone: string;
  readonly now: CropId;
  readonly then: CropId;
}

const after = (crop: CropId): string => `after ${crops[crop].label}`;

/** What is said where every zone changed alike, and where each changed in its own way. */
const changedWords = (changed: readonly Changed[], some: boolean, month: string): Pick<Finding, "words" | "brief"> => {
  const [{ now, then } = {}, ...others] = changed;
  if (now && then && others.every((c) => c.now === now && c.then === then))
    return {
      words: `Taken ${after(now)}, the one before, ${month}, ${after(then)}${some ? `, in ${list(changed.map((c) => c.zone))}` : ""}`,
      brief: `taken ${after(now)}, the one before ${after(then)}`,
    };
  return {
    words: `Taken after another crop than in ${month}: ${list(changed.map((c) => `${c.zone} ${after(c.now)} (before: ${after(c.then)})`))}`,
    brief: "taken after another crop than before",
  };
};

/**
 * After the crop that the sampling before it was taken after, zone by zone? Asked only where a chosen guideline wants the same
 * crop. A zone that only one of the two samplings holds has nothing to be set beside.
 */
export const cropBeforeFinding = (event: SamplingEvent, { zones, before }: SampledPlace): Finding | undefined => {
  if (!before) return undefined;
  const inZone = (e: SamplingEvent, id: string): SamplingEvent["bags"][number] | undefined => e.bags.find((b) => b.zone === id);
  const compared = zones.flatMap(({ id, name, advice }) => {
    const [now, then] = [inZone(event, id), inZone(before, id)];
    return now && then && advice.sameCrop.outcome.kind === "answer"
      ? [{ zone: name, now: now.after, then: then.after, from: provenanceOf(advice.sameCrop.outcome) }]
      : [];
  });
  if (!compared[0]) return undefined;
  const base = { id: "cropBefore", ...compared[0].from } as const;
  const month = eventMonth(before);
  const wanted = "the guideline asks for the same crop each time, since results vary less then";
  const changed = compared.flatMap(({ zone, now, then }) => (now && then && now !== then ? [{ zone, now, then }] : []));
  if (changed.length > 0) {
    const { words, brief } = changedWords(changed, changed.length < compared.length, month);
    return { ...base, analytes: testedIn(event), severity: "read with care", words: `${words}; ${wanted}.`, brief };
  }
  const silent = compared.filter((c) => !c.now || !c.then);
  if (silent.length > 0) {
    const of = [...(silent.some((c) => !c.now) ? ["this sampling"] : []), ...(silent.some((c) => !c.then) ? [`the one in ${month}`] : [])];
    return {
      ...base,
      analytes: [],
      severity: "not recorded",
      words: `The crop before ${list(of)} is not recorded${silent.length < compared.length ? ` for ${list(silent.map((c) => c.zone))}` : ""}; ${wanted}.`,
    };
  }
  return {
    ...base,
    analytes: [],
    severity: "fine",
    words: `Taken ${list([...new Set(compared.map((c) => after(c.now!)))])}, as in ${month}.`,
  };
};
