import type { NitrateWhen } from "../../../interpretation/rules/factTests.ts";
import type { Precondition } from "../../../interpretation/rules/preconditions.ts";
import { whenLabel } from "../../../interpretation/rules/factTests.ts";
import { preconditionLabel } from "../../../interpretation/rules/preconditions.ts";
import type { RuleParts, RuleTable } from "./ruleParts.ts";

/** What must be so before a rate is read, and what is only advised. */
export const requirements = (requires: readonly Precondition[], r: RuleParts["row"]): RuleTable[] =>
  requires.length === 0
    ? []
    : [
        {
          caption: "Asked of the test before a rate is read",
          head: ["What", "If it is not so"],
          numeric: [],
          rows: requires.map((p) =>
            r([`${p.by ? `${p.by}: ` : ""}${preconditionLabel(p)}`, p.weight === "condition" ? "no rate" : "a caution"], p),
          ),
        },
      ];

export const whereLabel = (when: NitrateWhen | undefined): string => whenLabel(when) || "everywhere else";
