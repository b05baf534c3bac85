import { resultTable } from "../../exchange/results/resultFile.ts";
import { resultText } from "../../exchange/results/resultFileText.ts";
import type { PurposeId } from "../../interpretation/vocabulary.ts";
import { purposeIds } from "../../interpretation/vocabulary.ts";
import type { Farm, Field, Lab } from "../model.ts";
import { allowedWords } from "../nearMiss.ts";
import { withZonesOf } from "../../interpretation/zoneLife.ts";

/** The bags of one plan, as its list of labels gives them. */
export interface PlannedBags {
  readonly field: Field;
  readonly purpose: PurposeId;
  /** `YYYY-MM-DD`; absent where the plan knew a season only. */
  readonly plannedFor: string | undefined;
  /** "0-8 in"; absent where the plan knew none, as are the laboratory and its package. */
  readonly depth: string | undefined;
  readonly lab: Lab | undefined;
  readonly package: string | undefined;
  readonly bags: readonly { readonly zone: string; readonly label: string; readonly cores: number | undefined }[];
}

/** A spreadsheet's formula signs stand behind an apostrophe in the list. */
const same = (cell: string, name: string): boolean => cell === name || cell === `'${name}`;

const depthIn = (row: ReadonlyMap<string, string>): string | undefined =>
  (["in", "cm"] as const).flatMap((unit) => {
    const [from, to] = [row.get(`depth_from_${unit}`), row.get(`depth_to_${unit}`)];
    // Of a choice of depths nobody knows yet which it will be.
    return from && to && !row.get(`depth_to_most_${unit}`) ? [`${from}-${to} ${unit}`] : [];
  })[0];

/** Read `labels.csv` of `npm run plan` or of the site: the bags to record, or why they cannot be. */
export const planLabels = (farm: Farm, bytes: Uint8Array): PlannedBags | { readonly fault: string } => {
  const text = resultText(bytes);
  if ("fault" in text) return { fault: `line ${text.fault.line} ${text.fault.because}` };
  const read = resultTable(text.text, { headerLine: 1, bags: "rows", delimiter: "comma", knows: () => true });
  if ("faults" in read) return { fault: `line ${read.faults[0]!.line} ${read.faults[0]!.because}` };
  const { headers } = read.table;
  const needed = ["label", "field", "zone", "purpose"].filter((name) => !headers.includes(name));
  if (needed.length > 0) return { fault: `is no list of labels of a plan: it has no column ${needed.join(", ")}` };
  const rows = read.table.rows.map((cells) => new Map(headers.map((name, i) => [name, cells[i]!])));
  const [first] = rows;
  if (!first) return { fault: "names no bag" };
  const field = farm.fields.filter((f) => same(first.get("field")!, f.name));
  if (field.length !== 1)
    return { fault: `is of the field "${first.get("field")!}", and the farm has ${field.length === 0 ? "none" : "several"} of that name` };
  const purpose = purposeIds.find((id) => id === first.get("purpose"));
  if (!purpose) return { fault: `has the purpose "${first.get("purpose")!}"; ${allowedWords(first.get("purpose")!, purposeIds)}` };
  if (rows.some((row) => row.get("field") !== first.get("field") || row.get("purpose") !== purpose))
    return { fault: "holds bags of several fields or purposes" };
  const plannedFor = first.get("planned_for") || undefined;
  const { zones } = withZonesOf(field[0]!, plannedFor ?? farm.today);
  const bags = rows.map((row) => ({
    zone: zones.filter((z) => same(row.get("zone")!, z.name)),
    name: row.get("zone")!,
    label: row.get("label")!,
    cores: Number(row.get("cores")) || undefined,
  }));
  const lost = bags.find(({ zone }) => zone.length !== 1);
  if (lost)
    return {
      fault: `has a bag of the zone "${lost.name}", and ${field[0]!.name} has ${lost.zone.length === 0 ? "none" : "several"} of that name`,
    };
  const lab = [...farm.labs.values()].find((l) => same(first.get("laboratory") ?? "", l.name));
  const offered = Object.entries(lab?.packages ?? {}).find(([, p]) => same(first.get("package") ?? "", p.name));
  return {
    field: field[0]!,
    purpose,
    plannedFor,
    depth: depthIn(first),
    lab,
    package: offered?.[0],
    bags: bags.map(({ zone, label, cores }) => ({ zone: zone[0]!.id, label, cores })),
  };
};
