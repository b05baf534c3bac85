import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { chromiumAdvice, findOrInstallChromium } from "./chromium.ts";
import type { Command } from "./command.ts";
import { installation } from "./options.ts";

const about = `npm test [-- <vitest options and file names>]

Runs every test. The browser tests use Chromium from CHROMIUM_PATH or the usual places; on Debian, as root, it is
installed when it is missing. One file: npm test -- tests/interpretation/show.test.ts
Only what needs no browser: npm test -- --project unit`;

/** Run every test, the browser ones included, and close with one plain line: `N passed, N failed`. */
const run = (args: readonly string[]): number => {
  const chromium = findOrInstallChromium();
  if (chromium === undefined && !args.includes("unit")) {
    console.error(chromiumAdvice);
    return 1;
  }
  const work = mkdtempSync(join(tmpdir(), "field-history-tests-"));
  const report = join(work, "report.json");
  // Many tests start a command in a process of its own: what one has compiled, the next ones find.
  const { status } = spawnSync(
    process.execPath,
    [
      join(installation, "node_modules", "vitest", "vitest.mjs"),
      "run",
      "--config",
      join("tests", "vitest.config.ts"),
      "--reporter=default",
      "--reporter=json",
      `--outputFile.json=${report}`,
      ...args,
    ],
    {
      cwd: installation,
      stdio: "inherit",
      env: { ...process.env, NODE_COMPILE_CACHE: join(work, "compiled"), ...(chromium && { CHROMIUM_PATH: chromium }) },
    },
  );
  try {
    const { numPassedTests, numFailedTests } = JSON.parse(readFileSync(report, "utf8")) as {
      numPassedTests: number;
      numFailedTests: number;
    };
    console.log(`${numPassedTests} passed, ${numFailedTests} failed`);
  } catch {
    console.log("0 passed, 1 failed");
  } finally {
    rmSync(work, { recursive: true, force: true });
  }
  return status ?? 1;
};

export const command: Command = { about, run };
