import { join, resolve } from "node:path";
import { formatProblems } from "../src/records/problem.ts";
import { readFarm } from "../src/records/reading/readFarm.ts";
import { replaceFile } from "../src/records/wholeWrite.ts";
import { leavesOut } from "../src/views/leftOut.ts";
import { filesOf, noRateMap, rateFiles } from "../src/views/season/seasonMapFiles.ts";
import type { Command } from "./command.ts";
import { farmFor } from "./farmFor.ts";
import { counted } from "../src/interpretation/show.ts";
import { dayOf, farmFolderOf, installation, parsedArguments, refuseAmongRecords, standing, UsageError } from "./options.ts";
import { refuseOthers } from "./wholeFolder.ts";

const about = `npm run rates -- [options]

Writes the season's rate maps, one of each product and nutrient, as CSV, GeoJSON and zipped shapefile, into a folder for each choice
of units. They hold the zones' boundaries whether or not the site publishes where the farm lies. Files of the same names are
replaced; nothing else in the folder is touched. The maps for a reader want a folder without any others.

  --out DIR             where they are written (default: rate-maps; for a reader rate-maps-for-NAME)
  --audience NAME       for one reader of farm.yaml's audiences, without what he is not shown
  --today YYYY-MM-DD    the day to speak from (default: the newest date in the records)
  --content DIR         the farm's folder of records (also FIELD_CONTENT; default: the demo farm)
  --help                print this and stop`;

const text = { type: "string" } as const;

const readArguments = (
  argv: readonly string[],
): { out: string; today: string | undefined; content: string | undefined; audience: string | undefined } => {
  const { values } = parsedArguments(argv, { out: text, today: text, content: text, audience: text });
  const { content, audience } = values;
  const out = values.out ?? (audience === undefined ? "rate-maps" : `rate-maps-for-${audience}`);
  if (out === "") throw new UsageError("--out needs a folder");
  return { out: resolve(standing(), out), today: dayOf("today", values.today), content, audience };
};

const run = (argv: readonly string[]): number => {
  const { out, today, content: given, audience } = readArguments(argv);
  const content = farmFolderOf(given);
  refuseAmongRecords(out, content);
  const { farm: whole, problems } = readFarm({ content, library: join(installation, "content"), today });
  if (problems.length > 0) console.error(formatProblems(problems));
  if (!whole) return 1;
  const farm = farmFor(whole, audience, today);
  const maps = rateFiles(farm, !leavesOut(farm, "positions"));
  const files = new Map(maps.flatMap((m) => filesOf(m).map(({ file, content: text }) => [`${m.map.units}/${file}`, text])));
  refuseOthers(out, [...files.keys()], audience);
  for (const [file, text] of files) replaceFile(join(out, ...file.split("/")), text);
  console.log(
    maps.length === 0
      ? noRateMap(farm)
      : `${counted(maps.length, "rate map")} in ${out}, as CSV${leavesOut(farm, "positions") ? " only, because where the fields lie is left out" : ", GeoJSON and zipped shapefile"}.`,
  );
  return 0;
};

export const command: Command = { about, run };
