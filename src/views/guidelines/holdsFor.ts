import { depthLabel } from "../../interpretation/measurement.ts";
import type { Limits } from "../../interpretation/rules/limits.ts";
import { crops, finishes, methods } from "../../interpretation/vocabulary.ts";
import { list } from "../words.ts";

/** "Mehlich-3, ICP; in ppm; sampled 0 to 8 in deep; for corn": where a rule answers, and what it takes for granted. */
export const holdsFor = (l: Limits, everyCrop = "any crop"): string =>
  [
    [methods[l.method].label, l.finish && finishes[l.finish]].filter(Boolean).join(", "),
    l.unit === "pH" ? "" : `in ${l.unit}${l.otherUnit ? `, or in ${l.otherUnit.unit} taken for it` : ""}`,
    l.depth
      ? `sampled ${[l.depth, ...(l.otherDepth ? [l.otherDepth] : [])].map(depthLabel).join(" or ")} deep${l.depth.evidence === "memory" ? " (from memory, not yet checked against the publication)" : ""}`
      : "any depth",
    l.crops ? `for ${list(l.crops.map((c) => crops[c].label))}` : everyCrop,
    ...(l.assumes ?? []).map(
      (a) => `taken for granted: ${a.statement}${a.evidence === "memory" ? " (from memory, not yet checked against the publication)" : ""}`,
    ),
  ]
    .filter(Boolean)
    .join("; ");
