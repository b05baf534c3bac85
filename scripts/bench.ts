import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { generateFarm } from "../tests/support/generateFarm.ts";
import { histories } from "./benchHistories.ts";
import { filesBelow } from "./checkLinks.ts";
import type { Command } from "./command.ts";
import { installation, optionsHelp, readOptions } from "./options.ts";

/**
 * Times are of this run on this machine and mean nothing alone; the ratios do. Each side runs three times in turn,
 * in a process of its own, and the median counts.
 */
const rounds = 3;

interface Timed {
  readonly seconds: number;
  /** Seconds of work of all cores together. */
  readonly work: number;
  readonly megabytes: number;
}

const median = (runs: readonly Timed[]): Timed => [...runs].sort((a, b) => a.seconds - b.seconds)[Math.floor(runs.length / 2)]!;

/** Run a piece of module code in a fresh process and take its own time and peak memory. */
const timed = (code: string, env: Record<string, string> = {}): Timed => {
  const wrapped = `const began = performance.now();\n${code}\nconst { user, system } = process.cpuUsage();\nprocess.stdout.write("\\n" + JSON.stringify({ seconds: (performance.now() - began) / 1000, work: (user + system) / 1e6, megabytes: process.resourceUsage().maxRSS / 1024 }));`;
  const { stdout, stderr, status } = spawnSync(process.execPath, ["--input-type=module", "-e", wrapped], {
    cwd: installation,
    encoding: "utf8",
    env: { ...process.env, ASTRO_TELEMETRY_DISABLED: "1", ...env },
    maxBuffer: 1e8,
  });
  if (status !== 0) throw new Error(`a measured run failed:\n${stderr || stdout}`);
  return JSON.parse(stdout.trim().split("\n").at(-1)!) as Timed;
};

/** Full samples interpreted in a second by one core, every step built; the best of the rounds, since a busy machine only slows. */
const interpretations = (): number => {
  const [advise, sample] = ["src/interpretation/advise.ts", "tests/support/fullSample.ts"].map((file) =>
    JSON.stringify(join(installation, file)),
  );
  const code = `const { advise } = await import(${advise!}); const { fullSample } = await import(${sample!});
for (let i = 0; i < 20000; i++) advise(fullSample);
const began = performance.now();
for (let i = 0; i < 100000; i++) advise(fullSample);
process.stdout.write(String(100000 / ((performance.now() - began) / 1000)));`;
  const runs = Array.from({ length: rounds }, () => {
    const { stdout, stderr, status } = spawnSync(process.execPath, ["--input-type=module", "-e", code], {
      cwd: installation,
      encoding: "utf8",
    });
    if (status !== 0) throw new Error(`a measured run failed:\n${stderr}`);
    return Number(stdout);
  });
  return Math.max(...runs);
};

const inTurn = (first: () => Timed, second: () => Timed): [Timed, Timed] => {
  const runs = Array.from({ length: rounds }, () => [first(), second()] as const);
  return [median(runs.map(([a]) => a)), median(runs.map(([, b]) => b))];
};

const line = (what: string, t: Timed): string =>
  `  ${what.padEnd(46)}${t.seconds.toFixed(2).padStart(7)} s ${t.work.toFixed(2).padStart(7)} s of work ${t.megabytes.toFixed(0).padStart(6)} MB`;

const about = optionsHelp(
  "bench",
  "Interprets one sample over and over, then builds and reads a made-up farm of 200 fields with 10 samplings each, and prints how that compares with the least that could be done.",
  [],
);

const run = (argv: readonly string[]): number => {
  readOptions(argv, []);
  console.log("Interpreting one full Tri-State sample over and over, on one core");
  console.log(`  ${Math.round(interpretations() / 100) * 100} samples a second, with every worked step (aim: 50000)\n`);
  console.log("Judging the histories of 1,000 zones with 15 samplings each, on one core");
  const { perSecond, growth } = histories();
  console.log(`  ${Math.round(perSecond / 100) * 100} histories a second; 1,000 zones take ${growth.toFixed(2)} times as long as 500\n`);
  const home = mkdtempSync(join(tmpdir(), "field-history-bench-"));
  const bare = mkdtempSync(join(installation, "node_modules", ".cache-bare-"));
  try {
    const content = join(home, "farm");
    const site = join(home, "site");
    for (const [path, text] of generateFarm({ seed: 1, fields: 200, samplings: 10 })) {
      mkdirSync(dirname(join(content, path)), { recursive: true });
      writeFileSync(join(content, path), text);
    }
    const records = filesBelow(content).filter((f) => f.endsWith(".yaml"));
    console.log(`A made-up farm: 200 fields, 10 samplings each, ${records.length} YAML files. Median of ${rounds} runs in turn.\n`);

    const listed = join(home, "records.json");
    writeFileSync(listed, JSON.stringify(records.map((r) => join(content, r))));
    const modules = JSON.stringify(join(installation, "src/records/reading/readFarm.ts"));
    const [yamlOnly, reading] = inTurn(
      () =>
        timed(
          `const { parse } = await import("yaml"); const { readFileSync } = await import("node:fs"); for (const f of JSON.parse(readFileSync(${JSON.stringify(listed)}, "utf8"))) parse(readFileSync(f, "utf8"));`,
        ),
      () =>
        timed(
          `const { readFarm } = await import(${modules}); const r = readFarm({ content: ${JSON.stringify(content)}, library: ${JSON.stringify(join(installation, "content"))} }); if (!r.farm) throw new Error("the made-up farm has errors");`,
        ),
    );
    console.log("Reading and checking the records");
    console.log(line("bare yaml parse of the same files", yamlOnly));
    console.log(line("reading, checking, joining", reading));
    console.log(`  ratio ${(reading.seconds / yamlOnly.seconds).toFixed(2)} (aim: at most 1.30)\n`);

    const build = (): Timed =>
      timed(
        `const { command } = await import(${JSON.stringify(join(installation, "scripts/build.ts"))}); if ((await command.run(["--content", ${JSON.stringify(content)}, "--out", ${JSON.stringify(site)}])) !== 0) throw new Error("the made-up farm does not build");`,
      );
    build();
    prepareBare(bare, site);
    const [render, whole] = inTurn(
      () => timed(`const { build } = await import("astro"); await build({ root: ${JSON.stringify(bare)}, logLevel: "error" });`),
      build,
    );
    const pages = filesBelow(site).filter((f) => f.endsWith(".html"));
    const kilobytes = pages.reduce((sum, p) => sum + readFileSync(join(site, p)).length, 0) / 1024;
    console.log(`Building ${pages.length} pages, ${(kilobytes / pages.length).toFixed(1)} kB each`);
    console.log(line("bare Astro render of the same HTML", render));
    console.log(line("this build, reading and link check included", whole));
    console.log(
      `  ratio ${(whole.seconds / render.seconds).toFixed(2)} (aim: at most 1.50); of work, all cores together, ${(whole.work / render.work).toFixed(2)}`,
    );
    return 0;
  } finally {
    rmSync(home, { recursive: true, force: true });
    rmSync(bare, { recursive: true, force: true });
  }
};

/** An Astro project that does nothing but write out the finished pages of the site, read from files. */
function prepareBare(root: string, site: string): void {
  mkdirSync(join(root, "src", "pages"), { recursive: true });
  const pages = filesBelow(site).filter((f) => f.endsWith(".html"));
  writeFileSync(
    join(root, "astro.config.mjs"),
    `export default { outDir: "./dist", build: { format: "preserve", concurrency: 16 }, compressHTML: true, devToolbar: { enabled: false } };`,
  );
  writeFileSync(
    join(root, "src", "pages", "[...page].astro"),
    `---
import { readFileSync } from "node:fs";
export const getStaticPaths = () => ${JSON.stringify(pages.map((p) => ({ params: { page: p === "index.html" ? null : p.replace(/\.html$/, "") } })))}.map(({ params: { page } }) => ({ params: { page: page ?? undefined } }));
const html = readFileSync(${JSON.stringify(`${site}/`)} + (Astro.params.page ?? "index") + ".html", "utf8");
---
<Fragment set:html={html} />`,
  );
}

export const command: Command = { about, run };
