import { spanLabel } from "../../rules/samplingParts.ts";
import type { Finding, SampledPlace, SamplingEvent } from "./finding.ts";
import { provenanceOf } from "./finding.ts";
import { list } from "../../list.ts";

/** Was every zone sampled? A check may leave some out; a full sampling that does leaves their results to grow old. */
export const zonesFinding = (event: SamplingEvent, { zones }: SampledPlace): Finding => {
  const base = { id: "zones", analytes: [], source: "common-practice" } as const;
  const left = zones.filter((z) => !event.bags.some((b) => b.zone === z.id)).map((z) => z.name);
  if (left.length === 0)
    return { ...base, severity: "fine", words: zones.length === 1 ? "The whole field was sampled." : "Every zone was sampled." };
  const some = `Not sampled: ${list(left)}`;
  return event.purpose === "routine"
    ? { ...base, severity: "read with care", words: `${some}. What is said of the field rests on older results there.` }
    : { ...base, severity: "fine", words: `${some}.` };
};

/** Does a composite stand for more ground than the field's guideline lets it? */
export const areaFinding = (event: SamplingEvent, { zones }: SampledPlace): Finding => {
  const base = { id: "area", analytes: [] } as const;
  const sampled = zones.filter((z) => event.bags.some((b) => b.zone === z.id));
  const judged = sampled.map((zone) => ({
    zone,
    bags: event.bags.filter((b) => b.zone === zone.id).length,
    outcome: zone.advice.composites.outcome,
  }));
  const refused = judged.find(({ outcome }) => outcome.kind === "noAnswer");
  if (refused?.outcome.kind === "noAnswer")
    return refused.zone.area
      ? {
          ...base,
          severity: "not judged",
          words: `Whether a bag stands for too much ground cannot be said, because ${refused.outcome.because}.`,
        }
      : {
          ...base,
          severity: "not recorded",
          words: `The area of ${refused.zone.name} is not recorded, so whether one bag is enough cannot be said.`,
        };
  const short = judged.flatMap(({ zone, bags, outcome }) =>
    outcome.kind === "answer" && bags < outcome.value.least ? [{ zone, bags, least: outcome.value }] : [],
  );
  const from = judged[0] ? provenanceOf(judged[0].outcome) : {};
  if (short.length === 0) return { ...base, ...from, severity: "fine", words: "No bag stands for more ground than the guideline lets it." };
  const each = short.map(
    ({ zone, bags, least }) => `${zone.name} had ${bags} ${bags === 1 ? "bag" : "bags"}, where its area calls for ${spanLabel(least)}`,
  );
  return {
    ...base,
    ...from,
    analytes: "all",
    severity: "read with care",
    words: `${list(each)}.`,
    brief: "one bag stands for more ground than the guideline advises",
  };
};
