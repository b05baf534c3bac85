import { readFileSync } from "node:fs";
import { join, posix } from "node:path";
import { describe, expect, it } from "vitest";
import { filesBelow } from "../scripts/checkLinks.ts";
import { installation } from "../scripts/options.ts";

/** Which rooms of src, and which packages, each room may import. `types:` allows a room for its types only. */
const rules: Record<string, { rooms: string[]; packages: RegExp }> = {
  interpretation: { rooms: ["interpretation"], packages: /^(zod|yalps)$/ },
  // togeojson and xmldom read KML and GPX, fflate packs and unpacks zips: small, without dependencies of their own, and kept up.
  // csv-parse, the reading half of csv-stringify: quotes, line ends within them and limits, with the place of a mistake.
  exchange: { rooms: ["exchange"], packages: /^(geojson|@tmcw\/togeojson|@xmldom\/xmldom|fflate|polylabel|csv-(parse|stringify)\/sync)$/ },
  records: { rooms: ["records", "interpretation", "exchange"], packages: /^(node:|yaml$|js-yaml$|zod$|fastest-levenshtein$|canonicalize$|@turf\/(intersect|kinks|union)$|geojson$)/ },
  views: { rooms: ["views", "interpretation", "exchange", "types:records"], packages: /^$/ },
  client: { rooms: ["client", "types:views"], packages: /^chart\.js$/ },
  styles: { rooms: [], packages: /^$/ },
  components: { rooms: ["components", "views", "interpretation"], packages: /^$/ },
  layouts: { rooms: ["layouts", "components", "views", "types:records"], packages: /^$/ },
  pages: { rooms: ["pages", "layouts", "components", "views", "interpretation", "styles", "site.ts", "handover.ts"], packages: /^(astro|esbuild)$/ },
  "middleware.ts": { rooms: ["components", "site.ts", "types:records"], packages: /^astro$/ },
  "site.ts": { rooms: ["handover.ts", "records", "types:views"], packages: /^node:/ },
  "handover.ts": { rooms: ["types:records", "types:views"], packages: /^$/ },
  "env.d.ts": { rooms: [], packages: /^$/ },
};

/** What a pure room must not touch: the same values in must give the same values out, on any machine, on any day. */
const impure: [RegExp, string][] = [
  [/\bDate\.now\b|\bnew Date\(\s*\)|\bperformance\.now\b/, "the clock"],
  [/\bMath\.random\b|\bcrypto\b/, "chance"],
  [/\bprocess\.|\bimport\.meta\.env\b/, "the process"],
  [/\bfetch\s*\(/, "the network"],
  [/\btoLocale\w*|\bIntl\./, "the locale"],
];
const pureRooms = ["interpretation", "exchange", "views"];

const imports = /^\s*(?:import|export)\s+(type\s+)?(?:[^"';]*?\sfrom\s+)?["']([^"']+)["']|\bimport\(\s*["']([^"']+)["']\s*\)/gm;

/** Every way in which a file breaks the rules of the house, one line each. */
const offences = (file: string, text: string): string[] => {
  const room = file.split("/")[0]!;
  const rule = rules[room];
  if (!rule) return [`${file}: ${room} is no room of this house`];
  const found: string[] = [];
  for (const [, type, from, later] of text.matchAll(imports)) {
    const target = (from ?? later)!;
    if (!target.startsWith(".")) {
      if (!rule.packages.test(target)) found.push(`${file}: imports ${target}`);
      continue;
    }
    const other = posix.normalize(posix.join(posix.dirname(file), target)).split("/")[0]!;
    const allowed = rule.rooms.includes(other) || (type !== undefined && rule.rooms.includes(`types:${other}`));
    if (!allowed) found.push(`${file}: imports ${target}`);
  }
  if (pureRooms.includes(room)) {
    const code = text.replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, "");
    for (const [sign, what] of impure) if (sign.test(code)) found.push(`${file}: touches ${what}`);
  }
  if (room === "records" && !["records/folder.ts", "records/wholeWrite.ts"].includes(file) && /node:fs/.test(text)) found.push(`${file}: touches files beside folder.ts and wholeWrite.ts`);
  if (/(^|\/)(utils?|helpers?|common|lib)(\/|\.)/.test(file)) found.push(`${file}: a name that says nothing`);
  return found;
};

/** The files that each of these imports, types included. */
const importedBy = (textOf: ReadonlyMap<string, string>): Map<string, string[]> =>
  new Map([...textOf].map(([file, text]) => [file, [...text.matchAll(imports)].flatMap(([, , from, later]) => ((from ?? later)!.startsWith(".") ? [posix.join(posix.dirname(file), (from ?? later)!)] : []))]));

/** The same between the folders within a room, and the files that lie beside them: `views/maps` imports `views/advice` and `views/words.ts`. */
const importedByFolder = (byFile: ReadonlyMap<string, readonly string[]>): Map<string, string[]> => {
  const folderOf = (file: string): string => file.split("/").slice(0, 2).join("/");
  const byFolder = new Map<string, string[]>();
  for (const [file, others] of byFile) byFolder.set(folderOf(file), [...(byFolder.get(folderOf(file)) ?? []), ...others.map(folderOf).filter((other) => other !== folderOf(file))]);
  return byFolder;
};

/** Every circle of imports, as the names that it goes through. */
const circles = (importedBy: ReadonlyMap<string, readonly string[]>): string[][] => {
  const found: string[][] = [];
  const done = new Set<string>();
  const visit = (name: string, way: readonly string[]): void => {
    if (way.includes(name)) found.push(way.slice(way.indexOf(name)));
    if (done.has(name)) return;
    done.add(name);
    for (const other of importedBy.get(name) ?? []) visit(other, [...way, name]);
  };
  for (const name of importedBy.keys()) visit(name, []);
  return found;
};

describe("the house", () => {
  const root = join(installation, "src");
  const files = filesBelow(root).filter((f) => /\.(ts|astro)$/.test(f));

  it("has only imports that run one way, and pure rooms that are pure", () => {
    expect(files.length).toBeGreaterThan(80);
    expect(files.flatMap((f) => offences(f, readFileSync(join(root, f), "utf8")))).toEqual([]);
  });

  it("has no files, and no folders within a room, that import each other in a circle", () => {
    const all = importedBy(new Map(files.map((f) => [f, readFileSync(join(root, f), "utf8")])));
    expect(circles(all)).toEqual([]);
    expect(circles(importedByFolder(all))).toEqual([]);
  });

  it("notices a circle of files, and one of folders whose files stand in none", () => {
    const [a, b, c] = ["./b.ts", "./rules/c.ts", "../a.ts"].map((to) => `import type { X } from "${to}";`);
    expect(circles(importedBy(new Map([["views/a.ts", a!], ["views/b.ts", b!], ["views/rules/c.ts", c!]])))).toEqual([["views/a.ts", "views/b.ts", "views/rules/c.ts"]]);
    const apart = importedBy(new Map([["views/maps/a.ts", 'import { x } from "../plan/b.ts";'], ["views/plan/c.ts", 'import { y } from "../maps/d.ts";']]));
    expect([circles(apart), circles(importedByFolder(apart))]).toEqual([[], [["views/maps", "views/plan"]]]);
  });

  it.each([
    ["interpretation/x.ts", 'import { readFarm } from "../records/readFarm.ts";', "interpretation/x.ts: imports ../records/readFarm.ts"],
    ["interpretation/rules/x.ts", 'import { y } from "../../views/y.ts";', "interpretation/rules/x.ts: imports ../../views/y.ts"],
    ["interpretation/x.ts", 'import { readFileSync } from "node:fs";', "interpretation/x.ts: imports node:fs"],
    ["views/x.ts", 'import { readFarm } from "../records/readFarm.ts";', "views/x.ts: imports ../records/readFarm.ts"],
    ["views/x.ts", "const now = Date.now();", "views/x.ts: touches the clock"],
    ["views/x.ts", "const today = new Date();", "views/x.ts: touches the clock"],
    ["exchange/x.ts", "export const r = () => Math.random();", "exchange/x.ts: touches chance"],
    ["views/x.ts", "export const t = (n: number) => n.toLocaleString();", "views/x.ts: touches the locale"],
    ["records/x.ts", 'import { readFileSync } from "node:fs";', "records/x.ts: touches files beside folder.ts and wholeWrite.ts"],
    ["records/x.ts", 'import { fieldView } from "../views/field.ts";', "records/x.ts: imports ../views/field.ts"],
    ["pages/x.astro", 'import { readFarm } from "../records/readFarm.ts";', "pages/x.astro: imports ../records/readFarm.ts"],
    ["pages/x.astro", 'const { readFarm } = await import("../records/readFarm.ts");', "pages/x.astro: imports ../records/readFarm.ts"],
    ["utils/x.ts", "", "utils/x.ts: utils is no room of this house"],
    ["views/helpers.ts", "", "views/helpers.ts: a name that says nothing"],
  ])("notices that %s must not hold %s", (file, text, offence) => {
    expect(offences(file, text)).toContain(offence);
  });

  it("allows a room's types where only types are allowed", () => {
    expect(offences("views/x.ts", 'import type { Farm } from "../records/model.ts";')).toEqual([]);
  });
});
