import type { Guideline } from "../guideline.ts";
import { sectionsOf } from "../guideline.ts";
import type { LimeRequirement } from "./limeForDepth.ts";
import { requiredForDepth } from "./limeForDepth.ts";
import type { LimePlace } from "./limePlace.ts";
import { limeRequirement, otherwiseMeasured, requirementRulesOf } from "./limeRequirement.ts";
import type { Measurement } from "../measurement.ts";
import { boundWords, depthIn, depthLabel } from "../measurement.ts";
import type { NoAnswer, Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { unnamedAcidCrop } from "../rules/acidCrop.ts";
import { resultStep } from "../rules/bands.ts";
import type { LimeBasis } from "../rules/limeBasis.ts";
import { limeByClass } from "../rules/limeClass.ts";
import type { LimeByPh } from "../rules/limeFactor.ts";
import { limeByFactor, limeRowAt } from "../rules/limeFactor.ts";
import type { PhAluminumRule } from "../rules/phAluminum.ts";
import { limeByPhAluminum } from "../rules/phAluminum.ts";
import type { TargetPh, TargetPhRule } from "../rules/targetPh.ts";
import { byOwnTargetAlone, targetPhFor } from "../rules/targetPh.ts";
import { pH as showPh } from "../show.ts";
import { inWater, methods } from "../vocabulary.ts";
import { isWithheld, unlessWithheld } from "../firstAnswer.ts";

/** A sample that begins deeper than this, in inches, is one of the subsoil (common practice). */
const surface = 1;

/**
 * Does the soil need lime, and how much of the rule's own material for the depth to be limed?
 * Asked in the order of the packs: a trigger and target by one rule with the amount by another (both may come from
 * different publications), or a rule that holds its own target. The first answer counts, else the first refusal.
 */
export const limeNeeded = (place: LimePlace): Outcome<LimeRequirement | "none"> => {
  const { pH } = place;
  if (!pH) return noAnswer("soil pH was not tested", ["pH"]);
  if (pH.qualifier) return noAnswer(`${boundWords(pH, "pH ")}, and the decision needs a number`, ["pH as a number"]);
  if (depthIn(pH.depth, "in").from > surface)
    return noAnswer(`the sample was taken ${depthLabel(pH.depth)} deep, and every lime rate is for soil from the surface down`, [
      "a sample from the surface down",
    ]);
  const own = place.packs.flatMap((pack, at) => ownTargets(pack).map((rule) => ({ at, outcome: byOwnTarget(rule, pack, place, pH) })));
  const first = place.packs.findIndex((pack) => sectionsOf(pack, "targetPh").length > 0);
  const toTarget = { at: first < 0 ? place.packs.length : first, outcome: limeToTarget(place, pH) };
  const tries = [...own, toTarget]
    .sort((a, b) => a.at - b.at || (a === toTarget ? -1 : b === toTarget ? 1 : 0))
    .map((t) => unlessWithheld(t.outcome, place.facts));
  const refusal = own.length > 0 && requirementRulesOf(place.packs).length === 0 ? own[0]!.outcome : tries[0]!;
  return tries.find((t) => t.kind === "answer" || isWithheld(t)) ?? refusal;
};

/** By a trigger and a target, and a rule for the amount. */
const limeToTarget = (place: LimePlace, pH: Measurement): Outcome<LimeRequirement | "none"> => {
  const rules = place.packs.flatMap((pack) => sectionsOf(pack, "targetPh").map((rule) => ({ rule, pack })));
  const fitting = rules.filter(({ rule }) => rule.method === pH.method);
  const ownAlone = rules.length === 0 && inWater(pH.method) ? byOwnTargetAlone([], place) : undefined;
  if (fitting.length === 0 && !ownAlone)
    return rules.length === 0
      ? noAnswer("none of the chosen guidelines says when to lime", [
          // A field's own target is one in water.
          inWater(pH.method) ? "a guideline that says when to lime, or targetPh in field.yaml" : "a guideline that says when to lime",
        ])
      : noAnswer(`soil pH was measured in ${methods[pH.method].label}, and ${whoReads(rules)}`, [
          "a soil pH measured as the guideline reads it",
        ]);
  const targets = fitting.map(({ rule, pack }) =>
    unlessWithheld(targetPhFor(rule, place.facts, place.own, pack.short, pH.value), place.facts),
  );
  const target = ownAlone ?? targets.find((t) => t.kind === "answer" || isWithheld(t)) ?? byOwnTargetAlone(targets, place) ?? targets[0]!;
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
    return (
      wouldTell(targets.slice(0, targets.indexOf(target))) ??
      noAnswer(
        `soil pH ${showPh(pH.value)} is below ${showPh(target.value.limeBelow)}, but the guideline says when to lime and not how far; set targetPh for the field`,
        ["targetPh"],
      )
    );
  const found = limeRequirement(place, pH, target.value.target);
  if (found.kind === "noAnswer") return found;
  steps.push(...found.steps);
  const { value, rule, pack, measured } = found.value;
  return requiredForDepth(value, rule, target.value.target, pack, place, measured, steps);
};

/** The refusal of a guideline that was chosen before the one that says no target, and would say one: a fact it lacks is asked for first. */
const wouldTell = (earlier: readonly Outcome<TargetPh>[]): NoAnswer | undefined =>
  earlier.find((t): t is NoAnswer => t.kind === "noAnswer" && !t.missing.includes("targetPh"));

/** One guideline is named with its own medium: another one that is chosen may well read the sample's. */
const whoReads = (rules: readonly { readonly rule: TargetPhRule; readonly pack: Guideline }[]): string =>
  new Set(rules.map(({ pack }) => pack)).size > 1
    ? "the chosen guidelines read another medium"
    : `${rules[0]!.pack.short} reads it in ${[...new Set(rules.map(({ rule }) => methods[rule.method].label))].join(" or ")}`;

type OwnTargetRule = ReturnType<typeof ownTargets>[number];

/** The rules that hold their own target, or give a dose without one. */
const ownTargets = (pack: Guideline) => [
  ...sectionsOf(pack, "limeFactor"),
  ...sectionsOf(pack, "limeClass"),
  ...sectionsOf(pack, "phAluminum"),
];

const byOwnTarget = (rule: OwnTargetRule, pack: Guideline, place: LimePlace, pH: Measurement): Outcome<LimeRequirement | "none"> => {
  if (rule.method !== pH.method)
    return noAnswer(`soil pH was measured in ${methods[pH.method].label}, and ${pack.short} reads it in ${methods[rule.method].label}`, [
      `pH in ${methods[rule.method].label}`,
    ]);
  const acid = place.own
    ? undefined
    : unnamedAcidCrop(
        rule.kind === "limeFactor" ? limeRowAt(rule, place.facts, place.own)?.when?.crops : undefined,
        place.facts,
        pack.short,
      );
  if (acid) return acid;
  if (rule.kind === "phAluminum") return byAluminum(rule, pack, place, pH);
  const found: Outcome<LimeByPh> =
    rule.kind === "limeFactor"
      ? limeByFactor(rule, pH.value, place.facts, pack.short, place.own)
      : limeByClass(rule, pH.value, place.facts, pack.short);
  if (found.kind === "noAnswer") return found;
  const { rate, target } = found.value;
  // The rate is to the rule's own pH. A field that is to stay lower, such as one of potatoes or peat, would be limed too far.
  if (place.own && target !== undefined && Math.abs(place.own.value - target) > 1e-9)
    return noAnswer(`the lime rate of ${pack.short} is to pH ${showPh(target)} alone, and the target is ${showPh(place.own.value)}`, [
      "targetPh",
    ]);
  return requiredForDepth(rate, basisOf(rule, found.value, place), target, pack, place, undefined, [
    resultStep(pH, "Soil pH"),
    ...found.steps,
  ]);
};

const byAluminum = (rule: PhAluminumRule, pack: Guideline, place: LimePlace, pH: Measurement): Outcome<LimeRequirement | "none"> => {
  const aluminum = place.aluminums?.find((m) => m.method === rule.aluminum && m.unit === "ppm");
  if (aluminum?.qualifier) return noAnswer(`${boundWords(aluminum, "aluminum ")}, and the table needs a number`, ["Al as a number"]);
  const target = place.own?.value ?? rule.target;
  // A table may print a rate above its own target. Whoever sets a target for the field has said where liming ends.
  if (place.own && pH.value >= target)
    return answer<"none">("none", [
      resultStep(pH, "Soil pH"),
      place.own.step,
      {
        what: "The soil is at the target of the field, or above it",
        expression: `${showPh(pH.value)} against ${showPh(target)}`,
        result: "no lime",
      },
    ]);
  const found = limeByPhAluminum(rule, pH.value, aluminum?.value, target, pack.short);
  if (found.kind === "noAnswer") {
    const other = aluminum ? undefined : place.aluminums?.[0];
    return other && found.missing.includes("Al") ? otherwiseMeasured(other, methods[rule.aluminum].label, "ppm", pack.short) : found;
  }
  const steps = [
    resultStep(pH, "Soil pH"),
    ...(aluminum ? [resultStep(aluminum, "Reactive aluminum")] : []),
    ...(place.own ? [place.own.step] : []),
    ...found.steps,
  ];
  return requiredForDepth(found.value, rule, target, pack, place, pH, steps);
};

/** The basis of a rule that holds its own target: its row's depth, and one cap for both ways of applying. */
const basisOf = (rule: Exclude<OwnTargetRule, PhAluminumRule>, { mostAtOnce }: LimeByPh, { facts, own }: LimePlace): LimeBasis => {
  const row = rule.kind === "limeFactor" ? limeRowAt(rule, facts, own) : undefined;
  const maximum = row
    ? row.mostAtOnce
    : rule.kind === "limeClass" && mostAtOnce !== undefined
      ? rule.categories.find((c) => c.soil === facts.soilCategory)?.mostAtOnce
      : undefined;
  const onSurface = row?.mostOnSurface ?? maximum;
  const rest = (row ? row.then : rule.kind === "limeClass" ? rule.then : undefined) ?? "Spread the rest later.";
  return {
    unit: rule.unit,
    material: rule.material,
    depth: row?.depth,
    caps: [
      ...(onSurface ? [{ placement: "surface" as const, maximum: onSurface, then: rest }] : []),
      ...(maximum ? [{ placement: "incorporated" as const, maximum, then: rest }] : []),
    ],
  };
};
