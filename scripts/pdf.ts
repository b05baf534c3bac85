import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { formatProblems } from "../src/records/problem.ts";
import { readFarm } from "../src/records/reading/readFarm.ts";
import { finishedPath, replaceFile } from "../src/records/wholeWrite.ts";
import { allPaths } from "../src/views/site/routes.ts";
import { buildSite } from "./build.ts";
import { filesBelow } from "./checkLinks.ts";
import { findChromium, startChromium } from "./chromium.ts";
import type { Command } from "./command.ts";
import { farmFor } from "./farmFor.ts";
import { counted } from "../src/interpretation/show.ts";
import { dayOf, farmFolderOf, installation, parsedArguments, refuseAmongRecords, standing, UsageError } from "./options.ts";
import { pdfName, printedPages } from "./pdfPages.ts";
import { paperOf, papers, printPages, type Paper } from "./printPages.ts";
import { entriesOf, refuseOthers } from "./wholeFolder.ts";

const about = `npm run pdf -- [options]

Builds the site and prints its pages of the farm and of each field, one tagged PDF a page: fields, timelines, advice as issued, plans
and summaries; not the guidelines and lists. Needs Chromium: CHROMIUM_PATH, or one of the usual places.

  --content DIR         the farm's folder of records (also FIELD_CONTENT; default: the demo farm)
  --out DIR             where the PDF files are written (default: pdf, where you stand, and pdf-for-NAME for a reader); new, empty or holding
                        only PDF files, and for a reader no others than his
  --paper A4|Letter     the sheet (default: A4 for a farm in metric units, else Letter)
  --audience NAME       for one reader of farm.yaml's audiences, without what he is not shown
  --today YYYY-MM-DD    the day to speak from (default: the newest date in the records)
  --help                print this and stop`;

interface Arguments {
  readonly content: string;
  readonly out: string;
  readonly paper: Paper | undefined;
  readonly today: string | undefined;
  readonly audience: string | undefined;
}

const text = { type: "string" } as const;

const readArguments = (argv: readonly string[]): Arguments => {
  const { values } = parsedArguments(argv, { content: text, out: text, paper: text, today: text, audience: text });
  const paper = papers.find((p) => p.toLowerCase() === values.paper?.toLowerCase());
  if (values.paper !== undefined && paper === undefined) throw new UsageError(`--paper must be A4 or Letter, not "${values.paper}"`);
  const today = dayOf("today", values.today);
  if (values.out === "") throw new UsageError("--out needs a folder");
  return {
    content: farmFolderOf(values.content),
    out: resolve(standing(), values.out ?? (values.audience === undefined ? "pdf" : `pdf-for-${values.audience}`)),
    paper,
    today,
    audience: values.audience,
  };
};

/** Build, open each page without its script, and print it. */
const run = async (argv: readonly string[]): Promise<number> => {
  const { content, out, paper: wanted, today, audience } = readArguments(argv);
  const executablePath = findChromium();
  if (executablePath === undefined)
    throw new UsageError("Printing needs Chromium: install it (Debian: apt-get install chromium) or set CHROMIUM_PATH to its program.");
  refuseAmongRecords(out, content);
  refuseUnsafe(out);
  const { farm: whole, problems } = readFarm({ content, library: join(installation, "content"), today });
  if (!whole) {
    console.error(`${formatProblems(problems)}\n\nNothing was printed.`);
    return 1;
  }
  const farm = farmFor(whole, audience, today);
  refuseOthers(out, printedPages([...allPaths(farm).keys()]).map(pdfName), audience);
  const paper = wanted ?? paperOf(farm);
  const work = mkdtempSync(join(tmpdir(), "field-history-pdf-"));
  try {
    // Before the build, which takes longer: a program that is no Chromium is told at once.
    const browser = await startChromium(executablePath);
    try {
      const site = join(work, "site");
      if ((await buildSite({ content, out: site, today: farm.today, audience })) === undefined) return 1;
      const pages = printedPages(filesBelow(site));
      for await (const [path, bytes] of printPages(browser, site, pages, paper)) replaceFile(join(out, pdfName(path)), bytes);
      console.log(`${farm.name}: ${counted(pages.length, "page")} of the site printed on ${paper} paper, into ${out}`);
      return 0;
    } finally {
      await browser.close();
    }
  } finally {
    rmSync(work, { recursive: true, force: true });
  }
};

/** PDF files of an earlier printing, one that was killed included, are replaced one by one; anything else means that it is another folder. */
function refuseUnsafe(out: string): void {
  if (entriesOf(out).some((name) => !finishedPath(name).endsWith(".pdf")))
    throw new UsageError(`--out ${out} holds files that are not PDF files; choose an empty or new folder`);
}

export const command: Command = { about, run };
