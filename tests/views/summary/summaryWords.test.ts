import { expect, it } from "vitest";
import { sampledWords } from "../../../src/views/summary/summaryWords.ts";

it.each([
  [[], "No full sampling with results is in the records."],
  [["2025-10-18"], "Sampled on 18 October 2025, measured by North Laboratory."],
  // Two bags of samples of one day are two records.
  [["2025-10-18", "2025-10-18"], "Sampled on 18 October 2025, measured by North Laboratory."],
  [["2021-10-12", "2023-10-17", "2025-10-18"], "Sampled between 12 October 2021 and 18 October 2025, measured by North Laboratory."],
])("says when land was last sampled: %j", (dates, words) => expect(sampledWords(dates, ["North Laboratory"])).toBe(words));
