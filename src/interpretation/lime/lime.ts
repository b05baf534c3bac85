import type { Guideline } from "../guideline.ts";
import { sectionsOf } from "../guideline.ts";
import type { LimeRequirement } from "./limeForDepth.ts";
import { scaled } from "./limeForDepth.ts";
import { limeNeeded } from "./limeNeeded.ts";
import type { LimeMaterial, LimePlace } from "./limePlace.ts";
import type { Answer, Evidence, Outcome, Source, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import type { AssumedMaterial, LimeBasis } from "../rules/limeBasis.ts";
import { limeFigure } from "../rules/limeBasis.ts";
import { limeQuality } from "../rules/limeQuality.ts";
import { capital } from "../rules/nitrateFacts.ts";
import { plain } from "../show.ts";
import type { Amount } from "../units.ts";
import { convert } from "../units.ts";
import { limeIndices } from "../vocabulary.ts";

export interface LimeRate {
  readonly material: LimeMaterial;
  /** ton/ac of the material as hauled. */
  readonly rate: Amount<"ton/ac">;
  /** The same, split over what one application may hold; one entry when no split is needed. */
  readonly applications: readonly Amount<"ton/ac">[];
  /** What the publication says to do with the later parts. */
  readonly then?: string | undefined;
  readonly costPerAcre?: number | undefined;
}

export interface LimeAdvice {
  readonly needed: Outcome<LimeRequirement | "none">;
  /** One per material the farm lists; empty when no lime is needed. */
  readonly rates: readonly { material: LimeMaterial; outcome: Outcome<LimeRate> }[];
}

/** What is counted of several: the first of the farm's materials that a rate can be worked out for, else the first, which tells why there is none. */
export const limeCounted = ({ rates }: LimeAdvice): LimeAdvice["rates"][number] | undefined =>
  rates.find(({ outcome }) => outcome.kind === "answer") ?? rates[0];

/** Does the soil need lime, how much of the rule's material for the depth to be limed, and how much of each of the farm's own? */
export const limeAdvice = (place: LimePlace): LimeAdvice => {
  const needed = limeNeeded(place);
  if (needed.kind === "noAnswer" || needed.value === "none") return { needed, rates: [] };
  const requirement = needed as Answer<LimeRequirement>;
  return {
    needed,
    rates: place.materials.map((material) => ({ material, outcome: limeRate(requirement, material, place) })),
  };
};

/** What the material is worth in the rule's own index, stated by the supplier or worked out from its analysis. */
const worth = (material: LimeMaterial, assumed: AssumedMaterial, packs: readonly Guideline[]): Outcome<number> => {
  const { index } = assumed;
  const { label, unit } = limeIndices[index];
  const stated = material.stated[index];
  if (stated)
    return answer(stated.value, [
      { what: `${capital(label)} of ${material.name}, as stated`, result: `${plain(stated.value, 1)} ${unit}`, source: stated.source },
    ]);
  const { analysis } = material;
  if (index === "cce" && analysis)
    return answer(analysis.cce, [
      { what: `${capital(label)} of ${material.name}, by analysis`, result: `${plain(analysis.cce, 1)} ${unit}`, source: analysis.source },
    ]);
  const rule = packs.flatMap((pack) => sectionsOf(pack, "limeQuality")).find((r) => r.index === index);
  if (!rule || !analysis)
    return noAnswer(
      `the table counts in ${label}, which is not known for ${material.name}; other measures of lime are not the same thing`,
      [`${index} of ${material.id}`],
    );
  const computed = limeQuality(rule, analysis);
  if (computed.kind === "noAnswer") return computed;
  const steps: Step[] = [
    {
      what: `Analysis of ${material.name}`,
      result: `CCE ${plain(analysis.cce, 1)} %, moisture ${plain(analysis.moisture, 1)} %`,
      source: analysis.source,
    },
    ...computed.steps,
  ];
  if (!rule.moreToHaul || analysis.moisture === 0) return answer(computed.value, steps);
  const hauled = (computed.value * (100 - analysis.moisture)) / 100;
  steps.push({
    what: "The index is of dry lime; as hauled, with its water, it is worth less",
    expression: `${plain(computed.value, 1)} ${unit} × ${plain(100 - analysis.moisture, 1)} %`,
    result: `${plain(hauled, 1)} ${unit}`,
    source: rule.moreToHaul.source,
    evidence: rule.moreToHaul.evidence,
    note: rule.moreToHaul.note,
  });
  return answer(hauled, steps);
};

/** Requirement -> tons of one material as hauled, split over what one application may hold, and its cost. */
const limeRate = (needed: Answer<LimeRequirement>, material: LimeMaterial, place: LimePlace): Outcome<LimeRate> => {
  const { basis, pack, requirement } = needed.value;
  const assumed = basis.material;
  if (!assumed)
    return noAnswer(
      `${pack.short} does not say of what quality of lime its rates are, so they cannot be turned into tons of ${material.name}`,
      [`the quality of lime that ${pack.short} means`],
    );
  const value = worth(material, assumed, place.packs);
  if (value.kind === "noAnswer") return value;
  if (value.value <= 0) return noAnswer(`${material.name} is worth nothing by this measure`, [`${assumed.index} of ${material.id}`]);
  const tons = convert(requirement.value, requirement.unit, "ton/ac");
  const rate = (tons * assumed.value) / value.value;
  const steps: Step[] = [...value.steps];
  // A rule in t/ha is worked in t/ha; the rate itself is carried in ton/ac whatever the rule counts in.
  const unit = requirement.unit === "t/ha" ? "t/ha" : "ton/ac";
  steps.push({
    what: unit === "t/ha" ? `What it takes of ${material.name}` : `Tons of ${material.name}`,
    expression: `${inTons(requirement, tons)} × ${plain(assumed.value)} ÷ ${plain(value.value, 1)}`,
    result: `${plain(convert(rate, "ton/ac", unit), 2)} ${unit}`,
    source: assumed.source,
    evidence: scaled(assumed.evidence),
    note: assumed.note,
  });
  const { applications, then } = split(rate, tons, basis, place.incorporated, steps);
  const costPerAcre = material.pricePerTon === undefined ? undefined : rate * material.pricePerTon;
  return answer(
    { material, rate: { value: rate, unit: "ton/ac" }, applications, then, costPerAcre },
    [...needed.steps, ...steps],
    ["limeDust", "limeAndAmmonia"],
  );
};

const inTons = ({ value, unit }: LimeRequirement["requirement"], tons: number): string => {
  const figure = limeFigure(value, unit);
  if (unit === "lb/ac") return `${figure} lb/ac ÷ 2,000`;
  return unit === "lb/1000 sq ft" ? `${figure} ${unit}, which is ${limeFigure(tons, "ton/ac")} ton/ac,` : figure;
};

/** Split in equal parts where the rate, in the rule's own material, is over what one application may hold. */
const split = (
  rate: number,
  assumedTons: number,
  basis: LimeBasis,
  incorporated: boolean,
  steps: Step[],
): { applications: Amount<"ton/ac">[]; then?: string | undefined } => {
  const placement = incorporated ? "incorporated" : "surface";
  const cap = basis.caps?.find((c) => c.placement === placement);
  if (!cap) return { applications: [{ value: rate, unit: "ton/ac" }] };
  const most = convert(cap.maximum.value, basis.unit, "ton/ac");
  const parts = Math.max(1, Math.ceil(assumedTons / most - 1e-9));
  const unit = basis.unit === "t/ha" ? "t/ha" : "ton/ac";
  const said = (tons: number): string => plain(convert(tons, "ton/ac", unit), 2);
  const graded: { source: Source; evidence?: Evidence | undefined; note?: string } = {
    source: cap.maximum.source,
    evidence: cap.maximum.evidence,
    note: cap.maximum.note,
  };
  steps.push({
    what: incorporated ? "Most to work in at one time" : "Most to leave on the surface at one time",
    expression: `${said(assumedTons)} against ${said(most)} ${unit} of ${basis.material!.label}`,
    result: parts === 1 ? "one application" : `${parts} applications of ${said(rate / parts)} ${unit}`,
    ...graded,
  });
  return {
    applications: new Array<Amount<"ton/ac">>(parts).fill({ value: rate / parts, unit: "ton/ac" }),
    ...(parts > 1 && { then: cap.then }),
  };
};
