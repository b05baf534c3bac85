import { existsSync, statSync } from "node:fs";
import { basename, dirname, join, resolve } from "node:path";
import { parseArgs } from "node:util";
import { advise } from "../src/interpretation/advise.ts";
import { formatProblems } from "../src/records/problem.ts";
import { readSample } from "../src/records/readSample.ts";
import { interpretJson, interpretText } from "../src/views/interpretView.ts";
import { installation, run, UsageError } from "./options.ts";

const about = `npm run -s interpret -- sample.yaml [--json]

Reads one sample, without a farm, by the guidelines it names, and prints what they say: plain sentences with every step,
or, with --json, the same as data. Exit code 0: it was read (a question without an answer says why); 1: it was not.

  --json                print data instead of sentences
  --help                print this and stop`;

const readArguments = (argv: readonly string[]): { file: string; json: boolean } => {
  try {
    const { values, positionals } = parseArgs({ args: [...argv], options: { json: { type: "boolean" } }, strict: true, allowPositionals: true });
    if (positionals.length !== 1) throw new UsageError(`give one sample's file, such as sample.yaml, not ${positionals.length}`);
    return { file: positionals[0]!, json: values.json ?? false };
  } catch (cause) {
    if (cause instanceof UsageError) throw cause;
    throw new UsageError(`${(cause as Error).message.split(/[.\n]/)[0]!}. Options: --json, --help`);
  }
};

/** Interpret one sample by the functions that a farm's site is worked out by. */
await run(() => {
  const argv = process.argv.slice(2);
  if (argv.includes("--help") || argv.includes("-h")) {
    console.log(about);
    return 0;
  }
  const { file, json } = readArguments(argv);
  const full = resolve(process.env["INIT_CWD"] ?? process.cwd(), file);
  if (!existsSync(full) || !statSync(full).isFile()) throw new UsageError(`there is no file ${file}`);
  const { sample, references, problems } = readSample(dirname(full), basename(full), join(installation, "content"));
  if (problems.length > 0) console.error(formatProblems(problems));
  if (!sample) return 1;
  const advice = advise(sample);
  process.stdout.write(json ? `${JSON.stringify(interpretJson(sample, advice), null, 2)}\n` : interpretText(sample, advice, references));
  return 0;
});
