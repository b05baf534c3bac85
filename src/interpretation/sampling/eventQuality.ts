import { list } from "../list.ts";
import { coresFinding } from "./event/cores.ts";
import { areaFinding, zonesFinding } from "./event/coverage.ts";
import { cropBeforeFinding } from "./event/cropBefore.ts";
import { depthBeforeFinding, depthFinding } from "./event/depth.ts";
import type { Finding, SampledPlace, SamplingEvent, Severity } from "./event/finding.ts";
import { bagFinding, pailFinding, wayFinding } from "./event/handling.ts";
import { laboratoryFinding, methodsFinding } from "./event/laboratory.ts";
import { moistureFinding, seasonFinding } from "./event/season.ts";
import type { AnalyteId } from "../vocabulary.ts";
import { analyteInSentence } from "../vocabulary.ts";

/**
 * How well a sampling event was taken for what it was taken for: one finding for each thing that can spoil it, judged by the
 * field's guidelines where they speak of it and by common practice where that is so graded. What the record does not say is
 * told as not recorded and never taken for good or bad. Without an earlier event nothing is set beside it.
 */
export const eventQuality = (event: SamplingEvent, place: SampledPlace): Finding[] =>
  [
    coresFinding(event, place),
    depthFinding(event, place),
    depthBeforeFinding(event, place),
    seasonFinding(event, place),
    cropBeforeFinding(event, place),
    moistureFinding(event),
    pailFinding(event),
    bagFinding(event),
    wayFinding(event, place),
    laboratoryFinding(event, place),
    methodsFinding(event, place),
    zonesFinding(event, place),
    areaFinding(event, place),
  ].filter((f): f is Finding => f !== undefined);

const doubtful: readonly Severity[] = ["read with care", "not fit for the purpose"];

const castsDoubt = (finding: Finding, analyte: AnalyteId): boolean =>
  finding.brief !== undefined && doubtful.includes(finding.severity) && (finding.analytes === "all" || finding.analytes.includes(analyte));

/** "Taken shallower than before: read soil pH with care." What to say beside results of an event; `undefined` where there is nothing to say. */
export const careWords = (findings: readonly Finding[], analytes: readonly AnalyteId[]): string | undefined => {
  const touched = analytes.filter((a) => findings.some((f) => castsDoubt(f, a)));
  if (touched.length === 0) return undefined;
  const because = findings.filter((f) => touched.some((a) => castsDoubt(f, a))).map((f) => f.brief!);
  const what = list(touched.map(analyteInSentence));
  const text = because.some((b) => b.includes(",")) ? because.join("; ") : list(because);
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}: read ${what} with care.`;
};
