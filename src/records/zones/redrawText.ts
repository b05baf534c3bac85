import { isDeepStrictEqual } from "node:util";
import type { YAMLMap, YAMLSeq } from "yaml";
import { isMap, isSeq, parse, parseDocument } from "yaml";
import type { Splice } from "../yaml/splices.ts";
import { below, endOf, inBraces, indentOf, pairOf, spliced, valueOf } from "../yaml/splices.ts";

/** Zones that end on a day, and those that begin in their place. */
export interface RedrawnText {
  readonly since: string;
  /** Ids. */
  readonly ended: readonly string[];
  /** By id, what field.yaml says of each, in the order of its keys. */
  readonly drawn: Readonly<Record<string, Readonly<Record<string, unknown>>>>;
  /** The entries of `plan:`, from 0, in which the ended zones give way to those drawn. */
  readonly plans: readonly number[];
}

/**
 * The text of a field.yaml with zones ended and drawn, and nothing else changed. `undefined` where it is written in a way that cannot be
 * added to safely: what was written is read again, and must be the old record and what is new.
 */
export const redrawnText = (text: string, redrawn: RedrawnText): string | undefined => {
  const { contents } = parseDocument(text, { version: "1.2", schema: "core" });
  const zones = isMap(contents) ? valueOf(contents, "zones") : undefined;
  if (!isMap(contents) || !isMap(zones)) return undefined;
  const plan = valueOf(contents, "plan");
  const splices = [
    ...redrawn.ended.map((id) => ending(text, zones, id, redrawn.since)),
    drawing(text, zones, redrawn.drawn),
    ...redrawn.plans.map((i) => planning(isSeq(plan) ? plan.items[i] : undefined, redrawn)),
  ];
  if (!splices.every((splice) => splice !== undefined)) return undefined;
  const written = spliced(text, splices);
  return holds(written, text, redrawn) ? written : undefined;
};

/** `until` stands after the name, which every zone has. */
const ending = (text: string, zones: YAMLMap, id: string, day: string): Splice | undefined => {
  const zone = valueOf(zones, id);
  const name = isMap(zone) ? pairOf(zone, "name") : undefined;
  if (!isMap(zone) || !name) return undefined;
  return zone.flow
    ? { at: endOf(name), over: 0, put: `, until: ${day}` }
    : below(text, endOf(name), [`${indentOf(text, name)}until: ${day}`]);
};

/** The new zones stand below the last one, and are written as it is: in braces, or a key a line. */
const drawing = (text: string, zones: YAMLMap, drawn: RedrawnText["drawn"]): Splice | undefined => {
  const last = zones.items.at(-1);
  if (!last || !isMap(last.value)) return undefined;
  const entries = Object.entries(drawn);
  if (zones.flow) return { at: endOf(last), over: 0, put: entries.map(([id, zone]) => `, ${id}: ${inBraces(zone)}`).join("") };
  const indent = indentOf(text, last);
  const inner = last.value.flow === true ? undefined : last.value.items[0] && indentOf(text, last.value.items[0]);
  const lines = entries.flatMap(([id, zone]) =>
    inner === undefined
      ? [`${indent}${id}: ${inBraces(zone)}`]
      : [`${indent}${id}:`, ...Object.entries(zone).map(([key, value]) => `${inner}${key}: ${inBraces(value)}`)],
  );
  return below(text, endOf(last), lines);
};

const planning = (entry: unknown, { ended, drawn }: RedrawnText): Splice | undefined => {
  const zones = isMap(entry) ? valueOf(entry, "zones") : undefined;
  if (!isSeq(zones) || zones.flow !== true) return undefined;
  const [at, end] = (zones as YAMLSeq & { range: readonly [number, number, number] }).range;
  return { at, over: end - at, put: `[${inPlace(zones.toJSON() as string[], ended, Object.keys(drawn)).join(", ")}]` };
};

/** The new names stand where the first of the old ones stood. */
const inPlace = (zones: readonly string[], ended: readonly string[], drawn: readonly string[]): string[] => {
  const first = zones.findIndex((zone) => ended.includes(zone));
  return zones.flatMap((zone, i) => (i === first ? drawn : ended.includes(zone) ? [] : [zone]));
};

interface Plain {
  readonly zones: Record<string, Record<string, unknown>>;
  readonly plan?: { zones?: string[] }[];
}

const holds = (after: string, before: string, { since, ended, drawn, plans }: RedrawnText): boolean => {
  const expected = parse(before) as Plain;
  for (const id of ended) expected.zones[id]!["until"] = since;
  Object.assign(expected.zones, structuredClone(drawn));
  for (const i of plans) expected.plan![i]!.zones = inPlace(expected.plan![i]!.zones!, ended, Object.keys(drawn));
  try {
    return isDeepStrictEqual(parse(after), expected);
  } catch {
    return false;
  }
};
