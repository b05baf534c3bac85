import { conditionLabel } from "../../../interpretation/rules/conditions.ts";
import { plain } from "../../../interpretation/show.ts";
import { analyteInSentence, nutrients } from "../../../interpretation/vocabulary.ts";
import type { BuildMaintainRule } from "../../../interpretation/rules/buildMaintainRule.ts";
import type { RuleParts } from "./ruleParts.ts";

/** The page of a guideline: levels, what is applied in each range, and the terms of the sum. */
export const buildMaintainView = (s: BuildMaintainRule, r: RuleParts["row"]): Omit<RuleParts["view"], "id" | "holdsFor"> => {
  const { symbol, label } = nutrients[s.nutrient];
  const factor = s.buildUp.perUnit;
  const removal = s.extra ? "removal + addition" : "removal";
  const drawn = s.equations.drawdown;
  const place = (l: BuildMaintainRule["levels"][number]): string => conditionLabel(l.when) || "every place";
  const maintained = s.levels.some((l) => l.atLimit);
  return {
    title: `${label} (${symbol}) from ${analyteInSentence(s.analyte)}`,
    says: `Below the critical level (${s.classes.below}): build up and replace removal. From it to the maintenance limit (${s.classes.within}): replace removal. ${maintained ? "Above" : "At and above"} the limit (${s.classes.above}): ${drawn ? "less and less, to nothing at the end of the drawdown" : "nothing"}.`,
    tables: [
      {
        caption: `Levels, ${s.limits.unit}`,
        head: ["Holds for", "Level", "Value"],
        numeric: [2],
        rows: s.levels.flatMap((l) => [
          r(
            [
              place(l),
              "critical level",
              "value" in l.critical ? plain(l.critical.value) : `${plain(l.critical.intercept)} + ${plain(l.critical.perCec)} × CEC`,
            ],
            l.critical,
          ),
          ...(l.maintenanceLimit
            ? [
                r(
                  [place(l), l.atLimit ? "maintenance limit, itself maintained" : "maintenance limit", plain(l.maintenanceLimit.value)],
                  l.maintenanceLimit,
                ),
              ]
            : []),
          ...(l.plateau ? [r([place(l), "maintenance limit", `critical level + ${plain(l.plateau.value)}`], l.plateau)] : []),
          ...(l.drawdown ? [r([place(l), "nothing from", `maintenance limit + ${plain(l.drawdown.value)}`], l.drawdown)] : []),
        ]),
      },
      {
        caption: "What is applied each year, lb per acre",
        head: ["Term", "Amount"],
        numeric: [],
        rows: [
          r(
            [
              `build-up, per ${s.limits.unit} below the critical level`,
              "value" in factor ? plain(factor.value) : `${plain(factor.intercept)} + ${plain(factor.perCec)} × CEC`,
            ],
            factor,
          ),
          ...(s.buildUp.years ? [r(["years that build-up is spread over", plain(s.buildUp.years.value)], s.buildUp.years)] : []),
          ...(s.extra ? [r(["added wherever anything is applied", plain(s.extra.value)], s.extra)] : []),
          r(["below the critical level", `build-up + ${removal}`], s.equations.buildUp),
          r(["between the levels", removal], s.equations.maintenance),
          ...(drawn
            ? [r(["in the drawdown", `${s.extra ? `(${removal})` : removal} × (1 − (test − limit) ÷ width of the drawdown)`], drawn)]
            : []),
          r([drawn ? "from the end of the drawdown" : maintained ? "above the limit" : "at and above the limit", "0"], s.equations.none),
          ...(s.cecInstead ?? []).map((c) => r([`CEC read for ${conditionLabel(c.when)}`, plain(c.value)], c)),
          ...(s.maximum ?? []).map((m) => r([`never more${m.when ? `, for ${conditionLabel(m.when)}` : ""}`, plain(m.value)], m)),
        ],
      },
    ],
  };
};
