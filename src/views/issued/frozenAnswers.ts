import { measurementLabel, methodLabel } from "../../interpretation/measurement.ts";
import type { Guideline } from "../../interpretation/guideline.ts";
import type { Outcome } from "../../interpretation/outcome.ts";
import { weakestEvidence } from "../../interpretation/outcome.ts";
import type { Purchase } from "../../interpretation/products.ts";
import { analytes } from "../../interpretation/vocabulary.ts";
import type { Farm } from "../../records/model.ts";
import type { FrozenAnswer } from "../../records/schemas/recommendation.ts";
import { zoneAdviceView } from "../advice/adviceView.ts";
import { asJson } from "./frozenInputs.ts";
import type { ZoneAdvice } from "../advice/sample.ts";
import { zonePurchase } from "../advice/zonePurchase.ts";
import type { AdviceRow } from "../advice/adviceRow.ts";

/** A question, its outcome, and the figures of an answer as computed. */
interface Asked {
  readonly question: string;
  readonly kind: FrozenAnswer["kind"];
  readonly outcome: Outcome<unknown>;
  readonly figures?: Readonly<Record<string, unknown>> | undefined;
  readonly pack?: Guideline | undefined;
}

const ratings = (zone: ZoneAdvice): FrozenAnswer[] => {
  const seen = new Map<string, number>();
  return zone.advice.ratings.map(({ measurement: m, outcome, pack }): FrozenAnswer => {
    const nth = (seen.get(m.analyte) ?? 0) + 1;
    seen.set(m.analyte, nth);
    const label = measurementLabel(m);
    const name = analytes[m.analyte].label;
    return {
      question: `rating-${m.analyte}${nth > 1 ? `-${nth}` : ""}`,
      kind: "rating",
      subject: name,
      shown: outcome.kind === "answer" ? `${label}, ${outcome.value.band}` : label,
      detail: `by ${methodLabel(m)}${outcome.kind === "noAnswer" ? `; no class, because ${outcome.because}` : ""}`,
      ...base(outcome, pack, outcome.kind === "answer" ? { value: m.value, unit: m.unit, ...outcome.value } : undefined),
    };
  });
};

const lime = ({
  advice: {
    lime: { needed, rates },
  },
}: ZoneAdvice): Asked[] => {
  if (needed.kind === "noAnswer") return [{ question: "lime", kind: "lime", outcome: needed }];
  if (needed.value === "none") return [{ question: "lime", kind: "lime", outcome: needed, figures: { value: 0, unit: "ton/ac" } }];
  const { pack, requirement, target } = needed.value;
  const required = { requirement, target };
  if (rates.length === 0) return [{ question: "lime", kind: "lime", outcome: needed, pack, figures: required }];
  return rates.map(({ material, outcome }, i): Asked => {
    const figures = { material: material.id, ...required };
    const question = i === 0 ? "lime" : `lime-${i + 1}`;
    if (outcome.kind === "noAnswer") return { question, kind: "lime", outcome, pack, figures };
    const { applications, then, costPerAcre, rate } = outcome.value;
    return { question, kind: "lime", outcome, pack, figures: { ...rate, ...figures, applications, then, costPerAcre } };
  });
};

const nitrogen = ({ advice: { nitrogen: rate, nitrogenPack, nitrogenCredits = [] }, nitrogen: basis }: ZoneAdvice): Asked[] => {
  if (!basis) return [];
  const credits = nitrogenCredits.map(({ id, outcome, pack }, i): Asked => ({
    question: `n-${id}-${i + 1}`,
    kind: "credit",
    outcome,
    pack,
    figures: outcome.kind === "answer" ? { value: outcome.value.value, unit: "lb/ac" } : undefined,
  }));
  return rate
    ? [
        {
          question: "n",
          kind: "nitrogen",
          outcome: rate,
          pack: nitrogenPack,
          figures: rate.kind === "answer" ? rateFigures(rate.value) : undefined,
        },
        ...credits,
      ]
    : credits;
};

const rateFigures = ({ rate, ...rest }: { readonly rate: { readonly value: number; readonly unit: string } }): Record<string, unknown> => ({
  ...rate,
  ...rest,
});

const purchased = ({ products, ...rest }: Purchase): Record<string, unknown> => ({
  products: products.map(({ fertilizer, rate, costPerAcre }) => ({ product: fertilizer.id, ...rate, costPerAcre })),
  ...rest,
});

const products = (farm: Farm, zone: ZoneAdvice): Asked[] => {
  const { starter, lacking, outcome } = zonePurchase(farm, zone);
  return [
    ...(starter
      ? [
          {
            question: "starter",
            kind: "starter" as const,
            outcome: { kind: "answer" as const, value: undefined, steps: starter.steps, cautions: [] },
            figures: { supplies: starter.supplies, seed: starter.seed },
          },
        ]
      : []),
    ...lacking.map((each): Asked => ({
      question: `product-${each.nutrient.toLowerCase()}`,
      kind: "product",
      outcome: { kind: "noAnswer", because: each.because, missing: each.missing },
    })),
    ...(outcome
      ? [
          {
            question: "product",
            kind: "product" as const,
            outcome,
            figures: outcome.kind === "answer" ? purchased(outcome.value) : undefined,
          },
        ]
      : []),
  ];
};

const base = (
  outcome: Outcome<unknown>,
  pack: Guideline | undefined,
  figures: Asked["figures"],
): Omit<FrozenAnswer, "question" | "kind" | "subject"> => ({
  ...(outcome.kind === "noAnswer" && { noAnswer: { because: outcome.because, missing: [...outcome.missing] } }),
  figures,
  guideline: pack?.id,
  evidence: outcome.kind === "answer" ? weakestEvidence(outcome.steps) : undefined,
  ...(outcome.kind === "answer" && outcome.cautions.length > 0 && { cautions: [...outcome.cautions] }),
  steps: outcome.kind === "answer" ? outcome.steps.map((s) => ({ ...s })) : [],
});

/** Every question of a zone: as a page shows it, as it was computed, and every step. */
export const frozenAnswers = (farm: Farm, zone: ZoneAdvice): FrozenAnswer[] => {
  const begin = zone.zone.id.length + 1;
  const rows = new Map(zoneAdviceView(farm, zone).rows.map((row) => [row.id.slice(begin), row]));
  const rates = zone.advice.rates.map(({ nutrient, outcome, pack }): Asked => ({
    question: nutrient.toLowerCase(),
    kind: "rate",
    outcome,
    pack,
    figures: outcome.kind === "answer" ? rateFigures(outcome.value) : undefined,
  }));
  const asked = [...lime(zone), ...nitrogen(zone), ...rates, ...products(farm, zone)];
  return asJson([
    ...ratings(zone),
    ...asked.map(({ question, kind, outcome, figures, pack }): FrozenAnswer => {
      const row = rows.get(question);
      if (!row) throw new Error(`the page has no row for ${question} of zone ${zone.zone.id}`);
      return { question, kind, subject: row.subject, ...shown(row), ...base(outcome, pack, figures) };
    }),
  ]);
};

const shown = (row: AdviceRow): Pick<FrozenAnswer, "shown" | "detail"> => ({
  shown: row.value === "" ? undefined : `${row.value} ${row.unit}`,
  detail: [row.none, row.detail].filter(Boolean).join(" ") || undefined,
});

/** "Potash (K₂O): 107 lb/ac for wheat 2021, 75 bu/ac; potassium is low": the answer in a line, for a person. */
export const inShort = ({ subject, shown: amount, detail, kind, noAnswer }: FrozenAnswer): string => {
  if (kind === "rating") return `${subject}: ${amount ?? ""}${noAnswer ? ", no class" : ""}`;
  return `${subject}: ${[noAnswer ? undefined : amount, detail].filter(Boolean).join(" ")}`;
};
