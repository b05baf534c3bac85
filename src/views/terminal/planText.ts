import { counted } from "../../interpretation/show.ts";
import type { PlanView } from "../plan/plan.ts";
import { count } from "../words.ts";

/** The plan in a terminal: the same sentences as on its page, a line each. */
export const planText = (view: PlanView): string => {
  const specs = new Set(view.zones.map((row) => row.spec));
  const told = view.zones.length > 1 && specs.size === 1 ? view.zones[0]!.spec : undefined;
  return [
    view.title,
    view.lede,
    view.why,
    "",
    ...view.zones.map(
      (row, i) =>
        `${row.zone.letter} ${row.zone.name}, ${row.area}: ${bagsOf(view, i)}${row.kept === undefined ? "" : `, ${row.kept} from the edges`}.${told === undefined ? ` ${row.spec}.` : ""}`,
    ),
    ...(told === undefined ? [] : [`Number of bags, in every zone: ${told}.`]),
    ...view.plan.bags.map((b) => `Label ${b.label}: ${b.zone.name}${b.cores === undefined ? "" : `, ${cores(b.cores)}`}`),
    ...(view.plan.depth.kind === "answer" ? [] : [view.depth.text]),
    ...view.avoid,
    ...view.unplaced,
    ...view.notes,
    ...view.depth.notes,
    ...view.kept.filter((k) => !k.kept).map((k) => `${k.what}: ${k.last} last time, ${k.now} now: ${k.verdict}`),
    ...view.cautions.map((c) => c.text),
  ].join("\n");
};

const cores = (n: number): string => counted(n, "core");

/** "one bag of 15 cores", "two bags" where nobody says how many cores. */
const bagsOf = ({ plan }: PlanView, zone: number): string => {
  const { bags, cores: wanted } = plan.zones[zone]!;
  return `${count(bags.length, "bag")}${wanted.kind === "answer" ? ` of ${cores(wanted.value)}${bags.length > 1 ? " each" : ""}` : ""}`;
};
