import { createInterface } from "node:readline/promises";
import type { Question } from "../src/records/newRecordsQuestions.ts";
import { UsageError } from "./options.ts";

/** Asks a person, until the answer will do; without a terminal, only collects what is missing. */
export class Interview {
  readonly #given: Readonly<Record<string, string>>;
  readonly #terminal = process.stdin.isTTY ? createInterface({ input: process.stdin, output: process.stderr }) : undefined;

  constructor(given: Readonly<Record<string, string>>) {
    this.#given = given;
    // Ctrl-C and the end of input stop the command with nothing written.
    this.#terminal?.on("close", () => process.exit(1));
  }

  async answers(questions: readonly Question[]): Promise<Record<string, string>> {
    const answers: Record<string, string> = {};
    for (const q of questions) {
      const given = this.#given[q.flag];
      const problem = given === undefined ? undefined : q.problem(given);
      if (problem !== undefined) throw new UsageError(`--${q.flag}: ${problem}`);
      if (given !== undefined) answers[q.flag] = given;
    }
    const open = questions.filter((q) => answers[q.flag] === undefined);
    const missing = open.filter((q) => q.fallback === undefined);
    if (!this.#terminal && missing.length > 0)
      throw new UsageError(`missing: ${missing.map((q) => `--${q.flag} (${q.ask.charAt(0).toLowerCase()}${q.ask.slice(1)})`).join("; ")}`);
    for (const q of open) answers[q.flag] = this.#terminal ? await this.#ask(q, this.#terminal) : q.fallback!;
    return answers;
  }

  async #ask(q: Question, terminal: ReturnType<typeof createInterface>): Promise<string> {
    for (;;) {
      const answer = (await terminal.question(`${q.ask}${q.fallback === undefined ? "" : ` [${q.fallback}]`}: `)).trim() || q.fallback;
      const problem = answer === undefined ? "needs an answer" : q.problem(answer);
      if (problem === undefined) return answer!;
      console.error(`  ${problem}`);
    }
  }

  close(): void {
    this.#terminal?.removeAllListeners("close");
    this.#terminal?.close();
  }
}
