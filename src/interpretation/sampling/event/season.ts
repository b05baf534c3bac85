import { isSeasonal } from "../../comparable.ts";
import { list } from "../../list.ts";
import { seasonName, seasonOf } from "../../season.ts";
import type { AnalyteId } from "../../vocabulary.ts";
import { analyteInSentence } from "../../vocabulary.ts";
import { eventMonth } from "./eventMonth.ts";
import type { Finding, SampledPlace, SamplingEvent } from "./finding.ts";
import { testedIn } from "./finding.ts";

export const namesOf = (ids: readonly AnalyteId[]): string => list(ids.map(analyteInSentence));

/** The same season as the sampling before it? Soil pH and potassium move with the season. */
export const seasonFinding = (event: SamplingEvent, { before }: SampledPlace): Finding | undefined => {
  if (!before) return undefined;
  const moved = testedIn(event).filter(isSeasonal);
  const base = { id: "season", analytes: moved, source: { reference: "kentucky-agr16" }, evidence: "read" } as const;
  const [now, then] = [seasonName(event.date), seasonName(before.date)];
  if (now === then) return { ...base, severity: "fine", words: `Taken in ${now}, as in ${eventMonth(before)}.` };
  if (seasonOf(event.date) === seasonOf(before.date))
    return {
      ...base,
      severity: "fine",
      words: `Taken in ${now}, the one before in ${then}, ${eventMonth(before)}: autumn and winter count as one season.`,
    };
  if (moved.length === 0)
    return {
      ...base,
      severity: "fine",
      words: `Taken in ${now}, the one before in ${then}; nothing that moves with the season was tested.`,
    };
  return {
    ...base,
    severity: "read with care",
    words: `Taken in ${now}, the one before in ${then}, ${eventMonth(before)}: ${namesOf(moved)} may differ by the season alone.`,
    brief: `taken in ${now}, the one before in ${then}`,
  };
};

/** Was the soil fit to be sampled? */
export const moistureFinding = (event: SamplingEvent): Finding => {
  const base = { id: "moisture" } as const;
  switch (event.moisture) {
    case undefined:
      return { ...base, analytes: [], severity: "not recorded", words: "How moist the soil was is not recorded." };
    case "moist":
      return { ...base, analytes: [], source: "common-practice", severity: "fine", words: "The soil was moist." };
    case "wet":
      return {
        ...base,
        analytes: "all",
        source: "common-practice",
        severity: "read with care",
        words: "The soil was wet: wet cores smear, mix badly and are hard to cut to one depth.",
        brief: "taken from wet soil",
      };
    case "dry": {
      const moved = testedIn(event).filter(isSeasonal);
      const rest = { ...base, analytes: moved, source: { reference: "iowa-dry-soil-2022" }, evidence: "secondary" } as const;
      if (moved.length === 0) return { ...rest, severity: "fine", words: "The soil was dry; neither soil pH nor potassium was tested." };
      return {
        ...rest,
        severity: "read with care",
        words: `The soil was dry: ${namesOf(moved)} may read low. Buffer pH does not move, so the amount of lime stands where lime is due; whether it is due may not.`,
        brief: "taken from dry soil",
      };
    }
  }
};
