import { stopped } from "../words.ts";
import type { CautionId } from "../../interpretation/cautions.ts";
import { cautions } from "../../interpretation/cautions.ts";
import type { Guideline } from "../../interpretation/guideline.ts";
import type { Farm, Field, Sampling, Zone } from "../../records/model.ts";
import type { FrozenAnswer, FrozenZone, GuidelinePrint, RecommendationBody } from "../../records/schemas/recommendation.ts";
import { cropWords } from "../advice/adviceView.ts";
import { frozenAnswers, inShort } from "./frozenAnswers.ts";
import { asJson, frozenProducts, inputsOf } from "./frozenInputs.ts";
import { adviceOn } from "../advice/sample.ts";
import { citation } from "../steps.ts";
import { inUnitsOf } from "../units.ts";
import { fieldAsOf } from "../zonesThen.ts";

export interface Issue {
  /** Whom the advice is for. */
  readonly for: string;
  /** The day of issue, `YYYY-MM-DD`. */
  readonly issued: string;
  /** Fingerprints of a guideline; hashing is not for this room. */
  readonly print: (pack: Guideline) => GuidelinePrint;
}

const frozenZone = (farm: Farm, field: Field, zone: Zone, sampling: Sampling, day: string): FrozenZone | undefined => {
  const found = adviceOn(farm, field, zone, sampling, day);
  if (!found) return undefined;
  const answers = frozenAnswers(farm, found);
  return {
    zone: zone.id,
    letter: zone.letter,
    name: zone.name,
    squareMeters: zone.squareMeters,
    crop: cropWords(found),
    inShort: answers.map(inShort),
    cautions: [...found.advice.cautions],
    answers,
    inputs: inputsOf(found) as unknown as FrozenZone["inputs"],
  };
};

/** Every publication that a step or a guideline names, as a citation: an archive is read without the records around it. */
const publications = (farm: Farm, answers: readonly FrozenAnswer[], packs: readonly Guideline[]): Record<string, string> => {
  const ids = new Set(packs.map((p) => p.publication));
  for (const { steps } of answers)
    for (const { source } of steps) if (typeof source === "object" && "reference" in source) ids.add(source.reference);
  return Object.fromEntries(
    [...ids].sort().map((id) => {
      const found = farm.references.get(id);
      return [id, found ? `${stopped(found.title)} ${citation(found)}` : id];
    }),
  );
};

/**
 * The advice of a sampling as it is issued on a day: for the crop that follows the day, with everything it was worked out from.
 * `undefined` where the sampling holds no result. Not sealed yet.
 */
export const freeze = (site: Farm, field: Field, sampling: Sampling, issue: Issue): RecommendationBody | undefined => {
  const farm = inUnitsOf(site, field);
  const zones = fieldAsOf(field, issue.issued).zones.flatMap((zone) => frozenZone(farm, field, zone, sampling, issue.issued) ?? []);
  if (zones.length === 0) return undefined;
  return asJson({
    format: 1,
    for: issue.for,
    issued: issue.issued,
    farm: farm.name,
    field: { id: field.id, name: field.name },
    sampling: { id: sampling.id, date: sampling.date, laboratory: sampling.lab.name },
    units: farm.units,
    currency: farm.currency,
    zones,
    cautions: [...new Set(zones.flatMap((z) => z.cautions as CautionId[]))].map((id) => cautions[id].text),
    products: frozenProducts(farm.products),
    guidelines: field.guidelines.map(issue.print),
    publications: publications(
      farm,
      zones.flatMap((z) => z.answers),
      field.guidelines,
    ),
  });
};
