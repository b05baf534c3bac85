import type { Interface } from "node:readline/promises";
import { createInterface } from "node:readline/promises";
import type { Question } from "../src/records/starting/newRecordsQuestions.ts";
import { UsageError } from "./options.ts";

type Terminal = Pick<Interface, "question" | "close" | "on" | "removeAllListeners">;

const ownTerminal = (): Terminal | undefined =>
  process.stdin.isTTY ? createInterface({ input: process.stdin, output: process.stderr }) : undefined;

/** Asks a person, until the answer will do; without a terminal, tells everything that is wrong or missing at once. */
export class Interview {
  readonly #given: Readonly<Record<string, string>>;
  /** What was wrong with the command before anything was asked. */
  readonly #faults: readonly string[];
  readonly #terminal: Terminal | undefined;

  constructor(given: Readonly<Record<string, string>>, faults: readonly string[] = [], terminal: Terminal | undefined = ownTerminal()) {
    this.#given = given;
    this.#faults = faults;
    this.#terminal = terminal;
    // Ctrl-C and the end of input stop the command with nothing written.
    this.#terminal?.on("close", () => process.exit(1));
  }

  /** The answer that was given with a flag, if it will do. */
  given(q: Question): string | undefined {
    const given = this.#flag(q);
    return given !== undefined && q.problem(given) === undefined ? given : undefined;
  }

  /** What was given with the flag, as it would be recorded. */
  #flag(q: Question): string | undefined {
    const given = this.#given[q.flag];
    return given === undefined ? undefined : (q.as?.(given) ?? given);
  }

  /**
   * Stop here if any of these has a wrong answer or, where nobody can be asked, none: everything that was wrong with the command
   * is told in one go. Of `later` questions, which hang on answers that may be missing, only wrong answers are told.
   */
  refuse(questions: readonly Question[], later: readonly Question[] = []): void {
    const wrong = [...questions, ...later].flatMap((q) => {
      const given = this.#flag(q);
      const problem = given === undefined ? undefined : q.problem(given);
      return problem === undefined ? [] : [`--${q.flag}: ${problem}`];
    });
    const missing = this.#terminal ? [] : questions.filter((q) => this.#given[q.flag] === undefined && q.fallback === undefined);
    const faults = [
      ...this.#faults,
      ...wrong,
      ...(missing.length > 0
        ? [`missing: ${missing.map((q) => `--${q.flag} (${q.ask.charAt(0).toLowerCase()}${q.ask.slice(1)})`).join("; ")}`]
        : []),
    ];
    if (faults.length > 0) throw new UsageError(faults.join("\n"));
  }

  async answers(questions: readonly Question[]): Promise<Record<string, string>> {
    this.refuse(questions);
    const answers: Record<string, string> = {};
    for (const q of questions)
      answers[q.flag] = this.#flag(q) ?? (this.#terminal && !q.settled ? await this.#ask(q, this.#terminal) : q.fallback!);
    return answers;
  }

  async #ask(q: Question, terminal: Terminal): Promise<string> {
    for (;;) {
      const typed = (await terminal.question(`${q.ask}${q.fallback === undefined ? "" : ` [${q.fallback}]`}: `)).trim();
      const answer = typed === "" ? q.fallback : (q.as?.(typed) ?? typed);
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
