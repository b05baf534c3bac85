import type { Guideline } from "./guideline.ts";
import { sectionsOf } from "./guideline.ts";
import type { Depth, Measurement } from "./measurement.ts";
import { depthIn, measurementLabel } from "./measurement.ts";
import type { Answer, Evidence, Outcome, Source, Step } from "./outcome.ts";
import { answer, noAnswer } from "./outcome.ts";
import type { BufferTableRule } from "./rules/bufferTable.ts";
import { limeByBufferTable } from "./rules/bufferTable.ts";
import { resultStep } from "./rules/bands.ts";
import type { Facts } from "./rules/conditions.ts";
import type { LimeAnalysis } from "./rules/limeQuality.ts";
import { limeQuality } from "./rules/limeQuality.ts";
import type { OwnTarget } from "./rules/targetPh.ts";
import { targetPhFor } from "./rules/targetPh.ts";
import { pH as showPh, plain } from "./show.ts";
import type { Amount, LengthUnit } from "./units.ts";
import { convert } from "./units.ts";
import type { LimeIndexId } from "./vocabulary.ts";
import { limeIndices, methods } from "./vocabulary.ts";

/** A liming material the farm can buy. */
export interface LimeMaterial {
  readonly id: string;
  readonly name: string;
  /** Indices the supplier states, in percent, each with the place in the record that says so. */
  readonly stated: Partial<Record<LimeIndexId, { value: number; source: Source }>>;
  readonly analysis?: (LimeAnalysis & { source: Source }) | undefined;
  readonly pricePerTon?: number | undefined;
}

export interface LimePlace {
  readonly facts: Facts;
  readonly packs: readonly Guideline[];
  readonly pH: Measurement | undefined;
  /** Every buffer reading of the sample; the first one a guideline has a table for is used. */
  readonly buffers: readonly Measurement[];
  /** The depth of soil to be limed, where the field's record sets it; else the depth sampled. */
  readonly depth?: { value: number; unit: LengthUnit; source: Source } | undefined;
  readonly own?: OwnTarget | undefined;
  readonly incorporated: boolean;
  readonly materials: readonly LimeMaterial[];
}

export interface LimeRequirement {
  /** In the table's own unit, of its assumed material, for the depth to be limed. */
  readonly requirement: Amount<"ton/ac" | "lb/ac">;
  readonly target: number;
  readonly table: BufferTableRule;
  readonly pack: Guideline;
}

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

/** Does the soil need lime, and how much of the table's material for the depth to be limed? */
export const limeAdvice = (place: LimePlace): LimeAdvice => {
  const needed = limeNeeded(place);
  if (needed.kind === "noAnswer" || needed.value === "none") return { needed, rates: [] };
  const requirement = needed as Answer<LimeRequirement>;
  return {
    needed,
    rates: place.materials.map((material) => ({ material, outcome: limeRate(requirement, material, place) })),
  };
};

const limeNeeded = (place: LimePlace): Outcome<LimeRequirement | "none"> => {
  const { pH } = place;
  if (!pH) return noAnswer("soil pH was not tested", ["pH"]);
  if (pH.qualifier) return noAnswer(`the laboratory says pH ${measurementLabel(pH)}, and the decision needs a number`, ["pH as a number"]);
  const rules = place.packs.flatMap((pack) => sectionsOf(pack, "targetPh").map((rule) => ({ rule, pack })));
  const fitting = rules.filter(({ rule }) => rule.method === pH.method);
  if (fitting.length === 0)
    return noAnswer(
      rules.length === 0
        ? "none of the chosen guidelines says when to lime"
        : `soil pH was measured in ${methods[pH.method].label}, and the chosen guidelines read another medium`,
      ["a target pH for this medium"],
    );
  const targets = fitting.map(({ rule, pack }) => targetPhFor(rule, place.facts, place.own, pack.short));
  const target = targets.find((t) => t.kind === "answer") ?? targets[0]!;
  if (target.kind === "noAnswer") return target;
  const steps: Step[] = [resultStep(pH, "Soil pH"), ...target.steps];
  if (pH.value >= target.value.limeBelow) {
    steps.push({
      what: "The soil is not below the pH at which to lime",
      expression: `${showPh(pH.value)} against ${showPh(target.value.limeBelow)}`,
      result: "no lime",
    });
    return answer<"none">("none", steps);
  }
  if (target.value.target === undefined)
    return noAnswer(
      `soil pH ${showPh(pH.value)} is below ${showPh(target.value.limeBelow)}, but the guideline says when to lime and not how far; set targetPh for the field`,
      ["targetPh"],
    );
  return requirementFromTable(place, target.value.target, steps);
};

const requirementFromTable = (place: LimePlace, target: number, before: readonly Step[]): Outcome<LimeRequirement | "none"> => {
  const tables = place.packs.flatMap((pack) => sectionsOf(pack, "bufferTable").map((table) => ({ table, pack })));
  if (tables.length === 0) return noAnswer("none of the chosen guidelines holds a lime table", ["a lime table"]);
  if (place.buffers.length === 0)
    return noAnswer("buffer pH was not measured; soil pH says whether to lime, buffer pH says how much", ["bufferPh"]);
  const match = place.buffers
    .flatMap((buffer) => tables.filter(({ table }) => table.buffer === buffer.method).map((t) => ({ ...t, buffer })))
    .at(0);
  if (!match) {
    const wanted = [...new Set(tables.map(({ table }) => methods[table.buffer].label))].join(" or ");
    return noAnswer(
      `the buffer used was the ${methods[place.buffers[0]!.method].label}, and the lime tables chosen read the ${wanted}; a buffer pH is never read in another buffer's table`,
      [`bufferPh by the ${wanted}`],
    );
  }
  const { table, pack, buffer } = match;
  if (buffer.qualifier) return noAnswer(`the laboratory says buffer pH ${measurementLabel(buffer)}, and the table needs a number`, ["bufferPh as a number"]);
  const read = limeByBufferTable(table, buffer.value, target, pack.short);
  if (read.kind === "noAnswer") return read;
  const steps: Step[] = [...before, resultStep(buffer, methods[buffer.method].label), ...read.steps];
  if (read.value === 0) return answer<"none">("none", steps);
  const value = adjustForDepth(read.value, table, place, buffer.depth, steps);
  return answer({ requirement: { value, unit: table.unit }, target, table, pack }, steps);
};

/** What is worked out from a value is never known better than `derived`. */
const scaled = (evidence: Evidence | undefined): Evidence | undefined => (evidence === "read" ? "derived" : evidence);

/** rate x depth to be limed / depth the table is for. */
const adjustForDepth = (rate: number, table: BufferTableRule, place: LimePlace, sampled: Depth, steps: Step[]): number => {
  const assumed = convert(table.depth.to, table.depth.unit, "in");
  const wanted = place.depth ? convert(place.depth.value, place.depth.unit, "in") : depthIn(sampled, "in").to;
  steps.push({
    what: "Depth of soil to be limed",
    result: `${plain(wanted, 1)} in`,
    ...(place.depth ? { source: place.depth.source } : { note: "the depth sampled; set limeDepth for the field where lime is worked in to another depth" }),
  });
  const value = (rate * wanted) / assumed;
  steps.push({
    what: `The table is for ${plain(assumed, 1)} in of soil; more soil takes more lime`,
    expression: `${plain(rate, 2)} × ${plain(wanted, 1)} ÷ ${plain(assumed, 1)}`,
    result: `${plain(value, 2)} ${table.unit} of ${table.material.label}`,
    source: table.depth.source,
    // The publication states its depth; scaling by it is our arithmetic.
    evidence: scaled(table.depth.evidence),
    ...(table.depth.note && { note: table.depth.note }),
  });
  return value;
};

/** What the material is worth in the table's own index, stated by the supplier or worked out from its analysis. */
const worth = (material: LimeMaterial, table: BufferTableRule, packs: readonly Guideline[]): Outcome<number> => {
  const { index } = table.material;
  const { label, unit } = limeIndices[index];
  const stated = material.stated[index];
  if (stated) return answer(stated.value, [{ what: `${label} of ${material.name}, as stated`, result: `${plain(stated.value, 1)} ${unit}`, source: stated.source }]);
  const rule = packs.flatMap((pack) => sectionsOf(pack, "limeQuality")).find((r) => r.index === index);
  if (!rule || !material.analysis)
    return noAnswer(
      `the table counts in ${label}, which is not known for ${material.name}; other measures of lime are not the same thing`,
      [`${index} of ${material.id}`],
    );
  const computed = limeQuality(rule, material.analysis);
  if (computed.kind === "noAnswer") return computed;
  const { analysis } = material;
  return answer(computed.value, [
    {
      what: `Analysis of ${material.name}`,
      result: `CCE ${plain(analysis.cce, 1)} %, moisture ${plain(analysis.moisture, 1)} %`,
      source: analysis.source,
    },
    ...computed.steps,
  ]);
};

/** Requirement -> tons of one material as hauled, split over what one application may hold, and its cost. */
const limeRate = (needed: Answer<LimeRequirement>, material: LimeMaterial, place: LimePlace): Outcome<LimeRate> => {
  const { table, requirement } = needed.value;
  const value = worth(material, table, place.packs);
  if (value.kind === "noAnswer") return value;
  if (value.value <= 0) return noAnswer(`${material.name} is worth nothing by this measure`, [`${table.material.index} of ${material.id}`]);
  const tons = convert(requirement.value, requirement.unit, "ton/ac");
  const rate = (tons * table.material.value) / value.value;
  const steps: Step[] = [...value.steps];
  const inTons = requirement.unit === "ton/ac" ? plain(tons, 2) : `${plain(requirement.value, 0)} lb/ac ÷ 2,000`;
  steps.push({
    what: `Tons of ${material.name}`,
    expression: `${inTons} × ${plain(table.material.value)} ÷ ${plain(value.value, 1)}`,
    result: `${plain(rate, 2)} ton/ac`,
    source: table.material.source,
    evidence: scaled(table.material.evidence),
  });
  const { applications, then } = split(rate, tons, table, place.incorporated, steps);
  const costPerAcre = material.pricePerTon === undefined ? undefined : rate * material.pricePerTon;
  return answer(
    { material, rate: { value: rate, unit: "ton/ac" }, applications, then, costPerAcre },
    [...needed.steps, ...steps],
    ["limeDust", "limeAndAmmonia"],
  );
};

/** Split in equal parts where the rate, in the table's own material, is over what one application may hold. */
const split = (
  rate: number,
  assumedTons: number,
  table: BufferTableRule,
  incorporated: boolean,
  steps: Step[],
): { applications: Amount<"ton/ac">[]; then?: string | undefined } => {
  const placement = incorporated ? "incorporated" : "surface";
  const cap = table.caps?.find((c) => c.placement === placement);
  if (!cap) return { applications: [{ value: rate, unit: "ton/ac" }] };
  const most = convert(cap.maximum.value, table.unit, "ton/ac");
  const parts = Math.max(1, Math.ceil(assumedTons / most - 1e-9));
  const graded: { source: Source; evidence?: Evidence | undefined; note?: string } = {
    source: cap.maximum.source,
    evidence: cap.maximum.evidence,
    ...(cap.maximum.note && { note: cap.maximum.note }),
  };
  steps.push({
    what: incorporated ? "Most to work in at one time" : "Most to leave on the surface at one time",
    expression: `${plain(assumedTons, 2)} against ${plain(most, 2)} ton/ac of ${table.material.label}`,
    result: parts === 1 ? "one application" : `${parts} applications of ${plain(rate / parts, 2)} ton/ac`,
    ...graded,
  });
  return {
    applications: Array.from({ length: parts }, () => ({ value: rate / parts, unit: "ton/ac" as const })),
    ...(parts > 1 && { then: cap.then }),
  };
};
