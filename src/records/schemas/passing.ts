import * as z from "zod";
import { percent } from "./primitives.ts";

/** How fine a liming material is. What passes a fine screen has passed every coarser one. */
export const passing = z
  .record(z.string().regex(/^\d{1,3}$/, "must be a mesh number such as 60"), percent)
  .check(({ value, issues }) => {
    if (issues.length > 0) return;
    const screens = Object.entries(value).sort(([a], [b]) => Number(a) - Number(b));
    screens.slice(1).forEach(([mesh, share], i) => {
      const [coarser, before] = screens[i]!;
      if (share > before)
        issues.push({
          code: "custom",
          input: share,
          path: [mesh],
          message: `is more than the ${before} that pass ${coarser} mesh, a coarser screen`,
        });
    });
  })
  .describe("percent passing each screen, by mesh number");
