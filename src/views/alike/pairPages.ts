import type { Field, Zone } from "../../records/model.ts";
import { mostOfPage, zonePairWeight } from "../pageWeight.ts";
import { parted } from "../parted.ts";

/** Every two zones of a field. */
export const zonesInPairs = (field: Field): [Zone, Zone][] =>
  field.zones.flatMap((a, i) => field.zones.slice(i + 1).map((b): [Zone, Zone] => [a, b]));

/** The pairs of zones that each page compares, by their places in the list of pairs. */
export const pairParts = (field: Field): number[][] =>
  parted(
    zonesInPairs(field).map((_, i) => i),
    () => zonePairWeight,
    mostOfPage,
  );
