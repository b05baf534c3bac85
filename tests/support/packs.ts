import { readFileSync } from "node:fs";
import { parse } from "yaml";
import type { Guideline, Section, SectionKind } from "../../src/interpretation/guideline.ts";
import { guideline } from "../../src/interpretation/guideline.ts";

const known = new Map<string, Guideline>();

/** A shipped guideline, read through the schema that the site reads it through when it is first asked for. */
export const pack = (id: string): Guideline => {
  const file = new URL(`../../content/guidelines/${id}.yaml`, import.meta.url);
  const found = known.get(id) ?? { ...guideline.parse(parse(readFileSync(file, "utf8"))), id };
  known.set(id, found);
  return found;
};

/** Every shipped guideline, by id. */
export const installedPacks = { get: pack };

export const triState = pack("us-tristate-974-2020");
export const iowa = pack("us-iowa-lime-2002");
export const oregon = pack("us-oregon-lime-2025");
export const chemistry = pack("soil-chemistry");

/** One section of a guideline, of the kind that is asked for. */
export const ruleIn = <K extends SectionKind>(from: Guideline, id: string, kind: K): Extract<Section, { kind: K }> => ofKind(from.sections.find((s) => s.id === id), `${from.id}/${id}`, kind);

const ofKind = <K extends SectionKind>(found: Section | undefined, name: string, kind: K): Extract<Section, { kind: K }> => {
  if (found?.kind !== kind) throw new Error(`${name} is not a ${kind} rule`);
  return found as Extract<Section, { kind: K }>;
};

/** A rule by the name a case gives it: `guideline/section`, or one of the rules that stand in the case file. */
export const ruleNamed = <K extends SectionKind>(name: string, rules: Readonly<Record<string, Section>>, kind: K): Extract<Section, { kind: K }> => {
  const [id, sectionId] = name.split("/");
  return sectionId === undefined ? ofKind(rules[name], name, kind) : ruleIn(pack(id!), sectionId, kind);
};

/** A guideline that holds nothing but the given sections. */
export const packOf = (...sections: Section[]): Guideline => ({ ...triState, id: "test", short: "Tri-State 1995", sections });
