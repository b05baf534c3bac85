import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { formatProblems } from "../src/records/problem.ts";
import { readFarm } from "../src/records/readFarm.ts";
import { filesOf, rateFiles } from "../src/views/seasonMapFiles.ts";
import { counted, installation, readOptions, run } from "./options.ts";

const about = `Writes the season's rate maps, one of each product and nutrient, as CSV, GeoJSON and zipped shapefile, into a folder for
each choice of units. They hold the zones' boundaries whether or not the site publishes where the farm lies.`;

/** Files of these names are replaced; nothing else in the folder is touched. */
await run(() => {
  const { content, out, today } = readOptions("rates", about, ["content", "out", "today"], [...(process.argv.some((a) => a.startsWith("--out")) ? [] : ["--out", "rate-maps"]), ...process.argv.slice(2)]);
  const { farm, problems } = readFarm({ content, library: join(installation, "content"), today });
  if (problems.length > 0) console.error(formatProblems(problems));
  if (!farm) return 1;
  const maps = rateFiles(farm, true);
  for (const files of maps) {
    const folder = join(out, files.map.units);
    mkdirSync(folder, { recursive: true });
    for (const { file, content: bytes } of filesOf(files)) writeFileSync(join(folder, file), bytes);
  }
  console.log(`${counted(maps.length, "rate map")} in ${out}, as CSV, GeoJSON and zipped shapefile.`);
  return 0;
});
