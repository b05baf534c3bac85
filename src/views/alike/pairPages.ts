import type { Field } from "../../records/model.ts";
import { mostOfPage, zonePairWeight } from "../pageWeight.ts";
import { parted } from "../parted.ts";
import { zonesInPairs } from "./zonesInPairs.ts";

/** The pairs of zones that each page compares, by their places in the list of pairs. */
export const pairParts = (field: Field): number[][] =>
  parted(
    zonesInPairs(field).map((_, i) => i),
    () => zonePairWeight,
    mostOfPage,
  );
