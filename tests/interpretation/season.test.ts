import { expect, it } from "vitest";
import { harvestYearAfter, seasonLabel, seasonName, seasonOf, seasonYear } from "../../src/interpretation/season.ts";

const edges = ["2024-12-31", "2025-01-01", "2025-01-31", "2025-02-01", "2025-06-30", "2025-07-01", "2025-11-30", "2025-12-01"];

it("winter goes on over New Year and is one season with the autumn before it", () => {
  expect(edges.map(seasonName)).toEqual(["winter", "winter", "winter", "spring", "spring", "autumn", "autumn", "winter"]);
  const [autumn, spring] = ["autumnToWinter", "spring"];
  expect(edges.map(seasonOf)).toEqual([autumn, autumn, autumn, spring, spring, autumn, autumn, autumn]);
});

it("a winter is of the year that it begins in, and so it is called", () => {
  expect(edges.map((date) => seasonLabel(seasonName(date), seasonYear(date)))).toEqual(["winter 2024–25", "winter 2024–25", "winter 2024–25", "spring 2025", "spring 2025", "autumn 2025", "autumn 2025", "winter 2025–26"]);
  expect(seasonLabel("winter", 2099)).toBe("winter 2099–00");
});

it("the harvest that follows is of the calendar's year until June: the crop of January is that of the December before", () =>
  expect(edges.map(harvestYearAfter)).toEqual([2025, 2025, 2025, 2025, 2025, 2026, 2026, 2026]));
