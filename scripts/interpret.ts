import { existsSync, statSync } from "node:fs";
import { basename, dirname, join, resolve } from "node:path";
import { advise } from "../src/interpretation/advise.ts";
import { formatProblems } from "../src/records/problem.ts";
import { readSample, readShelf } from "../src/records/reading/readSample.ts";
import { guidelineList } from "../src/views/guidelines/guidelineList.ts";
import { interpretJson } from "../src/views/terminal/interpretJson.ts";
import { interpretText } from "../src/views/terminal/interpretText.ts";
import type { Command } from "./command.ts";
import { installation, notAFile, parsedArguments, standing, UsageError } from "./options.ts";

const about = `npm run -s interpret -- sample.yaml [--json] [--content DIR]
npm run -s interpret -- --guidelines [--content DIR]

Reads one sample, without a farm, by the guidelines it names, and prints what they say: plain sentences with every step,
or, with --json, the same as data. Exit code 0: it was read (a question without an answer says why); 1: it was not.

  --json                print data instead of sentences
  --guidelines          print every guideline that may be named, and stop
  --content DIR         a farm's folder, whose own guidelines may be named too (also FIELD_CONTENT)
  --help                print this and stop`;

interface Arguments {
  /** Absent where the guidelines are asked for. */
  readonly file: string | undefined;
  readonly json: boolean;
  readonly content: string | undefined;
}

const readArguments = (argv: readonly string[]): Arguments => {
  const { values, positionals } = parsedArguments(
    argv,
    { json: { type: "boolean" }, guidelines: { type: "boolean" }, content: { type: "string" } },
    { words: true },
  );
  if (values.guidelines && positionals.length > 0) throw new UsageError("--guidelines reads no sample; leave the file out");
  if (!values.guidelines && positionals.length !== 1)
    throw new UsageError(
      `give one sample's file, such as sample.yaml${positionals.length === 0 ? "" : `, not ${positionals.length} files`}`,
    );
  if (values.content === "") throw new UsageError("--content needs a folder");
  return { file: positionals[0], json: values.json ?? false, content: values.content ?? process.env["FIELD_CONTENT"] };
};

/** Interpret one sample by the functions that a farm's site is worked out by. */
const run = (argv: readonly string[]): number => {
  const { file, json, content } = readArguments(argv);
  const from = standing();
  const farm = content === undefined ? undefined : resolve(from, content);
  if (farm !== undefined && !(existsSync(farm) && statSync(farm).isDirectory()))
    throw new UsageError(`--content ${content!} is not a folder`);
  if (file === undefined) {
    process.stdout.write(guidelineList(readShelf(join(installation, "content"), farm).shelf.guidelines.values()));
    return 0;
  }
  const full = resolve(from, file);
  if (!existsSync(full) || !statSync(full).isFile()) throw new UsageError(notAFile(full, file));
  const { sample, written, references, problems } = readSample(dirname(full), basename(full), join(installation, "content"), farm);
  if (problems.length > 0) console.error(formatProblems(problems));
  if (!sample) return 1;
  const advice = advise(sample);
  process.stdout.write(
    json ? `${JSON.stringify(interpretJson(sample, advice, written), null, 2)}\n` : interpretText(sample, advice, references, written),
  );
  return 0;
};

export const command: Command = { about, run };
