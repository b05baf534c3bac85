import type { AnalyteId } from "../../interpretation/vocabulary.ts";
import { analyteIds } from "../../interpretation/vocabulary.ts";

/** What an analyte is called in the classes and switches of maps. */
export const mapKey = (analyte: AnalyteId): string => analyte.toLowerCase();

/** The styles that hide every map but those of the chosen analyte: one rule for each that a laboratory may report. */
export const mapSwitchCss = `${analyteIds
  .map(mapKey)
  .map((key) => `.switch:where(:has([data-m=${key}]:checked)) .mapset:where(:not(.m-${key}))`)
  .join(",")}{display:none}`;
