import type { Farm } from "../../records/model.ts";

/** Rows on one page of a list: with what each field needs in words, some 25 kB when they are sent compressed. */
export const rowsPerPage = 250;

/** Every field stands once in every list, so that all of them have as many pages. */
export const fieldListPageCount = (farm: Farm): number => Math.max(1, Math.ceil(farm.fields.length / rowsPerPage));
