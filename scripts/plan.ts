import { readFileSync, writeFileSync } from "node:fs";
import { join, relative, resolve } from "node:path";
import { noDay } from "../src/interpretation/noDay.ts";
import type { WantedError } from "../src/interpretation/sampling/planCores.ts";
import { labelStart } from "../src/interpretation/sampling/planLabel.ts";
import type { PurposeId } from "../src/interpretation/vocabulary.ts";
import { purposeIds } from "../src/interpretation/vocabulary.ts";
import { choice } from "../src/records/choice.ts";
import type { Farm, Field } from "../src/records/model.ts";
import { allowedWords } from "../src/records/nearMiss.ts";
import { formatProblems } from "../src/records/problem.ts";
import { readFarm } from "../src/records/reading/readFarm.ts";
import { makeFolder } from "../src/records/wholeWrite.ts";
import { withZonesOf } from "../src/interpretation/zoneLife.ts";
import type { PlanRequest } from "../src/views/plan/planComposites.ts";
import { planGeoJson, planGpx, planLabelsCsv } from "../src/views/plan/planFiles.ts";
import { duePlans } from "../src/views/plan/duePlans.ts";
import { planText } from "../src/views/terminal/planText.ts";
import { planView } from "../src/views/plan/plan.ts";
import type { Command } from "./command.ts";
import { fieldNamed } from "./fieldNamed.ts";
import { counted } from "../src/interpretation/show.ts";
import { dayOf, farmFolderOf, installation, parsedArguments, refuseAmongRecords, standing, UsageError } from "./options.ts";
import { entriesOf, putInPlace } from "./wholeFolder.ts";

const about = `npm run plan -- <field> [options]

Plans the sampling of one field: how many bags and cores, how deep, where each core is taken, and in which order. Writes into
a folder of its own: plan.gpx for a hand-held receiver, plan.geojson, and labels.csv, the list that goes with the bags.

  --purpose P           ${purposeIds.join(", ")} (default: routine)
  --date YYYY-MM-DD     the day it is planned for (default: when it is due, else the newest date in the records)
  --zones ID,ID         only these zones (default: those the sampling calendar names, else all)
  --seed N              another whole number gives other positions (default: 1, which is also the site's)
  --error PERCENT       take as many cores as keep their mean within so many percent, 19 times in 20; needs --cv
  --cv PERCENT          how far single cores spread, in percent of their mean
  --label TEXT          what labels begin with (default: a short code of the field)
  --content DIR         the farm's folder of records (also FIELD_CONTENT; default: the demo farm)
  --out DIR             where it is written (default: plan-<field>-<date>, with the purpose); an older plan there is replaced, nothing else is
  --help                print this and stop`;

const text = { type: "string" } as const;
const options = { purpose: text, date: text, zones: text, seed: text, error: text, cv: text, label: text, content: text, out: text };

interface Arguments {
  readonly field: string;
  readonly request: Omit<PlanRequest, "date"> & { readonly date: string | undefined };
  readonly zones: string | undefined;
  readonly content: string | undefined;
  readonly out: string | undefined;
}

const readArguments = (argv: readonly string[]): Arguments => {
  const { values, positionals } = parsedArguments(argv, options, { words: true });
  const [field = "", ...more] = positionals;
  if (field === "" || more.length > 0)
    throw new UsageError(
      `give one field, by the name of its folder, such as north${more.length > 0 ? `, not "${positionals.join(" ")}"` : ""}`,
    );
  const { purpose: forWhat = "routine", zones, seed = "1", label, out } = values;
  const purpose = choice(forWhat, purposeIds) as PurposeId | undefined;
  if (!purpose) throw new UsageError(`--purpose: there is no purpose "${forWhat}"; ${allowedWords(forWhat, purposeIds)}`);
  const date = dayOf("date", values.date);
  if (!/^\d{1,9}$/.test(seed)) throw new UsageError(`--seed must be a whole number of up to nine digits, not "${seed}"`);
  if (label !== undefined && !labelStart.test(label))
    throw new UsageError(
      `--label must be letters, digits and hyphens, at most twenty, and not "${label}": a label must be the same on the bag, in a spreadsheet and at the laboratory`,
    );
  if (out === "") throw new UsageError("--out needs a folder");
  return {
    field,
    request: { purpose, date, seed: Number(seed), wanted: wantedError(values.error, values.cv), labelStart: label },
    zones,
    content: values.content,
    out,
  };
};

const wantedError = (error: string | undefined, cv: string | undefined): WantedError | undefined => {
  if (error === undefined && cv === undefined) return undefined;
  const percent = (name: string, given: string | undefined): number => {
    if (given === undefined) throw new UsageError("--error and --cv are given together");
    const value = given.trim() === "" ? NaN : Number(given);
    if (!(value > 0 && value <= 500)) throw new UsageError(`--${name} must be a percentage above 0 and up to 500, not "${given}"`);
    return value;
  };
  return { error: percent("error", error), cv: percent("cv", cv) };
};

/** The plan's own files; a folder that holds anything else is not ours to replace. */
const names = ["labels.csv", "plan.geojson", "plan.gpx"];

const refuseUnsafe = (out: string): void => {
  const entries = entriesOf(out);
  const older =
    entries.every((e) => names.includes(e)) &&
    entries.includes("plan.gpx") &&
    readFileSync(join(out, "plan.gpx"), "utf8").includes('creator="field-history"');
  if (entries.length > 0 && !older)
    throw new UsageError(`--out ${out} holds files that are not a plan of this program; choose an empty or new folder`);
};

const writeAll =
  (files: Readonly<Record<string, string>>) =>
  (fresh: string): void => {
    makeFolder(fresh);
    for (const [name, content] of Object.entries(files)) writeFileSync(join(fresh, name), content, { flush: true });
  };

/** As the sampling is due, unless the person says otherwise: then these are the bags of the page, with its labels. */
const requestFor = (farm: Farm, field: Field, due: PlanRequest | undefined, { request, zones }: Arguments): PlanRequest => {
  if (request.date === undefined && farm.today === noDay)
    throw new UsageError("the records hold no day yet; say with --date YYYY-MM-DD when you will sample");
  const ids = field.zones.map((z) => z.id);
  const chosen = zones?.split(",").map((z) => choice(z.trim(), ids) ?? z.trim());
  const wrong = chosen?.find((z) => !ids.includes(z));
  if (wrong !== undefined) throw new UsageError(`--zones: ${field.name} has no zone "${wrong}"; ${allowedWords(wrong, ids)}`);
  return {
    ...request,
    date: request.date ?? due?.date ?? farm.today,
    season: request.date === undefined ? due?.season : undefined,
    zones: chosen ?? due?.zones,
  };
};

/** plan-netloft-2025-10-28, plan-netloft-nitrate-2026-06. */
const folderName = ({ id }: Field, { purpose, date, season }: PlanRequest): string =>
  `plan-${id}${purpose === "routine" ? "" : purpose === "nitrate" ? "-nitrate" : "-ph"}-${season === undefined ? date : date.slice(0, 7)}`;

const run = (argv: readonly string[]): number => {
  const given = readArguments(argv);
  const content = farmFolderOf(given.content);
  const { farm, problems } = readFarm({ content, library: join(installation, "content") });
  if (problems.length > 0) console.error(formatProblems(problems));
  if (!farm) return 1;
  const found = fieldNamed(farm, given.field);
  // A plan for a day to come is one of the zones that there will be.
  const { date, purpose } = given.request;
  const of = date === undefined ? found : withZonesOf(found, date);
  const due = duePlans(farm, of).find((each) => each.purpose === purpose);
  const field = date === undefined ? (due?.field ?? found) : of;
  const request = requestFor(farm, field, due?.request, given);
  const here = standing();
  const out = resolve(here, given.out ?? folderName(field, request));
  refuseAmongRecords(out, content);
  refuseUnsafe(out);
  const view = planView(farm, field, request);
  putInPlace(
    out,
    writeAll({
      "plan.gpx": planGpx(farm, field, view.plan),
      "plan.geojson": planGeoJson(field, view.plan),
      "labels.csv": planLabelsCsv(farm, field, view.plan),
    }),
  );
  console.log(planText(view));
  const cores = view.plan.bags.reduce((sum, b) => sum + b.points.length, 0);
  console.log(`${counted(view.plan.bags.length, "bag")}, ${counted(cores, "position")}. Written to ${relative(here, out) || out}.`);
  return 0;
};

export const command: Command = { about, run };
