/** What a column holds. `type` is one of Table Schema's. */
export interface Column {
  readonly type: "string" | "number" | "integer" | "date" | "year" | "boolean";
  readonly title: string;
  readonly description?: string;
}

/** A new column of a CSV needs its line here; a test says so. */
const described = {
  field: { type: "string", title: "Field", description: "The field's id, which names its folder of records; on labels its name." },
  zone: { type: "string", title: "Zone", description: "The zone's id within its field; on labels its name." },
  date: { type: "date", title: "Day of sampling" },
  purpose: { type: "string", title: "Purpose of the sampling" },
  analyte: { type: "string", title: "Analyte", description: "What was measured." },
  qualifier: {
    type: "string",
    title: "Qualifier",
    description: "< or >: the laboratory says less or more than the value; empty: the value itself.",
  },
  value: { type: "number", title: "Value", description: "As reported by the laboratory, in the unit of the column unit." },
  unit: { type: "string", title: "Unit of the value" },
  method: { type: "string", title: "Method", description: "Extractant or procedure. Values by different methods must not be compared." },
  finish: { type: "string", title: "Finish", description: "The instrument or reaction that read the extract." },
  preparation: { type: "string", title: "Preparation of the sample" },
  depth_from: { type: "number", title: "Upper end of the depth sampled" },
  depth_to: { type: "number", title: "Lower end of the depth sampled" },
  depth_to_most: { type: "number", title: "Lower end of the deepest sampling, where a guideline leaves a choice" },
  laboratory: { type: "string", title: "Laboratory", description: "The laboratory's id, which names its record; on labels its name." },
  bag: { type: "string", title: "Label of the bag" },
  cores: { type: "integer", title: "Cores in the bag" },
  series: { type: "string", title: "Series", description: "Only results of one series may be compared." },
  corrected_from: { type: "string", title: "Value before it was corrected" },
  correction_reason: { type: "string", title: "Why it was corrected" },
  correction_date: { type: "date", title: "Day of the correction" },
  report: { type: "string", title: "Number of the laboratory's report" },
  record: { type: "string", title: "Record", description: "File, and line, among the farm's own records." },
  nutrient: { type: "string", title: "Nutrient" },
  season: { type: "year", title: "Season", description: "The year of harvest." },
  crops: { type: "string", title: "Crops of the season" },
  applied: { type: "number", title: "Applied" },
  removed: { type: "number", title: "Removed by harvest", description: "By the middle of the coefficient, where a range is printed." },
  removed_least: {
    type: "number",
    title: "Removed, by the lower end of the printed range",
    description: "Empty where no range is printed.",
  },
  removed_most: {
    type: "number",
    title: "Removed, by the upper end of the printed range",
    description: "Empty where no range is printed.",
  },
  net: { type: "number", title: "Applied less removed", description: "Empty for nitrogen in the season of a legume." },
  sum: {
    type: "number",
    title: "Running sum of applied less removed",
    description: "Passes over the seasons without a difference for nitrogen.",
  },
  sum_since: { type: "year", title: "First season of the running sum" },
  not_known_because: { type: "string", title: "Why a number is not known" },
  coefficients: { type: "string", title: "Publications of the removal coefficients" },
  evidence: {
    type: "string",
    title: "How well the published values are known",
    description: "read: in the publication itself; secondary: another text repeats it; derived: by arithmetic; memory: only remembered.",
  },
  label: { type: "string", title: "Label to write on the bag" },
  farm: { type: "string", title: "Farm" },
  planned_for: { type: "date", title: "Day the sampling is planned for" },
  area: { type: "number", title: "Area of the zone" },
  package: { type: "string", title: "The laboratory's package of tests" },
  tests: { type: "string", title: "Tests to ask for" },
  product: { type: "string", title: "Product to spread" },
  crop: { type: "string", title: "Crop the rate is for" },
  rate: { type: "number", title: "Rate", description: "Empty: not known; the column not_known_because says why." },
  rate_up_to: { type: "number", title: "Upper end of the rate", description: "Where the guideline gives a range." },
  applications: { type: "integer", title: "Number of applications" },
  rate_each: { type: "number", title: "Rate of each application", description: "Empty: not known, or the applications differ in size." },
  total: { type: "number", title: "Amount for the whole zone" },
  cost: { type: "number", title: "Cost for the whole zone", description: "In the currency that ends the column's name." },
  sampled: { type: "date", title: "Day of the sampling the rate rests on" },
  sampling_overdue: { type: "string", title: "Whether sampling was overdue", description: "yes or no" },
  guidelines: { type: "string", title: "Guidelines the rate comes from" },
  spread_already: { type: "string", title: "What was spread since the sampling", description: "Not taken off the rate; empty: nothing." },
  name: { type: "string", title: "Name of the field" },
  tenure: { type: "string", title: "Tenure", description: "owned, rented or managed; empty: not recorded." },
  zones: { type: "integer", title: "Zones of the field" },
  next_crop: { type: "string", title: "Next crop of each zone with its season" },
  oldest_test: { type: "date", title: "Oldest of the zones' newest full samplings", description: "Empty: a zone has none." },
  sampling_due: {
    type: "date",
    title: "Day the next full sampling is due",
    description: "Empty: no guideline says, or a zone was never sampled.",
  },
  needs: { type: "string", title: "What the field needs, most urgent first" },
} satisfies Record<string, Column>;

/** Every column of the site's tables, by its name without the unit. */
export const columns: ReadonlyMap<string, Column> = new Map(Object.entries(described));

/** Units as they end a column's name. */
const units: Readonly<Record<string, string>> = {
  lb_1000_sq_ft: "lb/1000 sq ft",
  lb_ac: "lb/ac",
  kg_ha: "kg/ha",
  ton_ac: "ton/ac",
  t_ha: "t/ha",
  acres: "acre",
  acre: "acre",
  ha: "ha",
  sq_ft: "sq ft",
  in: "in",
  cm: "cm",
  lb: "lb",
  ton: "ton",
  kg: "kg",
  t: "t",
};

/** What a CSV's column is, with its unit where its name ends in one; `undefined` for a column that is not described. */
export const columnOf = (name: string): (Column & { readonly unit?: string }) | undefined => {
  const plain = columns.get(name);
  if (plain) return plain;
  for (const [tail, unit] of Object.entries(units)) {
    const column = name.endsWith(`_${tail}`) ? columns.get(name.slice(0, -tail.length - 1)) : undefined;
    if (column) return { ...column, unit };
  }
  const currency = /^cost_([a-z]{3})$/.exec(name)?.[1];
  return currency === undefined ? undefined : { ...described.cost, unit: currency.toUpperCase() };
};
