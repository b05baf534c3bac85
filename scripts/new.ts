import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import { dirname, isAbsolute, join, relative, resolve, sep } from "node:path";
import type { Guideline } from "../src/interpretation/guideline.ts";
import { bagLabel, fieldCode } from "../src/interpretation/sampling/planLabel.ts";
import type { UnitChoice } from "../src/interpretation/unitChoices.ts";
import { unitChoices } from "../src/interpretation/unitChoices.ts";
import type { CropId, MethodId, PurposeId } from "../src/interpretation/vocabulary.ts";
import { sectionsOf } from "../src/interpretation/guideline.ts";
import { waysRead } from "../src/interpretation/waysRead.ts";
import { choice } from "../src/records/choice.ts";
import { isFolder } from "../src/records/folder.ts";
import { idFrom } from "../src/records/idFrom.ts";
import type { Farm, Field } from "../src/records/model.ts";
import { newFarm, phosphorusReadBy } from "../src/records/starting/newRecordsFarm.ts";
import { newField } from "../src/records/starting/newRecordsField.ts";
import type { Question } from "../src/records/starting/newRecordsQuestions.ts";
import {
  depthOf,
  farmDetails,
  farmQuestions,
  fieldQuestions,
  listed,
  packageQuestion,
  samplingDetails,
  samplingQuestions,
  seasonQuestions,
} from "../src/records/starting/newRecordsQuestions.ts";
import { newSampling } from "../src/records/starting/newRecordsSampling.ts";
import { newSeason } from "../src/records/starting/newRecordsSeason.ts";
import type { NewFile } from "../src/records/starting/newRecordsText.ts";
import { writeNew } from "../src/records/starting/newRecordsWrite.ts";
import type { PlannedBags } from "../src/records/starting/planLabels.ts";
import { planLabels } from "../src/records/starting/planLabels.ts";
import type { Problem } from "../src/records/problem.ts";
import { formatProblems } from "../src/records/problem.ts";
import { readFarm } from "../src/records/reading/readFarm.ts";
import { readShelf } from "../src/records/reading/readSample.ts";
import { harvestedBy, withZonesOf } from "../src/interpretation/zoneLife.ts";
import type { SamplingPlan } from "../src/views/plan/planComposites.ts";
import { planSampling } from "../src/views/plan/planComposites.ts";
import type { Command } from "./command.ts";
import { Interview } from "./interview.ts";
import type { Kind, NewArguments } from "./newArguments.ts";
import { newArguments } from "./newArguments.ts";
import { installation, standing, UsageError } from "./options.ts";

const about = `npm run new -- farm|field|sampling|season [options]

Writes a new record with comments that explain each key, and checks it. Nothing is ever overwritten. On a terminal it asks
for what the options leave out; elsewhere it says which are missing.

farm       a farm's folder: farm.yaml, one laboratory, one field
  --name, --units us|metric|garden, --currency USD, --guidelines ID,ID, --lab NAME, --extractant METHOD,
  --field NAME, --zones NAME,NAME; without --extractant, the one the guidelines read phosphorus by;
  a guideline of your own can be named once it lies in the folder's guidelines
field      --name, --zones NAME,NAME
sampling   one bag a zone, labeled, its results awaited; or the bags of a plan, with the labels that are on them
  --plan FOLDER of npm run plan, or the labels.csv of the site, --field ID, --date YYYY-MM-DD, --purpose routine|phCheck|nitrate, --lab ID, --package ID, --depth "0-8 in", --bags N
season     --field ID, --year YYYY, --crop CROP

  --content DIR         the farm's folder of records (also FIELD_CONTENT; default: the demo farm)
  --help                print this and stop`;

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

const filesFor = async ({ kind, content, given, faults }: NewArguments): Promise<NewFile[]> => {
  if (kind === "sampling") return [await samplingFile(soundFarm(content), given, faults)];
  const interview = new Interview(given, faults);
  try {
    return await filesAsked(kind, content, interview);
  } finally {
    interview.close();
  }
};

const filesAsked = async (kind: Exclude<Kind, "sampling">, content: string, interview: Interview): Promise<NewFile[]> => {
  if (kind === "farm") {
    const { shelf, own } = readShelf(library, isFolder(content) ? content : undefined);
    if (own.length > 0) throw new UsageError(`${formatProblems(own)}\nPut this right first; nothing was written.`);
    const { guidelines } = shelf;
    const chosen = (ids: string | undefined): Guideline[] => listed(ids ?? "").flatMap((id) => guidelines.get(id) ?? []);
    const questions = farmQuestions([...guidelines.keys()]);
    const given = questions.find((q) => q.flag === "guidelines")!;
    interview.refuse([...questions, ...farmDetails(phosphorusReadBy(chosen(interview.given(given))))]);
    const first = await interview.answers(questions);
    const packs = chosen(first["guidelines"]);
    const a = { ...first, ...(await interview.answers(farmDetails(phosphorusReadBy(packs)))) };
    return newFarm({
      name: a["name"]!,
      units: a["units"] as UnitChoice,
      currency: a["currency"]!,
      guidelines: packs,
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
  const a = await interview.answers(seasonQuestions(farm));
  const field = farm.fields.find((f) => f.id === a["field"])!;
  const [product] = [...farm.products.values()].flatMap((p) => (p.fertilizer ? [p.id] : []));
  return [
    newSeason({
      field: field.id,
      year: Number(a["year"]),
      crop: a["crop"] as CropId,
      zones: withZonesOf(field, `${a["year"]!}-${harvestedBy}`).zones.map((z) => z.id),
      product,
      rateUnit: unitChoices[field.units ?? farm.units].rate,
    }),
  ];
};

/** The plan that was given, as the folder of `npm run plan` or as its labels.csv. */
const planGiven = (farm: Farm, path: string): PlannedBags => {
  const full = resolve(standing(), path);
  const file = isFolder(full) ? join(full, "labels.csv") : full;
  if (!existsSync(file) || !statSync(file).isFile()) throw new UsageError(`--plan: there is no list of labels at ${path}`);
  if (statSync(file).size > mostPlanBytes) throw new UsageError(`--plan: ${path} is too large for a list of labels`);
  const plan = planLabels(farm, readFileSync(file));
  if ("fault" in plan) throw new UsageError(`--plan: ${path} ${plan.fault}`);
  return plan;
};
const mostPlanBytes = 1_000_000;

/** What a plan answers stands in for what was not given; what it fixes may not be said otherwise. */
const withPlan = (plan: PlannedBags, given: Readonly<Record<string, string>>): Record<string, string> => {
  const fixed = { field: plan.field.id, purpose: plan.purpose };
  const other = [
    ...Object.entries(fixed)
      .filter(([flag, value]) => given[flag] !== undefined && choice(given[flag], [value]) !== value)
      .map(([flag, value]) => `--${flag}: the plan is of ${value}`),
    ...(given["bags"] === undefined ? [] : ["--bags: the plan says which bags there are"]),
  ];
  if (other.length > 0) throw new UsageError(other.join("\n"));
  const told = { ...fixed, bags: "1", depth: plan.depth, lab: plan.lab?.id, package: plan.package };
  return { ...Object.fromEntries(Object.entries(told).filter((pair): pair is [string, string] => pair[1] !== undefined)), ...given };
};

const samplingFile = async (farm: Farm, given: Readonly<Record<string, string>>, faults: readonly string[]): Promise<NewFile> => {
  const plan = given["plan"] === undefined ? undefined : planGiven(farm, given["plan"]);
  const interview = new Interview(plan ? withPlan(plan, given) : given, faults);
  try {
    return await samplingAsked(farm, interview, plan);
  } finally {
    interview.close();
  }
};

const samplingAsked = async (farm: Farm, interview: Interview, plan: PlannedBags | undefined): Promise<NewFile> => {
  const fieldOf = (id: string | undefined) => farm.fields.find((f) => f.id === id);
  const planned = (field: Field, purpose: PurposeId, date: string) =>
    planSampling(farm, withZonesOf(field, date), { purpose, date, seed: 1 });
  const questions = samplingQuestions(farm, plan?.plannedFor);
  const [atField, onDay, forPurpose] = questions.map((q) => interview.given(q) ?? q.fallback);
  const details = (field: Field | undefined, purpose: string, date: string | undefined): Question[] =>
    samplingDetails(farm, field, purpose, field && plannedSpan(planned(field, purpose as PurposeId, date ?? farm.today)));
  const ahead = details(fieldOf(atField), forPurpose ?? "routine", onDay);
  const lab = ahead.find((q) => q.flag === "lab")!;
  const atLab = interview.given(lab) ?? lab.fallback;
  const packages = atLab === undefined ? [] : [packageQuestion(farm, fieldOf(atField), forPurpose ?? "routine", atLab)];
  // Without the field nobody knows what its last sampling would answer.
  if (fieldOf(atField)) interview.refuse([...questions, ...ahead, ...packages]);
  else interview.refuse(questions, [...ahead, ...packages]);
  const first = await interview.answers(questions);
  const field = fieldOf(first["field"])!;
  const [purpose, date] = [first["purpose"] as PurposeId, first["date"]!];
  const then = await interview.answers(details(field, purpose, date));
  const last = await interview.answers([packageQuestion(farm, field, purpose, then["lab"]!)]);
  const taken = new Set(farm.fields.flatMap((f) => f.samplings.flatMap((s) => s.composites.map((c) => c.label.toUpperCase()))));
  const code = fieldCode(
    field.id,
    farm.fields.map((f) => f.id),
  );
  return newSampling({
    field: field.id,
    date,
    purpose,
    lab: then["lab"]!,
    package: last["package"]!,
    depth: depthOf(then["depth"]!)!,
    metric: (field.units ?? farm.units) === "metric",
    reads: nitrogenRead(field),
    asksCrop: field.guidelines.some((pack) => sectionsOf(pack, "nitrogenSupply").length > 0),
    cores: planned(field, purpose, date).bags[0]?.cores,
    bags:
      plan?.bags ??
      withZonesOf(field, date).zones.flatMap((zone) =>
        Array.from({ length: Number(then["bags"]) }, () => ({ zone: zone.id, label: bagLabel(code, zone.letter, date, purpose, taken) })),
      ),
  });
};

/** What of nitrogen the field's guidelines read in the soil, for the comments; nitrate where they read none. */
const nitrogenRead = (field: Field): ("nitrateN" | "mineralN")[] => {
  const read = (["nitrateN", "mineralN"] as const).filter((analyte) => field.guidelines.some((pack) => waysRead(pack, analyte).length > 0));
  return read.length > 0 ? read : ["nitrateN"];
};

/** The planned depth as a person writes it: "0-8 in". */
const plannedSpan = ({ depth }: SamplingPlan): string | undefined =>
  depth.kind === "answer" ? `${depth.value.from}-${depth.value.to} ${depth.value.unit}` : undefined;

/** The line that tells an editor what a file may hold; left out where the installation is on another disk. */
const withSchema = (file: NewFile, content: string): string => {
  const way = relative(dirname(join(content, file.path)), join(installation, ".vscode", "schemas", `${file.schema}.json`));
  return isAbsolute(way) ? file.text : `# yaml-language-server: $schema=${way.split(sep).join("/")}\n${file.text}`;
};

/** What a new farm may find in its folder: guidelines of its own, which it can then choose, and what they cite. */
const besideNew = /^(readme.*|guidelines|references\.yaml)$/i;

/** Ask, write, check. */
const run = async (argv: readonly string[]): Promise<number> => {
  const wanted = newArguments(argv);
  const { kind, content } = wanted;
  if (kind === "farm" && isFolder(content) && readdirSync(content).some((name) => !name.startsWith(".") && !besideNew.test(name)))
    throw new UsageError("the folder holds other files already; give a new one with --content");
  const files = await filesFor(wanted);
  const { refused, problems } = writeNew(
    files.map((file) => ({ ...file, text: withSchema(file, content) })),
    content,
    library,
  );
  if (refused !== undefined) throw new UsageError(refused);
  for (const file of files) console.log(`Written: ${file.path}`);
  if (problems.length > 0) console.error(formatProblems(problems));
  if (kind === "farm") console.log("Read the comments in each file, draw the zones with `npm run zones`, and run `npm run check`.");
  return 0;
};

export const command: Command = { about, run };
