import { spanLabel } from "../../rules/samplingParts.ts";
import type { Finding, SampledPlace, SamplingEvent } from "./finding.ts";
import { provenanceOf } from "./finding.ts";

/** Common practice where no chosen guideline counts cores: six to nine for an ordinary composite. */
export const usualCores = { least: 6, most: 9 };

/** The fewest that any guide to sampling that comes with this program asks for in a field, a zone or a cell. */
export const fewestPublished = 10;

/** Common practice takes fewer than publications ask for, and whoever goes by it is told so. */
export const publishedAskMore = `published guides to sampling ask for ${fewestPublished} or more`;

/**
 * Cores in a bag against the number the field's guideline asks for, else, but for nitrate, against common practice. The bag
 * with the fewest decides. A bag of one core is a spot and no composite.
 */
export const coresFinding = (event: SamplingEvent, { zones }: SampledPlace): Finding => {
  const base = { id: "cores", analytes: "all" } as const;
  const counted = event.bags.flatMap((b) => b.cores ?? []);
  if (counted.length < event.bags.length)
    return {
      ...base,
      severity: "not recorded",
      words: `The number of cores is not recorded${counted.length === 0 ? "" : ` for ${event.bags.length - counted.length} of ${event.bags.length} bags`}.`,
    };
  const fewest = Math.min(...counted);
  const most = Math.max(...counted);
  const had = `${spanLabel({ least: fewest, most })} ${most === 1 ? "core" : "cores"} a bag`;
  const outcome = zones.find((z) => event.bags.some((b) => b.zone === z.id))?.advice.cores.outcome;
  if (outcome?.kind !== "answer" && event.purpose === "nitrate")
    return {
      ...base,
      severity: "not judged",
      words: `${had}; ${outcome ? outcome.because : "no chosen guideline says how many to take"}.`,
    };
  const asked = outcome?.kind === "answer" ? outcome.value : usualCores;
  const from = outcome?.kind === "answer" ? provenanceOf(outcome) : { source: "common-practice" as const };
  const wanted =
    outcome?.kind === "answer"
      ? `the guideline asks for ${spanLabel(asked)}`
      : `common practice is ${spanLabel(asked)}${fewest < fewestPublished ? `, and ${publishedAskMore}` : ""}`;
  const least = asked.least ?? 0;
  // Said of more than was asked for, "common practice is 6 to 9" would read as a fault.
  const beyond = asked.most !== undefined && fewest > asked.most;
  if (fewest >= least)
    return {
      ...base,
      ...from,
      severity: "fine",
      words: beyond
        ? `${had}, more than the ${spanLabel(asked)} ${outcome?.kind === "answer" ? "that the guideline asks for" : "of common practice"}.`
        : `${had}; ${wanted}.`,
    };
  if (fewest === 1)
    return {
      ...base,
      ...from,
      severity: "not fit for the purpose",
      words: `A bag of one core stands for a spot, not for a zone; ${wanted}.`,
      brief: "a bag held a single core",
    };
  return {
    ...base,
    ...from,
    severity: "read with care",
    words: `${had}, where ${wanted}: the results stray more than they would have.`,
    brief: "taken with too few cores",
  };
};
