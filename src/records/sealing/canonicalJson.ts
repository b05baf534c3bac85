import { createHash } from "node:crypto";
import canonicalize from "canonicalize";

/**
 * A value in the one spelling of RFC 8785, the JSON Canonicalization Scheme: keys in order of their UTF-16 code units,
 * numbers as ECMAScript prints them, no white space. Properties without a value are left out.
 * Throws for NaN, an infinite number, half a surrogate pair and a value that is nothing at all: none of them is JSON.
 */
export const canonicalJson = (value: unknown): string => {
  const text = canonicalize(value);
  if (text === undefined) throw new Error("a value that is nothing has no canonical JSON");
  return text;
};

/** "sha256:" and the SHA-256 of the canonical JSON, in lower-case hexadecimal. Layout and comments of a file do not enter it. */
export const fingerprint = (value: unknown): string => `sha256:${createHash("sha256").update(canonicalJson(value), "utf8").digest("hex")}`;
