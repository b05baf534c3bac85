import type { PlanView } from "./plan.ts";

/** The plan in a terminal: the same sentences as on its page, a line each. */
export const planText = (view: PlanView): string =>
  [
    view.title,
    view.lede,
    view.why,
    "",
    ...view.zones.map((z) => `${z.zone.letter} ${z.zone.name}: ${z.area}, bags: ${z.bags}, cores: ${z.cores}, from the edges: ${z.setback}. ${z.spec}.`),
    ...view.plan.bags.map((b) => `Label ${b.label}: ${b.zone.name}${b.cores === undefined ? "" : `, ${b.cores} cores`}`),
    ...view.avoid,
    ...view.unplaced,
    ...view.zones.flatMap((z) => z.notes),
    ...view.depth.notes,
    ...view.kept.filter((k) => !k.kept).map((k) => `${k.what}: ${k.last} last time, ${k.now} now: ${k.verdict}`),
    ...view.cautions.map((c) => c.text),
  ].join("\n");
