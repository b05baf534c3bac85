import { nutrients } from "../../interpretation/vocabulary.ts";
import type { Farm, Field } from "../../records/model.ts";
import type { BalanceView } from "./balance.ts";
import { balanceCsv } from "./balanceCsv.ts";
import { balanceParts, fieldBalance } from "./balancePages.ts";
import { weight } from "../results/rows.ts";
import { inUnitsOf } from "../units.ts";
import { capital, list } from "../words.ts";

export interface BalancePage {
  readonly title: string;
  readonly lede: string;
  /** The nutrients of this page; what is said of all of them stands on the first. */
  readonly view: BalanceView;
  readonly parts: readonly { readonly part: number; readonly holds: string }[];
  readonly csvWeight: string;
}

/** One page of a field's balance; the field has one. `part` counts from 1. */
export const balancePage = (site: Farm, field: Field, part: number): BalancePage => {
  const farm = inUnitsOf(site, field);
  const view = fieldBalance(farm, field)!;
  const parts = balanceParts(farm, field);
  const balances = view.balances.filter((b) => parts[part - 1]!.includes(b.nutrient));
  const name =
    parts.length === 1 ? `Nutrient balance of ${field.name}` : `Nutrient balance of ${field.name}, page ${part} of ${parts.length}`;
  return {
    title: name,
    lede: balances.length > 0 ? `${balances.map((b) => b.title).join(". ")}.` : "No nutrient has a balance here.",
    view: { ...view, balances, none: part === 1 ? view.none : [] },
    parts: parts.map((each, i) => ({ part: i + 1, holds: capital(list(each.map((n) => nutrients[n].label.toLowerCase()))) })),
    csvWeight: weight(balanceCsv(farm, field)),
  };
};
