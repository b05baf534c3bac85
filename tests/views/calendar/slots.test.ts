import { expect, it } from "vitest";
import { compareSlots, endOf, falls, nextSlot, notBefore, slotLabel, slotOf } from "../../../src/views/calendar/slots.ts";

it("parts a year at the end of June, and has winter go on over New Year", () => {
  expect(["2026-06-30", "2026-07-01", "2026-12-01", "2027-01-31", "2027-02-01"].map((day) => slotLabel(slotOf(day)))).toEqual(["spring 2026", "autumn 2026", "winter 2026–27", "winter 2026–27", "spring 2027"]);
});

it("puts June between the spring and the autumn of its year, and winter before the spring of the next", () => {
  const inOrder = [{ year: 2026, part: "autumn" }, { year: 2026, part: "winter" }, { year: 2027, part: "spring" }, { year: 2027, part: "June" }, { year: 2027, part: "autumn" }] as const;
  expect([...inOrder].reverse().sort(compareSlots)).toEqual(inOrder);
});

it("finds the first season of its kind that is not over", () => {
  expect([nextSlot("autumn", "2026-03-01"), nextSlot("spring", "2026-03-01"), nextSlot("spring", "2026-10-01"), nextSlot("autumn", "2026-10-01")].map(slotLabel)).toEqual(["autumn 2026", "spring 2026", "spring 2027", "autumn 2026"]);
});

it("takes in the winter at hand what waits for autumn or winter, and in autumn what waits for winter in the winter to come", () => {
  expect([nextSlot("autumn", "2027-01-20"), nextSlot("winter", "2027-01-20"), nextSlot("spring", "2027-01-20"), nextSlot("winter", "2027-02-01"), nextSlot("winter", "2026-10-01"), nextSlot("spring", "2026-12-20")].map(slotLabel)).toEqual(["winter 2026–27", "winter 2026–27", "spring 2027", "winter 2027–28", "winter 2026–27", "spring 2027"]);
});

it("a winter ends with January, and what falls in it is due from the spring before", () => {
  const winter = { year: 2026, part: "winter" } as const;
  expect(["2027-01-31", "2028-01-31", "2027-02-01"].map((day) => day <= endOf(winter))).toEqual([true, false, false]);
  expect(["2025-12-31", "2026-01-31", "2026-02-01", "2027-01-20"].map((today) => falls(winter, today))).toEqual([false, false, true, true]);
  // From winter the spring and its June are next; the autumn after them is not.
  expect((["spring", "June", "autumn"] as const).map((part) => falls({ year: 2027, part }, "2027-01-20"))).toEqual([true, true, false]);
});

it("moves what is overdue to the next season of its kind, and leaves what is to come", () => {
  expect(slotLabel(notBefore({ year: 2024, part: "autumn" }, "2026-03-01"))).toBe("autumn 2026");
  expect(slotLabel(notBefore({ year: 2029, part: "autumn" }, "2026-03-01"))).toBe("autumn 2029");
});
