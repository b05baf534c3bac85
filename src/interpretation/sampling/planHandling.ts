import type { Guideline } from "../guideline.ts";
import { sectionsOf } from "../guideline.ts";
import type { Step } from "../outcome.ts";
import type { DistanceRow, SamplingSpecRule } from "../rules/samplingSpec.ts";
import { samplingBounds } from "../rules/samplingSpec.ts";
import { plain } from "../show.ts";
import { convert } from "../units.ts";
import type { UnitChoice } from "../unitChoices.ts";
import type { PurposeId } from "../vocabulary.ts";

export type TaskPlace = "before" | "field" | "bench";

/** One line to tick: where it belongs, what to do, and on whose word. */
export interface Task extends Pick<Step, "source" | "evidence" | "note"> {
  readonly place: TaskPlace;
  readonly text: string;
  /** The guideline whose word it is; absent for common practice. */
  readonly pack?: Guideline | undefined;
}

const common = { source: "common-practice" } as const;

/** What every sampling takes, whoever asks for it. */
const always: readonly Task[] = [
  { place: "before", text: "Have buried lines located before a probe goes into the ground.", ...common },
  { place: "before", text: "Write every label on its bag first, and tick it off on the list.", ...common },
  {
    place: "field",
    text: "Clean tools. Push residue aside and keep the whole depth of each core; take a broken core again beside it.",
    ...common,
  },
  {
    place: "field",
    text: "Leave out odd spots: dead furrows, old fence rows, headlands, wet holes, spills of lime or fertilizer, places of manure or feed. Bag one by itself only if it will be treated by itself.",
    ...common,
  },
  { place: "field", text: "Put all cores of one bag into the pail, crumble and mix them, and only then fill the bag.", ...common },
  { place: "bench", text: "Check each label against the list once more, and write down the day of sampling and of sending.", ...common },
];

const byPurpose: Readonly<Record<PurposeId, readonly Task[]>> = {
  routine: [{ place: "field", text: "Collect in a plastic pail: galvanized metal spoils a zinc test.", ...common }],
  phCheck: [{ place: "field", text: "Collect in a plastic pail.", ...common }],
  nitrate: [
    {
      place: "field",
      text: "Collect in a plastic pail, and fill paper or cloth bags: in a closed plastic bag nitrate goes on forming.",
      ...common,
    },
    { place: "bench", text: "Keep the bags cool and out of the sun, and send them the same day.", ...common },
  ],
};

const specsOf = (packs: readonly Guideline[], purpose: PurposeId): { pack: Guideline; rule: SamplingSpecRule }[] =>
  packs.flatMap((pack) =>
    sectionsOf(pack, "samplingSpec")
      .filter((rule) => rule.purpose === purpose)
      .map((rule) => ({ pack, rule })),
  );

/** What is printed in inches, feet or degrees Fahrenheit, as whoever measures in metric units reads it. */
const inUnits = (value: number, unit: string, units: UnitChoice): string => {
  if (units === "metric" && unit === "in") return `${plain(convert(value, "in", "cm"), 0)} cm`;
  if (units === "metric" && unit === "ft") return `${plain(convert(value, "ft", "m"), 0)} m`;
  if (units === "metric" && unit === "°F") return `${plain(((value - 32) * 5) / 9, 0)} °C`;
  return `${plain(value)} ${unit}`;
};

/** "Dry the soil within 12 h; otherwise keep it cool." */
const boundTask = ({ what, value, otherwise }: NonNullable<SamplingSpecRule["bounds"]>[number], units: UnitChoice): string => {
  const { unit, task } = samplingBounds[what];
  return `${task[0]} ${inUnits(value, unit, units)}${task[1]}${otherwise === undefined ? "" : `; otherwise ${otherwise}`}.`;
};

/** Where a statement is of use. */
const placeOf = (about: NonNullable<SamplingSpecRule["statements"]>[number]["about"]): Task["place"] => {
  if (about === "bag") return "bench";
  return about === "timing" || about === "frequency" ? "before" : "field";
};

/** What each thing is called that a plan settles, so that two guidelines on one of them are not both told. */
const rowsOf = (
  { pack, rule }: ReturnType<typeof specsOf>[number],
  chosen: boolean,
  units: UnitChoice,
): { about: string; task: Task }[] => {
  const graded = (r: {
    source: Task["source"];
    evidence?: Task["evidence"];
    note?: string | undefined;
  }): Pick<Task, "pack" | "source" | "evidence" | "note"> => ({
    pack,
    source: r.source,
    evidence: r.evidence,
    note: [chosen ? "" : pack.short, r.note].filter(Boolean).join("; ") || undefined,
  });
  return [
    ...(rule.sameCrop && chosen
      ? [
          {
            about: "sameCrop",
            task: { place: "before" as const, text: "Sample after the same crop as last time.", ...graded(rule.sameCrop) },
          },
        ]
      : []),
    ...(rule.bounds ?? []).map((b) => ({
      about: b.what,
      task: { place: /^crop|^daysAfter/.test(b.what) ? ("before" as const) : ("bench" as const), text: boundTask(b, units), ...graded(b) },
    })),
    ...(rule.distances ?? [])
      .filter((d) => !isEdge(d))
      .map((d) => ({
        about: d.from,
        task: {
          place: "field" as const,
          text: `Stay ${inUnits(d.value, d.unit, units)} away from ${d.from}: move a core that falls nearer.`,
          ...graded(d),
        },
      })),
    // What a guideline that was not chosen says of when and how deep is its own region's; of tools and bags it holds anywhere.
    ...(rule.statements ?? [])
      .filter((s) => chosen || s.about === "tool" || s.about === "container" || s.about === "bag")
      .map((s) => ({ about: `says ${s.about}`, task: { place: placeOf(s.about), text: s.statement, ...graded(s) } })),
  ];
};

/** Bounds that hang on the method of one region and are not lent to a plan by another's guidelines. */
const regional = /^cropHeight|^daysAfterRain/;

/** How long a bag may wait, each told by its own clock: of several guidelines' words one is lent, since they contradict each other. */
const waiting = /^(hoursToLab|hoursToDrying|daysUnchilled)$/;
const topicOf = (about: string): string => (waiting.test(about) ? "waiting" : about);

/** Measures that no metric household has; another guideline says the same without them. */
const american = /\b(quart|pint|cup)\b/;

/**
 * Is it mineral nitrogen that the chosen guidelines read? How others keep the bags of a June test is then no help: to dry them
 * changes the ammonium that is counted with the nitrate; nor is an auger for its depth of help to a June test.
 */
const readsMineralNitrogen = (chosen: readonly Guideline[]): boolean =>
  chosen.some((pack) => sectionsOf(pack, "nitrogenNeed").length + sectionsOf(pack, "nitrogenSupply").length > 0);

/**
 * What to do in the field and at the bench: common practice, then what the chosen guidelines say, then what others at hand say of
 * tools, bags, drying and distances on which the chosen ones are silent; values read in a publication first. A pH check is
 * handled as a routine sampling.
 */
export const planHandling = (
  chosen: readonly Guideline[],
  atHand: Iterable<Guideline>,
  purpose: PurposeId,
  units: UnitChoice = "us",
): Task[] => {
  const asFor = purpose === "phCheck" ? "routine" : purpose;
  const own = specsOf(chosen, purpose)
    .concat(asFor === purpose ? [] : specsOf(chosen, asFor))
    .flatMap((s) => rowsOf(s, true, units));
  const others = specsOf(
    asFor === "nitrate" && readsMineralNitrogen(chosen)
      ? []
      : [...atHand].filter(
          (pack) => pack.status === "current" && !chosen.includes(pack) && !(asFor === "nitrate" && readsMineralNitrogen([pack])),
        ),
    asFor,
  )
    .flatMap((s) => rowsOf(s, false, units))
    .filter(({ about, task }) => !regional.test(about) && !(units === "metric" && american.test(task.text)));
  const told = new Set(own.map((r) => topicOf(r.about)));
  const lent: Task[] = [];
  for (const { about, task } of [...others.filter((r) => r.task.evidence === "read"), ...others]) {
    if (told.has(topicOf(about))) continue;
    told.add(topicOf(about));
    lent.push(task);
  }
  // A publication's word on the pail stands in place of common practice; for nitrate it is the bag that counts.
  const usual = purpose !== "nitrate" && told.has("says container") ? [] : byPurpose[purpose];
  return [...always, ...usual, ...own.map((r) => r.task), ...lent];
};

const isEdge = (d: DistanceRow): boolean => /\bedge\b/.test(d.from);

/** A distance to keep, from the edges of a zone or from what lies in it, in meters, with who asks for it. */
export interface Setback extends Pick<Step, "source" | "evidence"> {
  readonly meters: number;
  readonly asked: string;
  readonly pack: Guideline;
}

/** What the chosen guidelines ask to keep from an edge, else what one at hand asks; `undefined` where none does. */
export const planSetback = (chosen: readonly Guideline[], atHand: Iterable<Guideline>): Setback | undefined =>
  planDistance(chosen, atHand, isEdge);

const planDistance = (
  chosen: readonly Guideline[],
  atHand: Iterable<Guideline>,
  meant: (d: DistanceRow) => boolean,
): Setback | undefined => {
  for (const { pack, rule } of specsOf([...chosen, ...atHand], "routine")) {
    const found = rule.distances?.find(meant);
    if (found)
      return {
        meters: convert(found.value, found.unit, "m"),
        asked: `${plain(found.value)} ${found.unit}`,
        pack,
        source: found.source,
        evidence: found.evidence,
      };
  }
  return undefined;
};

/** What a field may hold that guidelines print a distance for, and how they speak of it. */
const avoidedKinds = { gravelRoad: /\broad\b/, obstacle: /\bobstacle\b/ } as const;
export type AvoidedKind = keyof typeof avoidedKinds;
export const avoidedKindIds = Object.keys(avoidedKinds) as [AvoidedKind, ...AvoidedKind[]];

/** How far the chosen guidelines, else one at hand, ask to stay from such a place; `undefined` where none does. */
export const planAvoided = (chosen: readonly Guideline[], atHand: Iterable<Guideline>, kind: AvoidedKind): Setback | undefined =>
  planDistance(chosen, atHand, (d) => avoidedKinds[kind].test(d.from));

/** The guidelines whose word a plan's handling and distances rest on, chosen or lent; `avoided` is what the field asks a distance for. */
export const planSources = (
  chosen: readonly Guideline[],
  atHand: readonly Guideline[],
  purpose: PurposeId,
  avoided: readonly AvoidedKind[],
): Set<Guideline> => {
  const distances = [planSetback(chosen, atHand), ...avoided.map((kind) => planAvoided(chosen, atHand, kind))];
  return new Set([...planHandling(chosen, atHand, purpose).flatMap((t) => t.pack ?? []), ...distances.flatMap((d) => d?.pack ?? [])]);
};
