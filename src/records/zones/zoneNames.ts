import { idFrom } from "../idFrom.ts";

/** A letter of its own for each of so many zones: A to Z and AA to ZZ. */
export const mostZones = 26 + 26 * 26;

/** The letter of a field's zone by its place from 0 on: A, B ... Z, AA, AB ... ZZ, as columns of a spreadsheet go on. */
export const zoneLetter = (place: number): string =>
  (place < 26 ? "" : String.fromCharCode(64 + Math.floor(place / 26))) + String.fromCharCode(65 + (place % 26));

/** The ids of zones by their names; a name without a Latin letter or digit gives zone-a, zone-b ... by its place. */
export const zoneIds = (names: readonly string[], first = 0): string[] =>
  names.map((name, i) => idFrom(name) || `zone-${zoneLetter(first + i).toLowerCase()}`);
