import { existsSync, readFileSync, statSync } from "node:fs";
import { resolve } from "node:path";
import { planImport } from "../src/records/importing/importResults.ts";
import type { Correcting } from "../src/records/importing/importResultsText.ts";
import { changesOf } from "../src/records/importing/importResultsWrite.ts";
import { choice } from "../src/records/choice.ts";
import type { Farm, Field, Lab, Sampling } from "../src/records/model.ts";
import { allowedWords } from "../src/records/nearMiss.ts";
import { formatProblems } from "../src/records/problem.ts";
import { importSummary, importTable } from "../src/views/terminal/importView.ts";
import { changeRecords, readWhole, refused } from "./changeRecords.ts";
import type { Command } from "./command.ts";
import { fieldNamed, samplingNamed } from "./fieldNamed.ts";
import { dayOf, farmFolderOf, notAFile, parsedArguments, standing, UsageError } from "./options.ts";

const about = `npm run import -- results.csv --lab <id> [--write] [options]

Brings a laboratory's result file into the farm's samplings. The columns are read by resultFile: in labs/<id>.yaml; each row
finds its bag by the label. Without --write it only shows what would be written. A result that is in the records already is
never changed: where the file says otherwise, it is refused, or with --correct gets a correction. Anything in the file that
cannot be read for certain is printed as file:line:col, and nothing is written.
Exit code 0: shown, written, or nothing to do; 1: refused.

  --lab <id>            the laboratory, by the name of its file in labs
  --write               write the results into the sampling files
  --sampling <f>/<day>  bags of this sampling only, such as north/2025-10-18, where a label was used twice
  --correct REASON      correct what differs, for this reason, such as "the laboratory reissued its sheet"
  --date YYYY-MM-DD     the day of these corrections
  --content DIR         the farm's folder of records (also FIELD_CONTENT; default: the demo farm)
  --help                print this and stop`;

interface Arguments {
  readonly file: string;
  readonly lab: string;
  readonly write: boolean;
  readonly sampling: string | undefined;
  readonly correct: Correcting | undefined;
  readonly content: string | undefined;
}

const text = { type: "string" } as const;

const readArguments = (argv: readonly string[]): Arguments => {
  const { values, positionals } = parsedArguments(
    argv,
    { lab: text, write: { type: "boolean" }, sampling: text, correct: text, date: text, content: text },
    { words: true },
  );
  const [file] = positionals;
  if (file === undefined || positionals.length !== 1)
    throw new UsageError(`give one result file, such as results.csv${positionals.length === 0 ? "" : `, not ${positionals.length} files`}`);
  if (values.lab === undefined) throw new UsageError("say whose file it is with --lab, by the name of the laboratory's file in labs");
  return {
    file,
    lab: values.lab,
    write: values.write ?? false,
    sampling: values.sampling,
    correct: correctingOf(values),
    content: values.content,
  };
};

const correctingOf = ({ correct, date }: { correct?: string | undefined; date?: string | undefined }): Correcting | undefined => {
  const day = dayOf("date", date);
  const reason = correct?.trim();
  if (reason === undefined && day === undefined) return undefined;
  if (reason === undefined) throw new UsageError("--date is the day of corrections; say with --correct why results are corrected");
  if (reason === "") throw new UsageError('--correct needs a reason, such as "the laboratory reissued its sheet"');
  if (day === undefined) throw new UsageError("--correct also needs --date, the day on which the results were put right");
  return { reason, date: day };
};

/** A sheet of a thousand bags has a tenth of a megabyte. */
const mostMegabytes = 5;

const bytesOf = (file: string): Uint8Array => {
  const full = resolve(standing(), file);
  if (!existsSync(full) || !statSync(full).isFile()) throw new UsageError(notAFile(full, file));
  const megabytes = statSync(full).size / 1_000_000;
  if (megabytes > mostMegabytes)
    throw new UsageError(`${file} has ${megabytes.toFixed(1)} MB; a result file may have at most ${mostMegabytes} MB`);
  return readFileSync(full);
};

const labOf = (farm: Farm, id: string): Lab => {
  const lab = farm.labs.get(choice(id, [...farm.labs.keys()]) ?? id);
  if (!lab) throw new UsageError(`there is no laboratory "${id}"; ${allowedWords(id, [...farm.labs.keys()])}`);
  return lab;
};

const samplingOf = (farm: Farm, lab: Lab, wanted: string): { field: Field; sampling: Sampling } => {
  const [fieldId = "", samplingId = "", ...rest] = wanted.split("/");
  if (fieldId === "" || samplingId === "" || rest.length > 0)
    throw new UsageError(`--sampling is given as <field>/<day>, such as north/2025-10-18, not "${wanted}"`);
  const field = fieldNamed(farm, fieldId);
  const sampling = samplingNamed(field, samplingId);
  if (sampling.lab.id !== lab.id) throw new UsageError(`the bags of ${wanted} went to ${sampling.lab.id}, not to ${lab.id}`);
  return { field, sampling };
};

/** Show, and with --write write, what a result file adds to the records. */
const run = (argv: readonly string[]): number => {
  const given = readArguments(argv);
  const content = farmFolderOf(given.content);
  const bytes = bytesOf(given.file);
  const { farm, problems: before } = readWhole(content);
  if (!farm) return refused(before);
  const lab = labOf(farm, given.lab);
  const { plan, problems } = planImport(
    farm,
    lab,
    { file: given.file, bytes },
    {
      only: given.sampling === undefined ? undefined : samplingOf(farm, lab, given.sampling),
      correct: given.correct !== undefined,
    },
  );
  if (!plan) return refused(problems);
  if (problems.length > 0) console.error(formatProblems(problems));
  if (plan.bags.length > 0) console.log(importTable(plan.bags));
  console.log(importSummary(plan).join("\n"));
  const made = changesOf(content, plan, given.correct);
  if ("problems" in made) return refused(made.problems);
  if (made.changes.length > 0) return changeRecords(content, made.changes, { write: given.write, before, said: problems });
  console.log("Nothing to do.");
  return 0;
};

export const command: Command = { about, run };
