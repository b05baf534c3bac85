import { readdirSync } from "node:fs";
import { dirname, join, relative, sep, isAbsolute } from "node:path";
import { parseArgs } from "node:util";
import { bagLabel, fieldCodes } from "../src/interpretation/planLabel.ts";
import type { UnitChoice } from "../src/interpretation/unitChoices.ts";
import { unitChoices } from "../src/interpretation/unitChoices.ts";
import type { CropId, MethodId, PurposeId } from "../src/interpretation/vocabulary.ts";
import { isFolder } from "../src/records/folder.ts";
import type { Farm } from "../src/records/model.ts";
import { allowedWords } from "../src/records/nearMiss.ts";
import { newFarm } from "../src/records/newRecordsFarm.ts";
import { newField } from "../src/records/newRecordsField.ts";
import { depthOf, farmQuestions, fieldQuestions, listed, packageQuestion, samplingDetails, samplingQuestions, seasonQuestions } from "../src/records/newRecordsQuestions.ts";
import { newSampling } from "../src/records/newRecordsSampling.ts";
import { newSeason } from "../src/records/newRecordsSeason.ts";
import type { NewFile } from "../src/records/newRecordsText.ts";
import { idFrom } from "../src/records/newRecordsText.ts";
import { writeNew } from "../src/records/newRecordsWrite.ts";
import type { Problem } from "../src/records/problem.ts";
import { formatProblems } from "../src/records/problem.ts";
import { readFarm } from "../src/records/readFarm.ts";
import { readShelf } from "../src/records/readSample.ts";
import { Interview } from "./interview.ts";
import { farmFolderOf, installation, refusal, run, UsageError } from "./options.ts";

const about = `npm run new -- farm|field|sampling|season [options]

Writes a new record with comments that explain each key, and checks it. Nothing is ever overwritten. On a terminal it asks
for what the options leave out; elsewhere it says which are missing.

farm       a farm's folder: farm.yaml, one laboratory, one field
  --name, --units us|metric|garden, --currency USD, --guidelines ID,ID, --lab NAME, --extractant METHOD,
  --field NAME, --zones NAME,NAME
field      --name, --zones NAME,NAME
sampling   one bag a zone, labeled, its results awaited
  --field ID, --date YYYY-MM-DD, --purpose routine|phCheck|nitrate, --lab ID, --package ID, --depth "0-8 in", --bags N
season     --field ID, --year YYYY, --crop CROP

  --content DIR         the farm's folder of records (also FIELD_CONTENT; default: the demo farm)
  --help                print this and stop`;

const kinds = ["farm", "field", "sampling", "season"] as const;
type Kind = (typeof kinds)[number];
const flags: Readonly<Record<Kind, readonly string[]>> = {
  farm: ["name", "units", "currency", "guidelines", "lab", "extractant", "field", "zones"],
  field: ["name", "zones"],
  sampling: ["field", "date", "purpose", "lab", "package", "depth", "bags"],
  season: ["field", "year", "crop"],
};

const readArguments = (argv: readonly string[]): { kind: Kind; given: Readonly<Record<string, string>>; content: string } => {
  const kind = kinds.find((each) => each === argv[0]);
  if (!kind) throw new UsageError(`say what to make, first of all: ${argv[0] === undefined || argv[0].startsWith("-") ? `allowed: ${kinds.join(", ")}` : allowedWords(argv[0], kinds)}`);
  const names = [...flags[kind], "content"];
  try {
    const { values } = parseArgs({ args: argv.slice(1), options: Object.fromEntries(names.map((name) => [name, { type: "string" as const }])), strict: true, allowPositionals: false });
    const { content, ...given } = values as Record<string, string | undefined>;
    return { kind, given: Object.fromEntries(Object.entries(given).map(([flag, value]) => [flag, value!.trim()])), content: farmFolderOf(content) };
  } catch (cause) {
    if (cause instanceof UsageError) throw cause;
    throw new UsageError(`${refusal(cause)}. Options of ${kind}: ${names.map((name) => `--${name}`).join(", ")}`);
  }
};

const library = join(installation, "content");

/** The farm that is there. A new field may be its first. */
const farmIn = (content: string): { farm: Farm | undefined; problems: readonly Problem[] } => {
  const { farm, problems } = readFarm({ content, library });
  return { farm, problems: problems.filter((p) => p.severity === "error") };
};

const soundFarm = (content: string): Farm => {
  const { farm, problems } = farmIn(content);
  if (!farm) throw new UsageError(`${formatProblems(problems)}\nPut this right first; nothing was written.`);
  return farm;
};

const filesFor = async (kind: Kind, content: string, interview: Interview): Promise<NewFile[]> => {
  if (kind === "farm") {
    const ids = [...readShelf(library, isFolder(content) ? content : undefined).shelf.guidelines.keys()];
    const a = await interview.answers(farmQuestions(ids));
    return newFarm({
      name: a["name"]!,
      units: a["units"] as UnitChoice,
      currency: a["currency"]!,
      guidelines: listed(a["guidelines"]!),
      lab: { id: idFrom(a["lab"]!), name: a["lab"]!, extractant: a["extractant"] as MethodId },
      field: { id: idFrom(a["field"]!), name: a["field"]!, zones: listed(a["zones"]!) },
    });
  }
  if (kind === "field") {
    const { farm, problems } = farmIn(content);
    if (problems.some((p) => p.file !== "fields")) soundFarm(content);
    const a = await interview.answers(fieldQuestions(farm?.fields.map((f) => f.id) ?? []));
    return [newField({ id: idFrom(a["name"]!), name: a["name"]!, zones: listed(a["zones"]!), units: farm?.units ?? "us" })];
  }
  const farm = soundFarm(content);
  if (kind === "season") {
    const a = await interview.answers(seasonQuestions(farm));
    const field = farm.fields.find((f) => f.id === a["field"])!;
    const [product] = [...farm.products.values()].flatMap((p) => (p.fertilizer ? [p.id] : []));
    return [newSeason({ field: field.id, year: Number(a["year"]), crop: a["crop"] as CropId, zones: field.zones.map((z) => z.id), product, rateUnit: unitChoices[field.units ?? farm.units].rate })];
  }
  return [await samplingFile(farm, interview)];
};

const samplingFile = async (farm: Farm, interview: Interview): Promise<NewFile> => {
  const first = await interview.answers(samplingQuestions(farm));
  const field = farm.fields.find((f) => f.id === first["field"])!;
  const purpose = first["purpose"] as PurposeId;
  const then = await interview.answers(samplingDetails(farm, field, purpose));
  const last = await interview.answers([packageQuestion(farm, field, purpose, then["lab"]!)]);
  const taken = new Set(farm.fields.flatMap((f) => f.samplings.flatMap((s) => s.composites.map((c) => c.label.toUpperCase()))));
  const code = fieldCodes(farm.fields.map((f) => f.id)).get(field.id)!;
  const date = first["date"]!;
  return newSampling({
    field: field.id,
    date,
    purpose,
    lab: then["lab"]!,
    package: last["package"]!,
    depth: depthOf(then["depth"]!)!,
    bags: field.zones.flatMap((zone) => Array.from({ length: Number(then["bags"]) }, () => ({ zone: zone.id, label: bagLabel(code, zone.letter, date, purpose, taken) }))),
  });
};

/** The line that tells an editor what a file may hold; left out where the installation is on another disk. */
const withSchema = (file: NewFile, content: string): string => {
  const way = relative(dirname(join(content, file.path)), join(installation, ".vscode", "schemas", `${file.schema}.json`));
  return isAbsolute(way) ? file.text : `# yaml-language-server: $schema=${way.split(sep).join("/")}\n${file.text}`;
};

/** Ask, write, check. */
await run(async () => {
  const argv = process.argv.slice(2);
  if (argv.includes("--help") || argv.includes("-h")) {
    console.log(about);
    return 0;
  }
  const { kind, given, content } = readArguments(argv);
  const interview = new Interview(given);
  try {
    if (kind === "farm" && isFolder(content) && readdirSync(content).some((name) => !name.startsWith(".") && !/^readme/i.test(name)))
      throw new UsageError("the folder holds other files already; give a new one with --content");
    const files = await filesFor(kind, content, interview);
    const { refused, problems } = writeNew(files.map((file) => ({ ...file, text: withSchema(file, content) })), content, library);
    if (refused !== undefined) throw new UsageError(refused);
    for (const file of files) console.log(`Written: ${file.path}`);
    if (problems.length > 0) console.error(formatProblems(problems));
    if (kind === "farm") console.log("Read the comments in each file, draw the zones with `npm run zones`, and run `npm run check`.");
    return 0;
  } finally {
    interview.close();
  }
});
