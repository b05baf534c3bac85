import * as z from "zod";
import type { Step } from "../outcome.ts";
import { plain } from "../show.ts";
import { analyteInSentence } from "../vocabulary.ts";
import type { Cations } from "./cationSum.ts";
import { graded, provenance } from "./sourced.ts";

const bases = ["Ca", "Mg", "K", "Na"] as const;
export type BaseId = (typeof bases)[number];

/** A base that should hold more than so much of the exchangeable bases, and more than another: a sign to look at it, never a rate. */
export const baseShareRule = z
  .strictObject({
    kind: z.literal("baseShare"),
    id: z.string(),
    base: z.enum(bases),
    least: z.number().positive().describe("percent of the exchangeable bases, acidity left out, that the base should be above"),
    over: z.enum(bases).describe("the base whose share it should be above"),
    ...provenance,
  })
  .check(graded)
  .refine((r) => r.base !== r.over, { path: ["over"], error: "must be another base" });
export type BaseShareRule = z.infer<typeof baseShareRule>;

/** Each base in percent of the exchangeable bases, acidity left out, from shares that count it. */
export const sharesOfBases = ({
  saturation,
  baseSaturation,
}: Pick<Cations, "saturation" | "baseSaturation">): Partial<Record<BaseId, number>> =>
  Object.fromEntries(Object.entries(saturation).map(([base, percent]) => [base, (100 * percent) / baseSaturation]));

/** Why a base may be short, as a line of the sum; `undefined` where it is not, or where one of the two was not tested. Shares in percent of the bases. */
export const shortBase = (rule: BaseShareRule, shares: Partial<Record<BaseId, number>>): Step | undefined => {
  const [own, other] = [shares[rule.base], shares[rule.over]];
  if (own === undefined || other === undefined || (own > rule.least && own > other)) return undefined;
  const [name, against] = [analyteInSentence(rule.base), analyteInSentence(rule.over)];
  return {
    what: `${name.charAt(0).toUpperCase()}${name.slice(1)} should hold more than ${plain(rule.least)} percent of the bases, and more than ${against} does`,
    result: `it holds ${plain(own, 1)} percent, and ${against} ${plain(other, 1)}: it may be short`,
    source: rule.source,
    evidence: rule.evidence,
    note: rule.note,
  };
};
