import type { SearchIndex } from "../views/search/searchIndex.ts";
import { fieldTable } from "./fieldTable.ts";
import { searchPage } from "./searchPage.ts";

/** One classic script for the pages that help to find things. Without it they hold the same as lists of links. */
const table = document.querySelector<HTMLTableElement>("table.sortable");
const filter = document.querySelector<HTMLFormElement>("form[data-filter]");
if (table && filter) fieldTable(table, filter);

const box = document.querySelector<HTMLFormElement>("form[data-search]");
const results = document.querySelector<HTMLElement>("[data-results]");
const index = (window as { fieldSearch?: SearchIndex }).fieldSearch;
if (box && results && index) searchPage(box, results, index);
