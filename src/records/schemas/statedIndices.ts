import * as z from "zod";
import { limeIndexIds, limeIndices, mostStated } from "../../interpretation/vocabulary.ts";

/** What a supplier states of a liming material: each index in its own unit, percent or lb/ton, never one for another. */
export const statedIndices = z
  .partialRecord(
    z.enum(limeIndexIds),
    z
      .number()
      // Less would make a rate without end of it.
      .min(0.001)
      .max(Math.max(...limeIndexIds.map(mostStated))),
  )
  .check(({ value, issues }) => {
    for (const index of limeIndexIds) {
      const stated = value[index];
      if (stated === undefined || stated <= mostStated(index)) continue;
      issues.push({
        code: "custom",
        input: stated,
        path: [index],
        message: `must be at most ${mostStated(index)} ${limeIndices[index].unit}; ${limeIndices[index].label} is stated in ${limeIndices[index].unit === "%" ? "percent" : "pounds a ton"}`,
      });
    }
  })
  .describe("what the supplier states: in percent, or in lb/ton for ENP and ENM");
