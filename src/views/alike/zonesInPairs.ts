import { sideBySide } from "../../exchange/sideBySide.ts";
import type { Field, Zone } from "../../records/model.ts";

/** Of more zones only those side by side are compared: cells of a grid that lie apart are hardly made one zone, and sixty-four make two thousand pairs. */
export const mostComparedWithAll = 12;
/** So far apart at most, in meters: the edge of a zone is drawn by hand, and a lane or a ditch lies between two. */
const mostApart = 20;

export const everyTwo = (zones: readonly Zone[]): [Zone, Zone][] =>
  zones.flatMap((a, i) => zones.slice(i + 1).map((b): [Zone, Zone] => [a, b]));

/** Are only those of its zones compared that lie side by side? */
export const comparesNeighbors = ({ zones }: Field): boolean => zones.length > mostComparedWithAll;

const known = new WeakMap<Field, [Zone, Zone][]>();

/** The zones of a field that are compared, two by two. What lies beside a zone its outline alone can tell, to a reader who is shown none nobody. */
export const zonesInPairs = (field: Field): [Zone, Zone][] => {
  let pairs = known.get(field);
  if (!pairs) {
    const all = everyTwo(field.zones);
    pairs = comparesNeighbors(field) ? all.filter(([a, b]) => a.area && b.area && sideBySide(a.area, b.area, mostApart)) : all;
    known.set(field, pairs);
  }
  return pairs;
};
