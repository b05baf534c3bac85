import { createHash } from "node:crypto";
import { existsSync, mkdtempSync, readFileSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, relative, resolve } from "node:path";
import { strFromU8, unzipSync } from "fflate";
import type { BagFile, Sha512 } from "../src/exchange/bundle/bag.ts";
import { bag, bagInfoValue, oneLine, textFile } from "../src/exchange/bundle/bag.ts";
import { bagReadme } from "../src/exchange/bundle/bagReadme.ts";
import { dataPackage } from "../src/exchange/bundle/dataPackage.ts";
import { zipFault, zipped } from "../src/exchange/bundle/zipWriter.ts";
import { noDay } from "../src/interpretation/noDay.ts";
import { idFrom } from "../src/records/idFrom.ts";
import type { Farm } from "../src/records/model.ts";
import { formatProblems } from "../src/records/problem.ts";
import { readFarm } from "../src/records/reading/readFarm.ts";
import { replaceFile } from "../src/records/wholeWrite.ts";
import { excerptWords } from "../src/views/leftOut.ts";
import { paths } from "../src/views/paths.ts";
import { buildSite } from "./build.ts";
import { bundleRecords } from "./bundleRecords.ts";
import { filesBelow } from "./checkLinks.ts";
import type { Command } from "./command.ts";
import { farmFor } from "./farmFor.ts";
import { counted } from "../src/interpretation/show.ts";
import { dayOf, farmFolderOf, installation, parsedArguments, refuseAmongRecords, standing, UsageError } from "./options.ts";

const about = `npm run bundle -- [options]

Builds the site and puts it, the records it was made from, and a description of its tables into one ZIP that proves itself whole
without this program: a BagIt bag (RFC 8493). The same records give the same bytes. The ZIP holds the fields' boundaries.

  --content DIR         the farm's folder of records (also FIELD_CONTENT; default: the demo farm)
  --out FILE.zip        where it is written (default: <farm>-<day>.zip, where you stand)
  --today YYYY-MM-DD    the day to speak from (default: the newest date in the records)
  --audience NAME       for one reader of farm.yaml's audiences: his excerpt of the site and its tables, without the records
  --force               replace a file that is not a bundle of this farm
  --help                print this and stop`;

const software = "field-history";
const sha512: Sha512 = (bytes) => createHash("sha512").update(bytes).digest("hex");
const library = join(installation, "content");

interface Arguments {
  readonly content: string;
  readonly out: string | undefined;
  readonly today: string | undefined;
  readonly audience: string | undefined;
  readonly force: boolean;
}

const text = { type: "string" } as const;

const readArguments = (argv: readonly string[]): Arguments => {
  const { values } = parsedArguments(argv, { content: text, out: text, today: text, audience: text, force: { type: "boolean" } });
  const today = dayOf("today", values.today);
  if (values.out !== undefined && !/.\.zip$/i.test(values.out))
    throw new UsageError(`--out must name a file ending in .zip, not "${values.out}"`);
  return {
    content: farmFolderOf(values.content),
    out: values.out,
    today,
    audience: values.audience,
    force: values.force ?? false,
  };
};

/** The farm in the names of files; of a name without a Latin letter or digit nothing is left. */
const idOf = (farm: Farm): string => idFrom(farm.name) || "farm";

/** Build, collect, prove that the records stood still meanwhile, and write the bag. */
const run = async (argv: readonly string[]): Promise<number> => {
  const given = readArguments(argv);
  const { content } = given;
  const { farm: whole, problems } = readFarm({ content, library, today: given.today });
  if (!whole) {
    console.error(`${formatProblems(problems)}\n\nNothing was written.`);
    return 1;
  }
  const farm = farmFor(whole, given.audience, given.today);
  if (farm.today === noDay) throw new UsageError("the records hold no day yet; say with --today YYYY-MM-DD of which day the bundle is");
  const name = [idOf(farm), ...(given.audience === undefined ? [] : ["for", given.audience]), farm.today].join("-");
  const out = resolve(standing(), given.out ?? `${name}.zip`);
  refuseUnsafe(out, content, farm, given.force);
  const records = bundleRecords(whole, content, library);
  const site = await builtSite(content, farm.today, given.audience);
  if (site === undefined) return 1;
  if (!sameFiles(records, bundleRecords(whole, content, library)))
    throw new UsageError("a record was changed while the bundle was made; nothing was written. Run it again.");
  const files = bagOf(farm, given.audience === undefined ? [...site, ...records] : site);
  const zip = zipped(Object.fromEntries(files.map(({ path, bytes }) => [`${name}/${path}`, bytes])));
  const fault = zipFault(files.length, zip.length);
  if (fault !== undefined) throw new UsageError(`${fault}; bundle fewer fields at a time`);
  replaceFile(out, zip);
  console.log(`${farm.name}: ${counted(files.length, "file")} in ${relative(standing(), out) || out}, ${Math.ceil(zip.length / 1024)} kB.`);
  console.log(`To check it anywhere: unzip it, and in ${name} run sha512sum -c manifest-sha512.txt`);
  return 0;
};

/** The site's files below `site/`; `undefined` when it could not be built, which the build itself has explained. */
async function builtSite(content: string, today: string, audience: string | undefined): Promise<BagFile[] | undefined> {
  const work = mkdtempSync(join(tmpdir(), "field-history-bundle-"));
  try {
    const site = join(work, "site");
    if ((await buildSite({ content, out: site, today, audience })) === undefined) return undefined;
    return filesBelow(site).map((path) => ({ path: `site/${path}`, bytes: readFileSync(join(site, path)) }));
  } finally {
    rmSync(work, { recursive: true, force: true });
  }
}

function bagOf(farm: Farm, files: readonly BagFile[]): BagFile[] {
  const description = oneLine(excerptWords(farm) ?? farm.about ?? `Soil samplings, seasons and advice of ${farm.name}, field by field.`);
  // A laboratory's report has columns of its own, in an encoding of its own.
  const tables = files.filter(({ path }) => /^site\/.*\.csv$/.test(path) && !path.startsWith(`site/${paths.report("")}`));
  const descriptor = dataPackage(tables, { name: idOf(farm), title: `${farm.name}: field history`, description }, sha512);
  const dates = farm.fields.flatMap((f) => f.samplings.map((s) => s.date.slice(0, 4))).sort();
  const readme = bagReadme({
    farm: farm.name,
    about: farm.about,
    excerpt: excerptWords(farm),
    today: farm.today,
    years: dates.length > 0 ? [dates[0]!, dates.at(-1)!] : undefined,
    fields: farm.fields.map((f) => f.name),
  });
  const payload = [...files, textFile("datapackage.json", descriptor)].map(({ path, bytes }) => ({ path: `data/${path}`, bytes }));
  return bag(payload, { farm: farm.name, about: description, today: farm.today, software, readme }, sha512);
}

/** A file is replaced only when it is an older bundle of the same farm, or by --force. */
function refuseUnsafe(out: string, content: string, farm: Farm, force: boolean): void {
  refuseAmongRecords(out, content);
  if (!existsSync(out)) return;
  if (!statSync(out).isFile()) throw new UsageError(`--out ${out} is not a file`);
  if (!force && !isBundleOf(farm, readFileSync(out)))
    throw new UsageError(
      `--out ${out} is there already and is not a bundle of ${farm.name}; choose another name, or replace it with --force`,
    );
}

function isBundleOf(farm: Farm, zip: Uint8Array): boolean {
  try {
    const [info] = Object.values(unzipSync(zip, { filter: ({ name }) => /^[^/]+\/bag-info\.txt$/.test(name) }));
    const text = info === undefined ? "" : strFromU8(info);
    return bagInfoValue(text, "Bag-Software-Agent") === software && bagInfoValue(text, "Source-Organization") === oneLine(farm.name);
  } catch {
    return false;
  }
}

function sameFiles(a: readonly BagFile[], b: readonly BagFile[]): boolean {
  return a.length === b.length && a.every((file, i) => file.path === b[i]!.path && Buffer.compare(file.bytes, b[i]!.bytes) === 0);
}

export const command: Command = { about, run };
