import { runCommand } from "../../scripts/command.ts";
import { commands } from "../../scripts/commands.ts";
import type { Ran } from "./command.ts";

/** A command to run: its name, its arguments and all of its environment. */
export interface Asked {
  readonly name: string;
  readonly args: readonly string[];
  readonly env: NodeJS.ProcessEnv;
}

/** The process in which `ranOn` runs one command after another, until the tests that asked for it are gone. */
const ran = async ({ name, args, env }: Asked): Promise<Ran> => {
  const said = { stdout: "", stderr: "" };
  for (const stream of ["stdout", "stderr"] as const) process[stream].write = (chunk: string | Uint8Array) => ((said[stream] += String(chunk)), true);
  process.env = env;
  try {
    const { command } = await commands[name]!();
    return { status: await runCommand(command, args), ...said };
  } catch (cause) {
    return { status: 1, stdout: said.stdout, stderr: `${said.stderr}${cause instanceof Error ? cause.stack : String(cause)}` };
  }
};

let last: Promise<unknown> = Promise.resolve();
process.on("message", (asked: Asked) => {
  last = last.then(async () => process.send!(await ran(asked)));
});
process.on("disconnect", () => process.exit());
