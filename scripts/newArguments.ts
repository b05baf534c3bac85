import { choice } from "../src/records/choice.ts";
import { allowedWords, nearMiss } from "../src/records/nearMiss.ts";
import { farmFolderOf, parsedArguments, UsageError } from "./options.ts";

const kinds = ["farm", "field", "sampling", "season"] as const;
export type Kind = (typeof kinds)[number];

const flags: Readonly<Record<Kind, readonly string[]>> = {
  farm: ["name", "units", "currency", "guidelines", "lab", "extractant", "field", "zones"],
  field: ["name", "zones"],
  sampling: ["plan", "field", "date", "purpose", "lab", "package", "depth", "bags"],
  season: ["field", "year", "crop"],
};

export interface NewArguments {
  readonly kind: Kind;
  readonly given: Readonly<Record<string, string>>;
  /** Options that this kind does not have, a line each: told together with what is missing. */
  readonly faults: readonly string[];
  readonly content: string;
}

/** Take out what is no option of this kind, with the value behind it. */
const known = (args: readonly string[], names: readonly string[]): { kept: string[]; odd: string[] } => {
  const kept: string[] = [];
  const odd: string[] = [];
  for (let i = 0; i < args.length; i++) {
    const arg = args[i]!;
    const name = /^--([^=]+)/.exec(arg)?.[1];
    if (name === undefined || names.includes(name)) {
      kept.push(arg);
      // The value of an option that is known, whatever it looks like, is for the parser to judge.
      if (name !== undefined && !arg.includes("=") && i + 1 < args.length) kept.push(args[++i]!);
    } else {
      odd.push(name);
      if (!arg.includes("=") && args[i + 1]?.startsWith("--") === false) i++;
    }
  }
  return { kept, odd };
};

/** `npm run new -- kind --flag value ...` */
export const newArguments = (argv: readonly string[]): NewArguments => {
  const [first = ""] = argv;
  // An option says nothing of what to make: "--field north" may belong to a sampling or to a season.
  const word = first.startsWith("-") ? "" : first;
  const kind = choice(word, kinds) as Kind | undefined;
  if (!kind) throw new UsageError(`say what to make, first of all: ${allowedWords(word, kinds)}`);
  const names = [...flags[kind], "content"];
  const options = names.map((name) => `--${name}`).join(", ");
  const { kept, odd } = known(argv.slice(1), names);
  const { values } = parsedArguments(kept, Object.fromEntries(names.map((name) => [name, { type: "string" as const }])), {
    of: ` of ${kind}`,
  });
  const { content, ...given } = values as Record<string, string | undefined>;
  const faults = odd.map((name) => {
    const meant = nearMiss(name, names);
    return `--${name}: is no option of ${kind}; ${meant ? `did you mean --${meant}?` : `allowed: ${options}`}`;
  });
  return {
    kind,
    given: Object.fromEntries(Object.entries(given).map(([flag, value]) => [flag, value!.trim()])),
    faults,
    content: farmFolderOf(content),
  };
};
