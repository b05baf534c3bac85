import { shortBases } from "../../interpretation/cations.ts";
import { sectionsOf } from "../../interpretation/guideline.ts";
import type { Outcome } from "../../interpretation/outcome.ts";
import type { Cations } from "../../interpretation/rules/cationSum.ts";
import { sumCations } from "../../interpretation/rules/cationSum.ts";
import { show } from "../../interpretation/show.ts";
import type { Farm, Field, Zone } from "../../records/model.ts";
import type { Fact } from "../fact.ts";
import type { ZoneSample } from "../advice/sample.ts";
import type { StepRow } from "../steps.ts";
import { stepRows } from "../steps.ts";
import { capital, zonesOrCount } from "../words.ts";

/** The sums, and one sentence for each reason why some zones have none. */
export interface CationsView {
  readonly shown: readonly CationView[];
  readonly silent: readonly string[];
}

interface CationView {
  readonly zone: string;
  readonly facts: readonly Fact[];
  /** A base that may be short beside the others. */
  readonly short: readonly string[];
  readonly steps: readonly StepRow[];
}

/** The sum of cations of each zone that was sampled. Information, never a rate. */
export const cationsView = (farm: Farm, field: Field, samples: Iterable<ZoneSample>): CationsView => {
  const rule = field.guidelines.flatMap((g) => sectionsOf(g, "cationSum"))[0];
  if (!rule) return { shown: [], silent: [] };
  const silent = new Map<string, Zone[]>();
  const shown = [...samples].flatMap(({ zone, sample }): CationView[] => {
    const outcome: Outcome<Cations> = sumCations(rule, sample.measurements);
    if (outcome.kind === "noAnswer") {
      silent.set(outcome.because, [...(silent.get(outcome.because) ?? []), zone]);
      return [];
    }
    const { cec, saturation, baseSaturation, acidity } = outcome.value;
    const short = shortBases(field.guidelines, outcome.value);
    const shares = Object.entries(saturation).map(([base, percent]) => ({ term: base, value: `${show(percent, 0)}%` }));
    return [
      {
        zone: zone.name,
        facts: [
          { term: "CEC, meq/100 g", value: show(cec, 1) },
          ...shares,
          { term: "Acidity", value: `${show((100 * acidity) / cec, 0)}%` },
          { term: "Base saturation", value: `${show(baseSaturation, 0)}%` },
        ],
        short: short.map((s) => `${s.what}. ${capital(s.result)}.`),
        steps: stepRows([...outcome.steps, ...short], farm.references),
      },
    ];
  });
  return {
    shown,
    silent: [...silent].map(([because, zones]) => `No sum of cations for ${zonesOrCount(zones, field.zones.length)}, because ${because}.`),
  };
};
