import * as z from "zod";
import { unitChoiceIds } from "../../interpretation/unitChoices.ts";
import { evidenceGrades } from "../../interpretation/outcome.ts";
import { date, id, text } from "./primitives.ts";

/** Written by the program and guarded by its seal: texts are as long as what they tell. */
const words = z.string().min(1);
const hash = z.string().regex(/^sha256:[0-9a-f]{64}$/, "must be sha256: and 64 hexadecimal digits");
/** What the seal guards needs no second description: facts that a later edition of the program asks for are kept as they are. */
const facts = z.record(z.string(), z.unknown());

const origin = z.strictObject({ file: words, line: z.number().int().positive(), column: z.number().int().positive() });
const source = z.union([
  z.literal("common-practice"),
  z.strictObject({ reference: words, at: words.optional() }),
  z.strictObject({ record: origin, by: words.optional() }),
]);

const step = z.strictObject({
  what: words,
  expression: words.optional(),
  result: z.string(),
  source: source.optional(),
  evidence: z.enum(evidenceGrades).optional(),
  note: words.optional(),
});

/** A guideline as it was asked: what it is, and fingerprints of its content. */
const guidelinePrint = z.strictObject({
  id,
  short: words,
  title: words,
  publication: words,
  edition: z.number().int().optional(),
  fingerprint: hash.describe("of the whole guideline"),
  rest: hash.describe("of all but its sections"),
  sections: z.record(z.string(), hash),
});
export type GuidelinePrint = z.infer<typeof guidelinePrint>;

/** A fertilizer or liming material of the farm's list, with the price of the day. */
const product = z.strictObject({
  kind: z.enum(["fertilizer", "lime"]),
  name: words,
  price: z.strictObject({ value: z.number(), per: words }).optional(),
  pricePerTon: z.number().optional().describe("a US short ton, not rounded"),
  content: facts.describe("what it holds, and where the record states it"),
});
export type FrozenProduct = z.infer<typeof product>;

const questionKinds = ["rating", "lime", "rate", "nitrogen", "credit", "starter", "product"] as const;

/** One question: what was shown, the figures as computed, and every step; or why there is no answer. */
const answer = z.strictObject({
  question: words.describe("names it within the zone"),
  kind: z.enum(questionKinds),
  subject: words,
  shown: words.optional().describe("as the page showed it, rounded"),
  detail: words.optional(),
  noAnswer: z.strictObject({ because: words, missing: z.array(z.string()) }).optional(),
  figures: facts.optional().describe("as computed, not rounded"),
  guideline: id.optional(),
  evidence: z.enum(evidenceGrades).optional().describe("of its weakest step"),
  steps: z.array(step),
  cautions: z.array(words).optional(),
});
export type FrozenAnswer = z.infer<typeof answer>;

const zone = z.strictObject({
  zone: id,
  letter: words,
  name: words,
  squareMeters: z.number().optional(),
  crop: words.describe("what it was advised for"),
  inShort: z.array(words),
  cautions: z.array(words).describe("ids of that day; the words stand below"),
  answers: z.array(answer),
  inputs: z.strictObject({
    results: z.array(facts).min(1),
    soil: facts,
    crop: facts.optional(),
    limeBefore: z.array(facts).optional(),
    settings: facts,
    nitrogen: facts.optional(),
  }),
});

/** recommendations/<date>.yaml: advice as it was issued. Written by `archive`, never edited. */
export const recommendation = z.strictObject({
  format: z.literal(1),
  for: text,
  issued: date,
  farm: words,
  field: z.strictObject({ id, name: words }),
  sampling: z.strictObject({ id: words, date, laboratory: words }),
  units: z.enum(unitChoiceIds),
  currency: words,
  zones: z.array(zone).min(1),
  cautions: z.array(words),
  products: z.record(id, product),
  guidelines: z.array(guidelinePrint).min(1).describe("in the order they were asked"),
  publications: z.record(z.string(), words),
  parts: z.record(z.string(), hash).describe("a fingerprint of each part, so that a change can be named"),
  sha256: hash.describe("of the canonical JSON (RFC 8785) of everything above"),
});
export type RecommendationRecord = z.infer<typeof recommendation>;
/** Before it is sealed. */
export type RecommendationBody = Omit<RecommendationRecord, "parts" | "sha256">;
export type FrozenZone = RecommendationRecord["zones"][number];
