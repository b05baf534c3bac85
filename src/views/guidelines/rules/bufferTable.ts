import type { BufferTableRule } from "../../../interpretation/rules/bufferTable.ts";
import { depthLabel } from "../../../interpretation/measurement.ts";
import { materialLabel } from "../../../interpretation/rules/limeBasis.ts";
import { pH, plain } from "../../../interpretation/show.ts";
import { methods } from "../../../interpretation/vocabulary.ts";
import { capital } from "../../words.ts";
import type { RuleParts } from "./ruleParts.ts";

/** The page of a guideline: lime by buffer pH, and the most at one time. */
export const bufferTableView = (s: BufferTableRule, r: RuleParts["row"]): Omit<RuleParts["view"], "id"> => {
  const doubt = (buffer: number): string | undefined =>
    s.doubtful
      ?.filter((d) => d.buffer === buffer)
      .map((d) => `Target ${pH(d.target)}: ${d.note}`)
      .join(" ") || undefined;
  return {
    title: `Lime by ${methods[s.buffer].label}`,
    says: `${capital(s.unit === "ton/ac" ? "tons" : "pounds")} an acre of ${materialLabel(s)}, for ${depthLabel(s.depth)} of soil. Between two printed buffer values the rate is read along the straight line; the column is the lowest printed target at or above the one wanted; outside the table there is no answer.`,
    holdsFor: methods[s.buffer].label,
    tables: [
      {
        caption: `Lime to reach each target pH, ${s.unit}`,
        head: ["Buffer pH", ...s.targets.map(pH)],
        numeric: s.targets.map((_, i) => i + 1),
        rows: s.rows.map(([buffer = 0, ...rates]) => ({
          ...r([buffer.toFixed(1), ...rates.map((n) => (s.unit === "ton/ac" ? n.toFixed(1) : plain(n, 0)))], s),
          note: doubt(buffer),
        })),
      },
      ...(s.caps
        ? [
            {
              caption: `Most to apply at one time, ${s.unit} of ${s.material.label}`,
              head: ["How it is applied", "Most", "The rest"],
              numeric: [1],
              rows: s.caps.map((c) =>
                r([c.placement === "surface" ? "left on the surface" : "worked in", plain(c.maximum.value), c.then], c.maximum),
              ),
            },
          ]
        : []),
    ],
  };
};
