import { seasonOf } from "../../interpretation/comparable.ts";
import { harvestedBy } from "../../interpretation/zoneLife.ts";

/** A part of a year in which a field is sampled: the spring or autumn half, or June within the spring, for nitrate. */
export interface Slot {
  readonly year: number;
  readonly part: "spring" | "June" | "autumn";
}

const parts: readonly Slot["part"][] = ["spring", "June", "autumn"];
const order = ({ year, part }: Slot): number => year * parts.length + parts.indexOf(part);

export const slotOf = (date: string): Slot => ({ year: Number(date.slice(0, 4)), part: seasonOf(date) });

/** "autumn 2026" */
export const slotLabel = ({ year, part }: Slot): string => `${part} ${year}`;

/** The end of a slot: who begins new zones with a sampling does so within it. Of a spring it is the day by which its crop stands. */
export const endOf = ({ year, part }: Slot): string => `${year}-${part === "autumn" ? "12-31" : harvestedBy}`;

/** Below zero where `a` comes first. */
export const compareSlots = (a: Slot, b: Slot): number => order(a) - order(b);

/** The first spring or autumn that is not over on a day. */
export const nextSlot = (part: "spring" | "autumn", today: string): Slot => {
  const now = slotOf(today);
  return { year: part === "spring" && now.part === "autumn" ? now.year + 1 : now.year, part };
};

/** Is the slot over, in the half year of a day, or in the next one? June belongs to its spring. */
export const falls = (slot: Slot, today: string): boolean => order(slot) <= order(slotOf(today)) + 2;

/** The later of a slot and the first one of its part that is not over: what is overdue is due now. */
export const notBefore = (slot: Slot, today: string): Slot => {
  const first = slot.part === "June" ? slot : nextSlot(slot.part, today);
  return compareSlots(slot, first) < 0 ? first : slot;
};
