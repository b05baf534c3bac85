import { seasonLabel, seasonName, seasonYear } from "../../interpretation/season.ts";
import { harvestedBy } from "../../interpretation/zoneLife.ts";

/** A part of a year in which a field is sampled: a season, or June within the spring, for nitrate. A winter is of the year it begins in. */
export interface Slot {
  readonly year: number;
  readonly part: "spring" | "June" | "autumn" | "winter";
}

const parts: readonly Slot["part"][] = ["spring", "June", "autumn", "winter"];
const order = ({ year, part }: Slot): number => year * parts.length + parts.indexOf(part);

export const slotOf = (date: string): Slot => ({ year: seasonYear(date), part: seasonName(date) });

/** "autumn 2026", "winter 2026–27" */
export const slotLabel = ({ year, part }: Slot): string => seasonLabel(part, year);

/** The end of a slot: who begins new zones with a sampling does so within it. Of a spring it is the day by which its crop stands. */
export const endOf = ({ year, part }: Slot): string => {
  if (part === "winter") return `${year + 1}-01-31`;
  return `${year}-${part === "autumn" ? "12-31" : harvestedBy}`;
};

/** Below zero where `a` comes first. */
export const compareSlots = (a: Slot, b: Slot): number => order(a) - order(b);

const isSpring = ({ part }: Slot): boolean => part === "spring" || part === "June";

/** The first season of its kind that is not over on a day. Autumn and winter count as one, so what waited for autumn is taken in the winter at hand. */
export const nextSlot = (part: "spring" | "autumn" | "winter", today: string): Slot => {
  const now = slotOf(today);
  if (part === "spring") return { year: isSpring(now) ? now.year : now.year + 1, part };
  return { year: now.year, part: now.part === "winter" ? now.part : part };
};

/** Is the slot over, in the half year of a day, or in the next one? June belongs to its spring, winter to its autumn. */
export const falls = (slot: Slot, today: string): boolean => {
  const half = (of: Slot): number => of.year * 2 + (isSpring(of) ? 0 : 1);
  return half(slot) <= half(slotOf(today)) + 1;
};

/** The later of a slot and the first one of its part that is not over: what is overdue is due now. */
export const notBefore = (slot: Slot, today: string): Slot => {
  const first = slot.part === "June" ? slot : nextSlot(slot.part, today);
  return compareSlots(slot, first) < 0 ? first : slot;
};
