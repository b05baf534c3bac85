import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { expect, it } from "vitest";
import { parse } from "yaml";
import { installation } from "../../scripts/options.ts";
import { temporaryFolder } from "../support/farmFolder.ts";
import { tinyFarm } from "../support/tinyFarm.ts";

interface Job {
  readonly if?: string;
  readonly needs?: string;
  readonly steps: readonly { readonly run?: string; readonly uses?: string; readonly with?: Record<string, unknown> }[];
}

const read = (file: string): string => readFileSync(join(installation, file), "utf8");

it("the workflow runs commands there are, with the host's own actions by major version, and publishes only what was asked for", () => {
  const { jobs, permissions } = parse(read(".github/workflows/site.yml")) as { jobs: Record<"build" | "publish", Job>; permissions: unknown };
  const { scripts } = JSON.parse(read("package.json")) as { scripts: Record<string, string> };
  const runs = jobs.build.steps.flatMap((step) => step.run ?? []);
  expect(runs).toEqual(["npm ci", "npm run check", "npm run build"]);
  for (const run of runs.slice(1)) expect(scripts).toHaveProperty(run.replace("npm run ", ""));
  for (const { steps } of Object.values(jobs)) for (const { uses } of steps) if (uses !== undefined) expect(uses).toMatch(/^actions\/[a-z-]+@v\d+$/);
  expect(permissions).toEqual({ contents: "read" });
  expect(jobs.build.steps.at(-1)!.with).toEqual({ path: "dist" });
  expect(jobs.publish).toMatchObject({ needs: "build", if: "github.ref == 'refs/heads/main' && vars.PUBLISH_SITE == 'true'" });
});

it("the README's Makefile builds farms side by side, and one farm's mistake stops no other", { timeout: 120_000 }, () => {
  const home = temporaryFolder();
  for (const farm of ["east", "west", "wrong"])
    for (const [file, text] of Object.entries(tinyFarm)) {
      const full = join(home, "farms", farm, file);
      mkdirSync(dirname(full), { recursive: true });
      writeFileSync(full, farm === "wrong" && file === "farm.yaml" ? `${text}colour: red\n` : text);
    }
  const [, makefile] = /```make\n# Makefile\n(.*?)```/s.exec(read("README.md"))!;
  expect(makefile!.trimEnd().split("\n").length).toBeLessThanOrEqual(6);
  writeFileSync(join(home, "Makefile"), makefile!);
  const { status, stdout, stderr } = spawnSync("make", ["-k", "-j2", `PROGRAM=${installation}`], { cwd: home, encoding: "utf8" });
  expect(status, stderr).toBe(2);
  expect(stdout.match(/Tiny Farm: 1 field, 2 samplings/g)).toHaveLength(2);
  expect(stderr).toContain("farm.yaml:14:1: colour: is not a key known here");
  expect(["east", "west", "wrong"].map((farm) => existsSync(join(home, "sites", farm, "index.html")))).toEqual([true, true, false]);
});
