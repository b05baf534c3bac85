import { type ChildProcess, fork, spawnSync } from "node:child_process";
import { join } from "node:path";
import { PassThrough } from "node:stream";
import { format } from "node:util";
import { vi } from "vitest";
import { runCommand } from "../../scripts/command.ts";
import { commands } from "../../scripts/commands.ts";
import { installation } from "../../scripts/options.ts";
import type { Asked } from "./commandProcess.ts";

export interface Ran {
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

export interface Where {
  /** The folder the person stands in. */
  readonly from?: string;
  readonly env?: Readonly<Record<string, string>>;
  /** He sits at a terminal, and answers so, a line to each question. */
  readonly types?: readonly string[];
}

/** As npm has it, and nothing that was set where the tests were started. */
const environment = ({ from = installation, env }: Where): NodeJS.ProcessEnv => {
  const plain = Object.entries(process.env).filter(([name]) => !["FIELD_CONTENT", "FIELD_OUT", "FIELD_WORK"].includes(name));
  return { ...Object.fromEntries(plain), INIT_CWD: from, ...env };
};

/** What `npm run <name> -- <args>` does, in this process: far quicker than a new one, in which all modules are loaded again. */
export const ranHere = async (name: string, args: readonly string[], where: Where = {}): Promise<Ran> => {
  const said = { stdout: "", stderr: "" };
  const keyboard = Object.assign(new PassThrough(), { isTTY: where.types !== undefined });
  const lines = [...(where.types ?? [])];
  const hear = (stream: "stdout" | "stderr") =>
    vi.spyOn(process[stream], "write").mockImplementation((chunk) => {
      said[stream] += String(chunk);
      if (lines.length > 0 && String(chunk).endsWith(": ")) setImmediate(() => keyboard.write(`${lines.shift()!}\n`));
      return true;
    });
  const listeners = [vi.spyOn(process, "stdin", "get").mockReturnValue(keyboard as unknown as typeof process.stdin), hear("stdout"), hear("stderr"), vi.spyOn(console, "log").mockImplementation((...words) => void (said.stdout += `${format(...words)}\n`)), vi.spyOn(console, "error").mockImplementation((...words) => void (said.stderr += `${format(...words)}\n`))];
  const before = process.env;
  process.env = environment(where);
  try {
    const { command } = await commands[name]!();
    return { status: await runCommand(command, args), ...said };
  } finally {
    process.env = before;
    for (const listener of listeners) listener.mockRestore();
  }
};

/** The same in a process of its own, as a person starts it. */
export const ranApart = (name: string, args: readonly string[], where: Where = {}): Ran => {
  const { status, stdout, stderr } = spawnSync(process.execPath, [join(installation, "scripts", "main.ts"), name, ...args], { cwd: installation, encoding: "utf8", env: environment(where), input: "" });
  return { status, stdout, stderr };
};

let going: ChildProcess | undefined;
let last: Promise<unknown> = Promise.resolve();
/**
 * The same in a process that goes on from one command to the next, for those that build a site: the first build of a process takes four
 * times as long as any other, for all that it loads and compiles.
 */
export const ranOn = (name: string, args: readonly string[], where: Where = {}): Promise<Ran> => {
  const answer = last.then(
    () =>
      new Promise<Ran>((resolve, reject) => {
        going ??= fork(join(installation, "tests", "support", "commandProcess.ts"), { cwd: installation, execArgv: [] });
        const gone = (): void => reject(new Error(`the process that runs commands came to its end in ${name} ${args.join(" ")}`));
        going.once("exit", gone);
        going.once("message", (ran) => {
          going?.off("exit", gone);
          resolve(ran as Ran);
        });
        going.send({ name, args, env: environment(where) } satisfies Asked);
      }),
  );
  last = answer.catch(() => (going = undefined));
  return answer;
};
