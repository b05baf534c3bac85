import type { RateAdvice, RateRule } from "../nutrientRates.ts";
import { putTo, rulesFor } from "../nutrientRates.ts";
import type { Guideline } from "../guideline.ts";
import type { Measurement } from "../measurement.ts";
import type { NoAnswer, Outcome } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { classByBandRates } from "../rules/bandRates.ts";
import type { Rating } from "../rules/bands.ts";
import { buildUpByBuildMaintain } from "../rules/buildMaintain.ts";
import { buildUpByIndexOfftake } from "../rules/indexOfftake.ts";
import type { BuildUp, RatePlace } from "../rules/nutrientRate.ts";
import type { Sample } from "../sample.ts";
import { firstAnswer } from "../firstAnswer.ts";

export interface BuildUpAdvice {
  readonly outcome: Outcome<BuildUp>;
  readonly pack: Guideline | undefined;
}

const buildUpByRule = (rule: RateRule, m: Measurement, place: RatePlace): Outcome<BuildUp> => {
  switch (rule.kind) {
    case "buildMaintain":
      return buildUpByBuildMaintain(rule, m, place);
    case "indexOfftake":
      return buildUpByIndexOfftake(rule, m, place);
    case "bandRates":
      return nothingInRange(classByBandRates(rule, m, place.facts, place.pack), place);
    case "linearYield":
    case "quadraticIndex":
      return onlyTheCrop(place);
  }
};

const onlyTheCrop = ({ pack }: RatePlace): NoAnswer =>
  noAnswer(`${pack} says what the next crop needs, and not what would bring the soil up to a target`, ["a guideline that builds up"]);

/** A guideline without an amount that builds up says all the same of a soil in its range, or above, that it needs none. */
const nothingInRange = (rated: Outcome<Rating>, place: RatePlace): Outcome<BuildUp> => {
  if (rated.kind === "noAnswer") return rated;
  const { position } = rated.value;
  return position === "within" || position === "above"
    ? answer({ amount: { value: 0, unit: "lb/ac" }, over: "all years" }, rated.steps)
    : onlyTheCrop(place);
};

/**
 * What it takes to bring one nutrient's soil test up into its range, by the guideline whose rate the sample has: the amounts of one are
 * never read against the target of another. Where no guideline gives a rate, the first that knows the target answers.
 */
export const buildUpFor = (sample: Sample, rate: RateAdvice): BuildUpAdvice => {
  const rules = (rulesFor(sample.packs, sample.facts.crop, rate.nutrient) ?? []).filter(
    ({ pack }) => rate.outcome.kind === "noAnswer" || pack === rate.pack,
  );
  const tries = rules.map((each) => putTo(each, sample, (m, place) => buildUpByRule(each.rule, m, place)));
  return firstAnswer(tries, rate.outcome.kind === "noAnswer" ? rate.outcome : noAnswer("no guideline says"), sample.facts);
};
