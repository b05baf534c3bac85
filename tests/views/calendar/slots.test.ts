import { expect, it } from "vitest";
import { compareSlots, nextSlot, notBefore, slotLabel, slotOf } from "../../../src/views/calendar/slots.ts";

it("parts a year at the end of June", () => {
  expect([slotLabel(slotOf("2026-06-30")), slotLabel(slotOf("2026-07-01"))]).toEqual(["spring 2026", "autumn 2026"]);
});

it("puts June between the spring and the autumn of its year", () => {
  const inOrder = [{ year: 2026, part: "autumn" }, { year: 2027, part: "spring" }, { year: 2027, part: "June" }, { year: 2027, part: "autumn" }] as const;
  expect([...inOrder].reverse().sort(compareSlots)).toEqual(inOrder);
});

it("finds the first season of its kind that is not over", () => {
  expect([nextSlot("autumn", "2026-03-01"), nextSlot("spring", "2026-03-01"), nextSlot("spring", "2026-10-01"), nextSlot("autumn", "2026-10-01")].map(slotLabel)).toEqual(["autumn 2026", "spring 2026", "spring 2027", "autumn 2026"]);
});

it("moves what is overdue to the next season of its kind, and leaves what is to come", () => {
  expect(slotLabel(notBefore({ year: 2024, part: "autumn" }, "2026-03-01"))).toBe("autumn 2026");
  expect(slotLabel(notBefore({ year: 2029, part: "autumn" }, "2026-03-01"))).toBe("autumn 2029");
});
