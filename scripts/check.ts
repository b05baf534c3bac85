import { join } from "node:path";
import { formatProblems } from "../src/records/problem.ts";
import { readFarm } from "../src/records/reading/readFarm.ts";
import type { Command } from "./command.ts";
import { counted } from "../src/interpretation/show.ts";
import { installation, optionsHelp, readOptions } from "./options.ts";

const wanted = ["content", "today"] as const;
const about = optionsHelp(
  "check",
  "Checks every record of a farm and prints each problem as file:line:col: field: message. Writes nothing.\nExit code 0: no errors (warnings may be printed); 1: at least one error.",
  wanted,
);

/** Read and check every record; write nothing. */
const run = (argv: readonly string[]): number => {
  const { content, today } = readOptions(argv, wanted);
  const { farm, problems } = readFarm({ content, library: join(installation, "content"), today });
  if (problems.length > 0) console.error(formatProblems(problems));
  if (!farm) {
    const errors = problems.filter((p) => p.severity === "error").length;
    console.error(`\n${counted(errors, "error")}. Nothing was written.`);
    return 1;
  }
  const samplings = farm.fields.reduce((sum, f) => sum + f.samplings.length, 0);
  console.log(
    `${farm.name}: ${counted(farm.fields.length, "field")}, ${counted(samplings, "sampling")}, ${counted(farm.files, "file")} read, ${counted(problems.length, "warning")}, no errors.`,
  );
  return 0;
};

export const command: Command = { about, run };
