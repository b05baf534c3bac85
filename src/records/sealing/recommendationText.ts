import { stringify } from "yaml";
import type { RecommendationRecord } from "../schemas/recommendation.ts";

const about = ({
  issued,
  field,
  farm,
  sampling,
}: RecommendationRecord): string => `Advice as issued on ${issued} for ${field.name}, ${farm}, from the soil sampling of ${sampling.date}.
This file must not be edited. It keeps what was advised, what it was worked out from, and how, as it stood on
that day; the seal at its end shows any later change. A mistake in it is put right by issuing new advice.

How to read it: each zone begins with its advice in short. Below stand the answers one by one: "shown" is what a
reader saw, "figures" are the numbers as computed, not rounded, and "steps" is the sum on paper with the source of
every value and how well it is known (evidence: read, derived, secondary or memory). "inputs" is all that the
answers were worked out from. "record" names a file, line and column of the farm's records as they stood then.
Seal: sha256 is the SHA-256 of everything but itself, written as canonical JSON (RFC 8785); "parts" holds the
same of each part, so that a change can be named.`;

/** The archive as a person reads it: block style, one thing a line, a heading that says what it is. */
export const recommendationText = (record: RecommendationRecord): string => {
  const heading = about(record)
    .split("\n")
    .map((line) => `# ${line}`.trimEnd())
    .join("\n");
  return `${heading}\n${stringify(record, { lineWidth: 0, aliasDuplicateObjects: false, version: "1.2", schema: "core" })}`;
};
