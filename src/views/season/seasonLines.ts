import type { Guideline } from "../../interpretation/guideline.ts";
import type { Outcome } from "../../interpretation/outcome.ts";
import { weakestEvidence } from "../../interpretation/outcome.ts";
import type { Fertilizer, Supply } from "../../interpretation/products.ts";
import { suppliesOf } from "../../interpretation/products.ts";
import { convert } from "../../interpretation/units.ts";
import type { Field, Zone } from "../../records/model.ts";
import { alreadySpread } from "./seasonSpread.ts";
import type { DosedRate } from "../advice/doses.ts";
import { dosedRates } from "../advice/doses.ts";
import type { ZoneAdvice } from "../advice/sample.ts";
import type { EvidenceMark } from "../steps.ts";
import { evidenceMark } from "../steps.ts";
import type { ZonePurchase } from "../advice/zonePurchase.ts";
import { currentNitrogen } from "../advice/zonePurchase.ts";

export type SpreadKind = "lime" | "fertilizer" | "starter";

/** One product on one zone, as the zone's newest advice has it. Amounts by the acre; a page turns them into `units`. */
export interface SpreadLine {
  /** `fertilizer-potash`: lines of one job are spread with one filling. */
  readonly job: string;
  readonly kind: SpreadKind;
  readonly product: {
    readonly id: string;
    readonly name: string;
    readonly pricePerTon?: number | undefined;
    readonly poundsPerGallon?: number | undefined;
  };
  /** Absent for lime. */
  readonly fertilizer: Fertilizer | undefined;
  /** lb/ac of the product as hauled, over all applications. */
  readonly rate: number;
  readonly acres: number | undefined;
  /** lb of the product on the whole zone; `undefined` where its area is not known. */
  readonly pounds: number | undefined;
  /** In the farm's currency; `undefined` without an area or a price. */
  readonly cost: number | undefined;
  /** Equal applications the rate is split over, and what the publication says of the later ones. */
  readonly parts: number;
  readonly then: string | undefined;
  /** The rates behind it that the guideline spreads in doses of their own size, each at its time. */
  readonly doses: readonly DosedRate[];
  /** lb/ac that the product brings of each nutrient, counted as it was asked for. */
  readonly brings: readonly Pick<Supply, "nutrient" | "given">[];
  /** The row of the zone's advice on the field's page. */
  readonly anchor: string;
  readonly packs: readonly Guideline[];
  readonly evidence: EvidenceMark | undefined;
  /** Chosen by weight, for want of prices. */
  readonly byWeight: boolean;
  /** What the records say was spread of what it brings since the soil was sampled; nothing is taken off for it. */
  readonly already: readonly string[];
}

/** All that is to be spread on a zone, by its newest advice. */
export const spreadLines = (field: Field, advice: ZoneAdvice, purchase: ZonePurchase): SpreadLine[] => [
  ...limeLines(field, advice),
  ...starterLines(field, advice, purchase),
  ...fertilizerLines(field, advice, purchase),
];

type Amounts = Pick<SpreadLine, "rate" | "acres" | "pounds" | "cost">;

const amounts = (zone: Zone, rate: number, pricePerTon: number | undefined): Amounts => {
  const acres = zone.squareMeters === undefined ? undefined : convert(zone.squareMeters, "sq m", "acre");
  const pounds = acres === undefined ? undefined : rate * acres;
  return {
    rate,
    acres,
    pounds,
    cost: pounds === undefined || pricePerTon === undefined ? undefined : convert(pounds, "lb", "ton") * pricePerTon,
  };
};

const grade = (outcome: Outcome<unknown>): EvidenceMark | undefined =>
  outcome.kind === "answer" ? evidenceMark(weakestEvidence(outcome.steps)) : undefined;

/** The first of the farm's materials that a rate can be worked out for, as the field's page counts it; the others stand there beside it. */
const limeLines = (field: Field, advice: ZoneAdvice): SpreadLine[] => {
  const { needed, rates } = advice.advice.lime;
  const index = rates.findIndex((r) => r.outcome.kind === "answer");
  const outcome = rates[index]?.outcome;
  if (outcome?.kind !== "answer" || needed.kind !== "answer" || needed.value === "none") return [];
  const { material, rate, applications, then } = outcome.value;
  return [
    {
      job: `lime-${material.id}`,
      kind: "lime",
      product: material,
      fertilizer: undefined,
      ...amounts(advice.zone, convert(rate.value, rate.unit, "lb/ac"), material.pricePerTon),
      parts: applications.length,
      then: applications.length > 1 ? then : undefined,
      doses: [],
      brings: [],
      anchor: `${advice.zone.id}-lime${index === 0 ? "" : `-${index + 1}`}`,
      packs: [needed.value.pack],
      evidence: grade(outcome),
      byWeight: false,
      already: alreadySpread(field, advice, "lime"),
    },
  ];
};

/** The guidelines that ask for a nutrient which the product brings. */
const askedBy = (zone: ZoneAdvice, brings: SpreadLine["brings"]): Guideline[] => {
  const asked = [...currentNitrogen(zone), ...zone.advice.rates];
  return [
    ...new Set(
      asked.flatMap(({ nutrient, outcome, pack }) =>
        pack && outcome.kind === "answer" && outcome.value.rate.value > 0 && brings.some((b) => b.nutrient === nutrient) ? [pack] : [],
      ),
    ),
  ];
};

const idsOf = (brings: SpreadLine["brings"]): SpreadLine["brings"][number]["nutrient"][] => brings.map(({ nutrient }) => nutrient);

const fertilizerLines = (field: Field, advice: ZoneAdvice, { outcome }: ZonePurchase): SpreadLine[] => {
  if (outcome?.kind !== "answer") return [];
  const asked = outcome.value.supplies
    .filter((s) => s.asked > 0)
    .map((s) => ({ nutrient: s.nutrient, rate: { value: s.asked, unit: "lb/ac" as const } }));
  return outcome.value.products.map((product): SpreadLine => {
    const { fertilizer, rate } = product;
    const brings = suppliesOf([product], asked).filter((s) => s.given > 0);
    return {
      job: `fertilizer-${fertilizer.id}`,
      kind: "fertilizer",
      product: fertilizer,
      fertilizer,
      ...amounts(advice.zone, rate.value, fertilizer.pricePerTon),
      parts: 1,
      then: undefined,
      doses: dosedRates(advice).filter((d) => brings.some((b) => b.nutrient === d.nutrient)),
      brings,
      anchor: `${advice.zone.id}-product`,
      packs: askedBy(advice, brings),
      evidence: grade(outcome),
      byWeight: outcome.value.least === "weight",
      already: alreadySpread(field, advice, idsOf(brings)),
    };
  });
};

/** A starter is spread as it was planned, whatever the guidelines ask; they are asked what it leaves. */
const starterLines = (field: Field, advice: ZoneAdvice, { starter: worked }: ZonePurchase): SpreadLine[] => {
  const planned = advice.crop?.starter;
  if (!planned || !worked) return [];
  const { fertilizer } = planned;
  const rate = convert(planned.rate.value, planned.rate.unit, "lb/ac");
  return [
    {
      job: `starter-${fertilizer.id}`,
      kind: "starter",
      product: fertilizer,
      fertilizer,
      ...amounts(advice.zone, rate, fertilizer.pricePerTon),
      parts: 1,
      then: undefined,
      doses: [],
      brings: worked.supplies,
      anchor: `${advice.zone.id}-starter`,
      packs: [],
      evidence: evidenceMark(weakestEvidence(worked.steps)),
      byWeight: false,
      already: alreadySpread(field, advice, idsOf(worked.supplies)),
    },
  ];
};
