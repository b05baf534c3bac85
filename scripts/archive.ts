import { join, relative } from "node:path";
import { createFile } from "../src/records/wholeWrite.ts";
import type { Farm, Field, Sampling } from "../src/records/model.ts";
import { packPrint } from "../src/records/sealing/packPrint.ts";
import { formatProblems, Problems } from "../src/records/problem.ts";
import { readFarm } from "../src/records/reading/readFarm.ts";
import { readRecommendation } from "../src/records/reading/readRecommendation.ts";
import { recommendationText } from "../src/records/sealing/recommendationText.ts";
import { sealRecommendation } from "../src/records/sealing/sealRecommendation.ts";
import { nextCrop } from "../src/views/advice/nextCrop.ts";
import { freeze } from "../src/views/issued/freeze.ts";
import { everyZone, onGroundOf } from "../src/views/zonesThen.ts";
import { analyteInSentence, crops } from "../src/interpretation/vocabulary.ts";
import type { Command } from "./command.ts";
import { fieldNamed, samplingNamed } from "./fieldNamed.ts";
import { dayOf, farmFolderOf, installation, parsedArguments, standing, UsageError } from "./options.ts";

const about = `npm run archive -- <field>/<sampling> [--for "..."] [--date YYYY-MM-DD] [options]

Keeps the advice of one sampling as it is issued, in fields/<field>/recommendations/<date>.yaml: every rate with its steps,
all that it was worked out from, the prices, and a fingerprint of each guideline. The file is sealed and is never
overwritten or edited; check and build prove the seal. <sampling> is the name of its file without .yaml, such as 2025-10-18.

  --for "..."           whom the advice is for (default: the farm's name)
  --date YYYY-MM-DD     the day of issue, which names the file (default: --today, else the newest date in the records)
  --today YYYY-MM-DD    the day to speak from (default: the newest date in the records)
  --content DIR         the farm's folder of records (also FIELD_CONTENT; default: the demo farm)
  --help                print this and stop`;

interface Arguments {
  readonly field: string;
  readonly sampling: string;
  readonly reader: string | undefined;
  readonly issued: string | undefined;
  readonly today: string | undefined;
  readonly content: string | undefined;
}

const text = { type: "string" } as const;

const readArguments = (argv: readonly string[]): Arguments => {
  const { values, positionals } = parsedArguments(argv, { for: text, date: text, today: text, content: text }, { words: true });
  const [field = "", sampling = "", ...rest] = (positionals[0] ?? "").split("/");
  if (positionals.length !== 1 || field === "" || sampling === "" || rest.length > 0)
    throw new UsageError(`give one sampling as <field>/<sampling>, such as north/2025-10-18, not "${positionals.join(" ")}"`);
  const [issued, today] = [dayOf("date", values.date), dayOf("today", values.today)];
  if (values.for?.trim() === "") throw new UsageError("--for needs a name");
  return { field, sampling, reader: values.for?.trim(), issued, today, content: values.content };
};

const find = (farm: Farm, wanted: Pick<Arguments, "field" | "sampling">): { field: Field; sampling: Sampling } => {
  const field = fieldNamed(farm, wanted.field);
  const sampling = samplingNamed(field, wanted.sampling);
  return { field, sampling };
};

/** Freeze, seal, read back and write one piece of advice. */
const run = (argv: readonly string[]): number => {
  const given = readArguments(argv);
  const content = farmFolderOf(given.content);
  const { farm, problems } = readFarm({ content, library: join(installation, "content"), today: given.today });
  if (problems.length > 0) console.error(formatProblems(problems));
  if (!farm) return 1;
  const { field, sampling } = find(farm, given);
  const issued = given.issued ?? farm.today;
  if (issued < sampling.date) throw new UsageError(`the sampling is of ${sampling.date}; advice from it cannot be issued on ${issued}`);
  refuseUnknownResults(sampling, issued);
  refuseForesight(field, sampling, issued);
  const body = freeze(farm, field, sampling, { for: given.reader ?? farm.name, issued, print: packPrint });
  if (!body) throw new UsageError(`the sampling ${sampling.id} of field "${field.id}" holds no result to advise from`);
  const record = sealRecommendation(body);
  const written = recommendationText(record);
  const name = `fields/${field.id}/recommendations/${issued}.yaml`;
  provenReadable(written, name, record.issued, field.id, farm);
  const path = join(content, ...name.split("/"));
  if (!createFile(path, written))
    throw new UsageError(`${name} is there already and is never overwritten; advice of another day takes --date`);
  console.log(`${name}: advice of ${issued} for ${record.for}, from the sampling of ${sampling.date}. Seal ${record.sha256}.`);
  console.log(`Written to ${relative(standing(), path) || path}. Keep it under version control and do not edit it.`);
  return 0;
};

/** Results are as the records hold them today: on a day before the report, or before one was put right, nobody could advise from them. */
function refuseUnknownResults({ handling, composites }: Sampling, issued: string): void {
  const { receivedOn, reportedOn } = handling;
  const [day, did] = reportedOn === undefined ? [receivedOn, "received the bags"] : [reportedOn, "reported"];
  if (day !== undefined && issued < day)
    throw new UsageError(`the laboratory ${did} on ${day}; advice from its results cannot be issued on ${issued}`);
  for (const { label, measurements } of composites)
    for (const { analyte, correction } of measurements)
      if (correction && issued < correction.date)
        throw new UsageError(
          `${analyteInSentence(analyte)} of bag ${label} was corrected on ${correction.date}, which nobody knew on ${issued}; issue the advice on that day or later`,
        );
}

/** A yield that was harvested stands for a goal where nothing is planned; in advice of a day before the harvest it would be foresight. */
function refuseForesight(field: Field, sampling: Sampling, issued: string): void {
  for (const zone of everyZone(field)) {
    const next = nextCrop(field, zone.id, sampling.date);
    if (!next || next.planned || !next.yieldGoal || !sampling.composites.some((c) => c.zone === zone.id)) continue;
    const grown = field.seasons
      .find((s) => s.season === next.season)!
      .crops.filter((c) => c.crop === next.crop && onGroundOf(field, zone.id, c.zones));
    if (grown.every((c) => (c.harvested ?? String(next.season)) <= issued)) continue;
    throw new UsageError(
      `the advice would rest on what ${crops[next.crop].label} yielded in ${next.season}, which nobody knew on ${issued}; write the crop and the yield goal of that day under plan: in field.yaml, with season: ${next.season}`,
    );
  }
}

/** Nothing is written that could not be read again. */
function provenReadable(written: string, name: string, issued: string, field: string, farm: Farm): void {
  const problems = new Problems();
  readRecommendation(written, name, issued, field, farm.allGuidelines, problems);
  if (problems.all.length > 0) throw new Error(`the archive cannot be read back:\n${formatProblems(problems.all)}`);
}

export const command: Command = { about, run };
