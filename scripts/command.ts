import { diskTrouble, UsageError } from "./options.ts";

/** What a file of this folder that is a command exports: its help, and what it does, which answers the exit code. */
export interface Command {
  readonly about: string;
  readonly run: (argv: readonly string[]) => number | Promise<number>;
}

/** A lone word is taken for the question that people ask of other programs with it. */
export const asksForHelp = (argv: readonly string[]): boolean =>
  argv.includes("--help") || argv.includes("-h") || (argv.length === 1 && argv[0] === "help");

/** Run a command: a mistake of the user's prints its message and gives 1; anything else is our bug and keeps its stack. */
export const runCommand = async ({ about, run }: Command, argv: readonly string[]): Promise<number> => {
  if (asksForHelp(argv)) {
    console.log(about);
    return 0;
  }
  try {
    return await run(argv);
  } catch (cause) {
    const words = cause instanceof UsageError ? cause.message : diskTrouble(cause);
    if (words === undefined) throw cause;
    console.error(words);
    return 1;
  }
};
