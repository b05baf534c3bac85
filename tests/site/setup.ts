import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
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
    browser: string;
  }
}

/** Build the demo farm once, into a folder with an awkward name, and start one browser for every browser test. */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const executablePath = findChromium();
  if (executablePath === undefined) throw new Error(chromiumAdvice);
  const home = mkdtempSync(join(tmpdir(), "field-history-site-"));
  const site = join(home, "US B #1 50% ü");
  const built = spawnSync(process.execPath, [join(installation, "scripts", "main.ts"), "build", "--out", site], { encoding: "utf8" });
  if (built.status !== 0) throw new Error(`the demo farm does not build:\n${built.stdout}${built.stderr}`);
  const browser = await chromium.launchServer({ executablePath, args: chromiumFlags });
  project.provide("site", site);
  project.provide("browser", browser.wsEndpoint());
  return async () => {
    await browser.close();
    rmSync(home, { recursive: true, force: true });
  };
}
