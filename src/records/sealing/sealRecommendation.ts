import { fingerprint } from "./canonicalJson.ts";
import type { Path } from "../place.ts";
import type { RecommendationBody, RecommendationRecord } from "../schemas/recommendation.ts";

/** A part of an archive that has a fingerprint of its own. */
interface Part {
  /** Its key under `parts`. */
  readonly key: string;
  /** "the potash rate of zone knoll": what to call it when it was changed. */
  readonly words: string;
  /** Where it stands in the record. */
  readonly path: Path;
  readonly value: unknown;
}

const inputWords = {
  results: "the laboratory results",
  soil: "the soil facts",
  crop: "the crop planned",
  limeBefore: "the lime spread before",
  settings: "the settings of the field (target pH, depth, tillage)",
  nitrogen: "what nitrogen was worked out from",
} as const;

const headWords = {
  format: "the format",
  for: "whom it is for",
  issued: "the day of issue",
  farm: "the farm's name",
  field: "the field",
  sampling: "the sampling",
  units: "the units",
  currency: "the currency",
  cautions: "the cautions",
  publications: "the list of publications",
} as const;

/** "the rating of potassium", "the potash rate": a question as a person names it. */
const answerWords = ({ kind, subject, question }: RecommendationBody["zones"][number]["answers"][number]): string => {
  const bare = subject.replace(/ \(.*\)$/, "");
  // "Soil pH" begins a sentence and "CEC" does not.
  const what = /^[A-Z][a-z]/.test(bare) ? `${bare.charAt(0).toLowerCase()}${bare.slice(1)}` : bare;
  if (kind === "rating") return `the rating of ${what}`;
  if (kind === "lime") return question === "lime" ? "the lime rate" : `the lime rate (${question})`;
  if (kind === "rate" || kind === "nitrogen") return `the ${what} rate`;
  if (kind === "product") return "the choice of products";
  return `the ${what}`;
};

/** Everything in an archive, cut into parts; together they are the whole of it. */
const partsOf = (body: RecommendationBody): Part[] => {
  const { zones, products, guidelines, ...head } = body;
  return [
    ...Object.entries(head).map(([key, value]): Part => ({ key, words: headWords[key as keyof typeof headWords], path: [key], value })),
    ...zones.flatMap((zone, i): Part[] => {
      const { inputs, answers, inShort, cautions, ...about } = zone;
      const of = `zones.${zone.zone}`;
      return [
        { key: of, words: `the description of zone ${zone.zone}`, path: ["zones", i], value: about },
        { key: `${of}.inShort`, words: `the summary of zone ${zone.zone}`, path: ["zones", i, "inShort"], value: inShort },
        { key: `${of}.cautions`, words: `the cautions of zone ${zone.zone}`, path: ["zones", i, "cautions"], value: cautions },
        ...answers.map((a, j): Part => ({
          key: `${of}.answers.${a.question}`,
          words: `${answerWords(a)} of zone ${zone.zone}`,
          path: ["zones", i, "answers", j],
          value: a,
        })),
        ...Object.entries(inputs).map(([key, value]): Part => ({
          key: `${of}.inputs.${key}`,
          words: `${inputWords[key as keyof typeof inputWords]} of zone ${zone.zone}`,
          path: ["zones", i, "inputs", key],
          value,
        })),
      ];
    }),
    ...Object.entries(products).flatMap(([id, { price, pricePerTon, ...rest }]): Part[] => [
      { key: `products.${id}`, words: `the description of product ${id}`, path: ["products", id], value: rest },
      { key: `products.${id}.price`, words: `the price of product ${id}`, path: ["products", id, "price"], value: { price, pricePerTon } },
    ]),
    ...guidelines.map((g, i): Part => ({
      key: `guidelines.${g.id}`,
      words: `the fingerprint of guideline ${g.id}`,
      path: ["guidelines", i],
      value: g,
    })),
  ];
};

/** Close an archive: a fingerprint of every part, and at the end one of everything. Throws where a value is no JSON. */
export const sealRecommendation = (body: RecommendationBody): RecommendationRecord => {
  const sealed = { ...body, parts: Object.fromEntries(partsOf(body).map((p) => [p.key, fingerprint(p.value)])) };
  return { ...sealed, sha256: fingerprint(sealed) };
};

export interface Broken {
  /** "the potash rate of zone knoll was changed after it was issued" */
  readonly message: string;
  readonly path: Path;
}

/** Whatever differs from what was sealed, each thing named; empty for an archive as it was issued. */
export const brokenSeals = (record: RecommendationRecord): Broken[] => {
  const { sha256, ...sealed } = record;
  if (fingerprint(sealed) === sha256) return [];
  const { parts, ...body } = sealed;
  const now = partsOf(body);
  const changed = now.flatMap((p): Broken[] => {
    if (parts[p.key] === undefined) return [{ message: `${p.words} was added after it was issued`, path: p.path }];
    return parts[p.key] === fingerprint(p.value) ? [] : [{ message: `${p.words} was changed after it was issued`, path: p.path }];
  });
  const known = new Set(now.map((p) => p.key));
  const gone = Object.keys(parts)
    .filter((key) => !known.has(key))
    .map((key): Broken => ({ message: `${key} was removed, or renamed, after it was issued`, path: ["parts", key] }));
  const all = [...changed, ...gone];
  return all.length > 0
    ? all
    : [{ message: "its fingerprints, or the order of its parts, were changed after it was issued", path: ["sha256"] }];
};
