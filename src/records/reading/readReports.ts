import { join } from "node:path";
import type { Folder } from "../folder.ts";
import { fileNamed } from "../judges.ts";
import type { Field, Report } from "../model.ts";
import { start } from "../place.ts";
import type { Problems } from "../problem.ts";

/** How a file of each kind begins: what any browser shows and what runs nothing. A table in text begins as it likes. */
const beginnings: Readonly<Record<string, RegExp>> = {
  pdf: /%PDF-/,
  png: /^\x89PNG\r\n\x1a\n/,
  jpg: /^\xff\xd8\xff/,
  jpeg: /^\xff\xd8\xff/,
  csv: /^/,
};
const named = new RegExp(`^[a-z0-9][a-z0-9_.-]*\\.(${Object.keys(beginnings).join("|")})$`, "i");
const reportFile = fileNamed(
  (name) => name.length <= 100 && named.test(name),
  "a report ending in .pdf, .png, .jpg, .jpeg or .csv, its name in letters without accents, digits, hyphens, dots and underscores",
);

/** A PDF may have some lines of its writer before its own first one (ISO 32000-1, appendix H: within 1,024 bytes). */
const mostBefore = 1024;
/** A scan of many sheets; a site and its bundle hold every report. */
const mostBytes = 20_000_000;

/** The laboratories' reports in the farm's folder, by file name. One that cannot be shown is reported. */
export const readReports = (folder: Folder, problems: Problems): Map<string, Report> => {
  const reports = new Map<string, Report>();
  const addresses = new Map<string, string>();
  for (const name of folder.list("reports", reportFile)) {
    const path = `reports/${name}`;
    const refuse = (message: string): void => problems.error(folder.name(path), start, "", message);
    const found = folder.look(path, mostBefore);
    // A refused one is there, too: the sampling that names it names a file.
    reports.set(name, { at: join(folder.root, path), bytes: found?.bytes ?? 0 });
    if (!found) continue;
    const ending = name.split(".").at(-1)!.toLowerCase();
    const twin = addresses.get(name.toLowerCase());
    addresses.set(name.toLowerCase(), name);
    if (twin !== undefined) refuse(`has the same address as reports/${twin}; keep one`);
    else if (found.bytes > mostBytes) refuse("is larger than 20 MB, too large for a report; scan it in fewer colors or dots");
    else if (!beginnings[ending]!.test(found.beginning))
      refuse(`does not begin as a ${ending.toUpperCase()} file does; keep the file as the laboratory sent it, with its own ending`);
  }
  return reports;
};

/** A report that no sampling names is shown nowhere: say so, since it was put there to be found. */
export const warnOfUnnamedReports = (reports: ReadonlyMap<string, Report>, fields: readonly Field[], problems: Problems): void => {
  const used = new Set(fields.flatMap((f) => f.samplings.map((s) => s.report?.file)));
  for (const name of reports.keys())
    if (!used.has(name)) problems.warn(`reports/${name}`, start, "", `is named by no sampling; its file says report: { file: "${name}" }`);
};
