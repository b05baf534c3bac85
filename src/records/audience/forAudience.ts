import type { Guideline } from "../../interpretation/guideline.ts";
import type { Farm, Field, FarmProduct, Lab, Sampling, Withheld } from "../model.ts";
import type { AudienceRecord, WithheldPart } from "../schemas/audience.ts";
import { newestDate } from "../reading/newestDate.ts";
import { everyField } from "./everyField.ts";
import { issuedExcerpt } from "./issuedExcerpt.ts";
import { withinYears } from "./withinYears.ts";
import { withoutCosts } from "./withoutCosts.ts";
import { withoutNitrogen } from "./withoutNitrogen.ts";
import { withoutNotes } from "./withoutNotes.ts";
import { withoutPositions } from "./withoutPositions.ts";
import { withoutYields } from "./withoutYields.ts";
import { withZonesOf } from "../../interpretation/zoneLife.ts";

const without: Record<WithheldPart, (farm: Farm) => Farm> = {
  costs: withoutCosts,
  yields: withoutYields,
  notes: withoutNotes,
  positions: withoutPositions,
  nitrogen: withoutNitrogen,
};

/** The fields an audience sees. */
const fieldsFor = (fields: readonly Field[], { fields: named, tenure }: Pick<AudienceRecord, "fields" | "tenure">): Field[] =>
  fields.filter((f) => (named ? named.includes(f.id) : tenure === undefined || f.tenure?.kind === tenure));

/**
 * The farm as one reader may see it. What is withheld is not in it, so no page, table, file name or search index can hold it; `withheld` says
 * what was left out, and holds nothing of it. Pure. `today` is the day that was asked for; absent, the newest day of what is left, so that no
 * hidden record sets it, and never a day after the last year shown.
 */
export const forAudience = (farm: Farm, audience: AudienceRecord, today?: string): Farm => {
  const fields = fieldsFor(farm.fields, audience);
  const years = audience.seasons;
  const withheld: Withheld = {
    reader: audience.name,
    parts: new Set(audience.leaveOut),
    years,
    someFields: fields.length < farm.fields.length,
  };
  // What cores stay away from, and zones to come, belong to sampling plans, which are the owner's alone.
  const chosen: Farm = {
    ...farm,
    fields: fields.map((f) => ({
      ...f,
      avoid: [],
      laterZones: [],
      samplings: f.samplings.map(withoutReport),
      fingerprint: uncounted(f.fingerprint),
    })),
    fingerprint: uncounted(farm.fingerprint),
    audiences: new Map(),
    reports: new Map(),
    withheld,
    publish: { ...farm.publish, index: false },
  };
  const dated = years ? withinYears(chosen, years) : chosen;
  const nitrogenFree = withheld.parts.has("nitrogen") ? adviceWithoutNitrogen(dated) : dated;
  const excerpts =
    withheld.parts.size > 0 || years !== undefined
      ? everyField(nitrogenFree, { field: (f) => ({ ...f, recommendations: f.recommendations.map((r) => issuedExcerpt(r, withheld)) }) })
      : nitrogenFree;
  const left = audience.leaveOut.reduce((so, part) => without[part](so), excerpts);
  const newest = today ?? newestDate(left.fields);
  const day = years?.to !== undefined && Number(newest.slice(0, 4)) > years.to ? `${years.to}-12-31` : newest;
  return { ...onlyUsed({ ...left, fields: left.fields.map((f) => ({ ...withZonesOf(f, day), laterZones: [] })) }, farm), today: day };
};

/** A laboratory's report may tell of other fields, of nitrogen and of fees: whoever asks for its number may be given it by hand. */
const withoutReport = (sampling: Sampling): Sampling => {
  const number = sampling.report?.number;
  return { ...sampling, report: number === undefined ? undefined : { number } };
};

/** The fingerprint of the whole, without how many files it is of: that would count what is hidden. */
const uncounted = (print: Farm["fingerprint"]): Farm["fingerprint"] => ({ ...print, files: 0 });

/** Advice from a nitrate test is nothing but nitrogen. */
const adviceWithoutNitrogen = (farm: Farm): Farm =>
  everyField(farm, {
    field: (f) => ({
      ...f,
      recommendations: f.recommendations.filter(
        ({ record }) => f.samplings.find((s) => s.id === record.sampling.id)?.purpose !== "nitrate",
      ),
    }),
  });

/** Products, laboratories and guidelines of what is left: one that only a hidden field used would tell of it. */
const onlyUsed = (left: Farm, whole: Farm): Farm => {
  const { fields } = left;
  const applied = new Set(fields.flatMap((f) => f.seasons.flatMap((s) => s.applications.map((a) => a.product.id))));
  const kept = (p: FarmProduct): boolean =>
    p.product.kind === "manure" ? applied.has(p.id) : p.lime !== undefined || choosesProducts(left);
  const usedGuidelines = new Map(fields.flatMap((f) => f.guidelines).map((g) => [g.id, g]));
  const guidelines = left.guidelines.filter((g) => usedGuidelines.has(g.id));
  const bases = basesOf(usedGuidelines, left.allGuidelines);
  const allGuidelines = new Map([...left.allGuidelines].filter(([id]) => !whole.ownGuidelines.has(id) || bases.has(id)));
  const cited = publicationsIn([...allGuidelines.values()]);
  return {
    ...left,
    guidelines,
    products: new Map([...left.products].filter(([, p]) => kept(p))),
    labs: labsOf(fields),
    usedGuidelines,
    allGuidelines,
    references: new Map([...left.references].filter(([id]) => cited.has(id))),
    ownGuidelines: new Set(),
    files: 0,
  };
};

/** What to buy goes by price, and by every rate: where one of them is left out, another product would be chosen than the owner's. */
const choosesProducts = ({ withheld }: Farm): boolean =>
  !["costs", "yields", "nitrogen"].some((part) => withheld?.parts.has(part as WithheldPart));

/** The laboratories of these samplings. Their price lists are nobody's secret; how their files are read is no reader's business. */
const labsOf = (fields: readonly Field[]): Map<string, Lab> =>
  new Map(fields.flatMap((f) => f.samplings).map(({ lab }) => [lab.id, { ...lab, resultFile: undefined }]));

/** Every publication that these guidelines name. */
const publicationsIn = (guidelines: readonly Guideline[]): Set<string> => {
  const found = new Set<string>();
  JSON.stringify(guidelines, (key, value: unknown) => {
    if ((key === "reference" || key === "publication") && typeof value === "string") found.add(value);
    return value;
  });
  return found;
};

/** These guidelines, and those they extend. */
const basesOf = (used: ReadonlyMap<string, Guideline>, all: ReadonlyMap<string, Guideline>): Set<string> => {
  const found = new Set<string>();
  const add = (pack: Guideline | undefined): void => {
    if (!pack || found.has(pack.id)) return;
    found.add(pack.id);
    if (pack.extends !== undefined) add(all.get(pack.extends));
  };
  used.forEach(add);
  return found;
};
