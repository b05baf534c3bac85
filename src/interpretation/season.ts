const monthOf = (date: string): number => Number(date.slice(5, 7));
const yearOf = (date: string): number => Number(date.slice(0, 4));

/**
 * The part of the year within which soil pH and potassium may be compared. It is February to June, or July to January: in
 * Ireland and Britain grass is sampled through the winter, on either side of New Year, and potassium stays low from summer to the next
 * spring; in the southern United States February begins the sampling before planting, which goes on in March.
 */
export const seasonOf = (date: string): "spring" | "autumnToWinter" => (nameOf(monthOf(date)) === "spring" ? "spring" : "autumnToWinter");

const nameOf = (month: number): "spring" | "autumn" | "winter" =>
  month === 1 || month === 12 ? "winter" : month <= 6 ? "spring" : "autumn";

/** What a reader calls the time of a day: spring is February to June, autumn July to November, winter December and January. */
export const seasonName = (date: string): "spring" | "autumn" | "winter" => nameOf(monthOf(date));

/** The year in which the season of a day began: of January the year before. */
export const seasonYear = (date: string): number => yearOf(date) - (monthOf(date) === 1 ? 1 : 0);

/** The year of the first harvest after a day, were nothing harvested after June: whose year it is does not turn with the season. */
export const harvestYearAfter = (date: string): number => yearOf(date) + (monthOf(date) > 6 ? 1 : 0);

/** "spring 2024", "autumn 2023", "winter 2023–24" */
export const seasonLabel = (name: "spring" | "June" | "autumn" | "winter", year: number): string =>
  name === "winter" ? `winter ${year}–${String(year + 1).slice(-2)}` : `${name} ${year}`;
