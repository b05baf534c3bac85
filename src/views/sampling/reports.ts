import type { Farm, Sampling } from "../../records/model.ts";
import { paths } from "../paths.ts";
import { bytesWords } from "../results/rows.ts";

/** Reports that the site holds: those that a sampling names, where the owner lets the site hold them. */
export const shownReports = (farm: Farm): string[] =>
  farm.publish.reports ? [...new Set(farm.fields.flatMap((f) => f.samplings.flatMap((s) => s.report?.file ?? [])))] : [];

/** The link to a sampling's report: "The laboratory's report as it came (PDF, 231 kB)"; absent where the site holds none. */
export const reportLink = (farm: Farm, { report }: Sampling): { path: string; words: string } | undefined => {
  const kept = report?.file === undefined || !farm.publish.reports ? undefined : farm.reports.get(report.file);
  if (!kept) return undefined;
  const ending = report!.file!.split(".").at(-1)!.toUpperCase();
  return { path: paths.report(report!.file!), words: `The laboratory's report as it came (${ending}, ${bytesWords(kept.bytes)})` };
};
