import { Random } from "./random.ts";

type Slip = (text: string, random: Random) => string;

const onLines =
  (change: (lines: string[], at: number, random: Random) => void): Slip =>
  (text, random) => {
    const lines = text.split("\n");
    change(lines, random.below(lines.length), random);
    return lines.join("\n");
  };

/** Characters that mean something to YAML, JSON, HTML or a terminal, and some that mean nothing anywhere. */
const odd = ["&", "*", "!", "%", "@", "`", "[", "{", "]", "}", ":", ",", "#", '"', "'", "<", ">", "|", "-", "?", "\t", "\r", "\n", "\0", "\u0007", "\u0085", "\u2028", "\u202e", "\ufeff", "\ufffd", "é", "😀"];
const wrongIds = ["nowhere", "North", "../up", "constructor", "__proto__", "zone-99", "0012", "null", "true", "1e999", ".nan", "-1", "", "~", "2025-02-30", '"<3"', "6,3", "[]", "{}"];
const value = /^(\s*(?:- )?[\w-]+: )(.+)$/;

const slips: readonly Slip[] = [
  onLines((lines, at) => void lines.splice(at, 1)),
  onLines((lines, at) => void lines.splice(at, 0, lines[at] ?? "")),
  onLines((lines, at, random) => void (lines[at] = `${" ".repeat(random.below(4))}${lines[at] ?? ""}`)),
  onLines((lines, at, random) => {
    const other = random.below(lines.length);
    const [a, b] = [value.exec(lines[at] ?? ""), value.exec(lines[other] ?? "")];
    if (a && b) [lines[at], lines[other]] = [a[1]! + b[2]!, b[1]! + a[2]!];
  }),
  onLines((lines, at, random) => void (lines[at] = (lines[at] ?? "").replace(value, (_, key: string) => key + random.pick(wrongIds)))),
  (text, random) => text.slice(0, random.below(text.length + 1)),
  (text, random) => {
    const at = random.below(text.length + 1);
    return text.slice(0, at) + random.pick(odd) + text.slice(at + 1);
  },
  (text, random) => {
    const at = random.below(text.length + 1);
    const bytes = Array.from({ length: 1 + random.below(20) }, () => String.fromCharCode(random.below(256))).join("");
    return text.slice(0, at) + bytes + text.slice(at);
  },
];

/** The files with `howMany` slips of the finger in them, now and then a file lost or misnamed. Same seed, same slips. */
export const corrupt = (files: ReadonlyMap<string, string>, seed: number, howMany: number): Map<string, string> => {
  const random = new Random(seed);
  const result = new Map(files);
  for (let i = 0; i < howMany && result.size > 0; i++) {
    const file = random.pick([...result.keys()]);
    const text = result.get(file) ?? "";
    if (random.chance(0.95)) {
      result.set(file, random.pick(slips)(text, random));
      continue;
    }
    result.delete(file);
    if (random.chance(0.5)) result.set(file.replace(/[^/]$/, ""), text);
  }
  return result;
};
