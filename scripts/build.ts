import { cpSync, existsSync, readFileSync, renameSync, rmSync } from "node:fs";
import { join } from "node:path";
import { setChecks, setFarm } from "../src/handover.ts";
import { formatProblems } from "../src/records/problem.ts";
import { readFarm } from "../src/records/reading/readFarm.ts";
import { withPath } from "../src/records/wholeWrite.ts";
import { allPaths } from "../src/views/site/routes.ts";
import { brokenLinks, filesBelow } from "./checkLinks.ts";
import type { Command } from "./command.ts";
import { farmFor } from "./farmFor.ts";
import { keptChecks } from "./keptChecks.ts";
import { counted } from "../src/interpretation/show.ts";
import { installation, isWithin, type Options, optionsHelp, readOptions, refuseAmongRecords, UsageError, workFolder } from "./options.ts";
import { showProgress, summary } from "./progress.ts";
import { entriesOf, putInPlace } from "./wholeFolder.ts";
import { siteFolders } from "../src/views/paths.ts";

const wanted = ["content", "out", "today", "audience"] as const;
const about = optionsHelp(
  "build",
  "Checks a farm's records and writes its field-history site. Nothing is written when a record has an error.",
  wanted,
);

const run = async (argv: readonly string[]): Promise<number> => {
  const said = await buildSite(readOptions(argv, wanted));
  if (said !== undefined) console.log(said);
  return said === undefined ? 1 : 0;
};

/**
 * Check the records, render the site beside the old one, prove its links, and only then put it in the old one's place. Answers what is
 * to be said of it; `undefined` when the records have errors, which have been told.
 */
export const buildSite = async ({ content, out, today, audience }: Options): Promise<string | undefined> => {
  const began = performance.now();
  refuseUnsafe(content, out);
  const work = workFolder();
  const checks = keptChecks();
  const { farm: whole, problems } = readFarm({ content, library: join(installation, "content"), today });
  if (problems.length > 0) console.error(formatProblems(problems));
  if (!whole) {
    await checks.stop();
    const errors = problems.filter((p) => p.severity === "error").length;
    console.error(`\n${counted(errors, "error")}. Nothing was written.`);
    return undefined;
  }
  let farm;
  try {
    farm = farmFor(whole, audience, today);
  } catch (cause) {
    await checks.stop();
    throw cause;
  }
  const planned = allPaths(farm);
  setFarm(farm);
  setChecks(checks.view);

  const stood = process.cwd();
  process.chdir(installation);
  process.env["FIELD_WORK"] = work;
  process.env["ASTRO_TELEMETRY_DISABLED"] = "1";
  const hideProgress = showProgress(work, planned);
  try {
    const { build } = await import("astro");
    await build({ root: installation, logLevel: "error" });
    const broken = brokenLinks(work);
    if (broken.length > 0) throw new Error(`the site has ${broken.length} broken links:\n${broken.slice(0, 20).join("\n")}`);
    putInPlace(out, moveTo(work));
  } catch (cause) {
    throw withPath(cause, work);
  } finally {
    process.chdir(stood);
    hideProgress();
    rmSync(work, { recursive: true, force: true });
  }
  const samplings = farm.fields.reduce((sum, f) => sum + f.samplings.length, 0);
  const seconds = (performance.now() - began) / 1000;
  return summary({
    farm: farm.name,
    fields: farm.fields.length,
    samplings,
    warnings: problems.length,
    files: filesBelow(out).length,
    seconds,
    folder: out,
    first: join(out, "index.html"),
  });
};

/** The folder of the site is replaced as a whole, so it must not hold anything else. */
function refuseUnsafe(content: string, out: string): void {
  if (isWithin(content, out)) throw new UsageError(`--out ${out} would replace the records in ${content}; choose another folder`);
  refuseAmongRecords(out, content);
  if (isWithin(installation, out)) throw new UsageError(`--out ${out} would replace this program; choose another folder`);
  const entries = entriesOf(out);
  if (entries.length === 0) return;
  const index = join(out, "index.html");
  if (!existsSync(index) || !readFileSync(index, "utf8").includes('content="field-history"'))
    throw new UsageError(`--out ${out} holds files that are not a site of this program; choose an empty or new folder`);
  const other = entries.find((name) => !name.endsWith(".html") && !siteFolders.has(name));
  if (other !== undefined)
    throw new UsageError(
      `--out ${out} holds ${other} beside an older site, and the folder is replaced as a whole; move it away, or choose another folder`,
    );
}

/** The rendered site becomes the new folder. */
function moveTo(work: string): (fresh: string) => void {
  return (fresh) => {
    try {
      renameSync(work, fresh);
    } catch {
      // Another disk: a rename cannot cross to it.
      cpSync(work, fresh, { recursive: true });
    }
  };
}

export const command: Command = { about, run };
