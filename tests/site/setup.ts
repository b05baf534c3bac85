import { execFile } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { chromium } from "playwright-core";
import type { TestProject } from "vitest/node";
import { chromiumAdvice, chromiumFlags, findChromium } from "../../scripts/chromium.ts";
import { installation } from "../../scripts/options.ts";

declare module "vitest" {
  interface ProvidedContext {
    /** The demo farm's site, in a folder whose name needs encoding. */
    site: string;
    /** What a failed build said, once it has failed. */
    failure: string;
    browser: string;
  }
}

/** Begin to build the demo farm once, into a folder with an awkward name, and start one browser for every browser test. */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const executablePath = findChromium();
  if (executablePath === undefined) throw new Error(chromiumAdvice);
  const home = mkdtempSync(join(tmpdir(), "field-history-site-"));
  const site = join(home, "US B #1 50% ü");
  const failure = join(home, "failure.txt");
  const build = execFile(process.execPath, [join(installation, "scripts", "main.ts"), "build", "--out", site], (error, stdout, stderr) => {
    if (error) writeFileSync(failure, `${stdout}${stderr}`);
  });
  const browser = await chromium.launchServer({ executablePath, args: chromiumFlags });
  project.provide("site", site);
  project.provide("failure", failure);
  project.provide("browser", browser.wsEndpoint());
  return async () => {
    build.kill();
    await browser.close();
    rmSync(home, { recursive: true, force: true });
  };
}
