/** One page of each kind of the demo farm. */
export const onePageOfEachKind = [
  "index.html",
  "fields/causeway.html",
  "fields/causeway/samplings/2023-10-17.html",
  "fields/causeway/timeline.html",
  "fields/netloft/plan.html",
  "fields/netloft/plan-nitrate.html",
  "fields/causeway/recommendations/2020-11-05.html",
  "guidelines/us-tristate-974-2020.html",
  "season.html",
  "spreader-sheets.html",
  "calendar.html",
  "references.html",
  "methods.html",
  "compare.html",
  "checks.html",
  "checks/bands.html",
];
