import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { replaceFile } from "../src/records/wholeWrite.ts";
import { buildSite } from "./build.ts";
import { findChromium, startChromium } from "./chromium.ts";
import type { Command } from "./command.ts";
import { installation, UsageError } from "./options.ts";

const about = `npm run pictures

Builds the demo farm and takes the README's pictures of it anew, into .github/pictures: the upper part of its home page, a field and
a summary, and the map of a plan, in light colors. Needs Chromium: CHROMIUM_PATH, or one of the usual places.`;

const size = { width: 1280, height: 960 } as const;
const pages = {
  home: ["index.html", ""],
  field: ["fields/causeway.html", ""],
  summary: ["fields/causeway/summary.html", ""],
  plan: ["fields/netloft/plan.html", "#map"],
} as const;

const run = async (argv: readonly string[]): Promise<number> => {
  if (argv.length > 0) throw new UsageError(`pictures takes no options but --help, and not "${argv[0]!}"`);
  const executablePath = findChromium();
  if (executablePath === undefined)
    throw new UsageError(
      "Taking pictures needs Chromium: install it (Debian: apt-get install chromium) or set CHROMIUM_PATH to its program.",
    );
  const site = mkdtempSync(join(tmpdir(), "field-history-pictures-"));
  try {
    if ((await buildSite({ content: join(installation, "content"), out: site, today: undefined, audience: undefined })) === undefined)
      return 1;
    await take(executablePath, site, join(installation, ".github", "pictures"));
    return 0;
  } finally {
    rmSync(site, { recursive: true, force: true });
  }
};

/** JPEG, half the weight of PNG here: the README should open at once. */
async function take(executablePath: string, site: string, out: string): Promise<void> {
  const browser = await startChromium(executablePath);
  try {
    const context = await browser.newContext({ viewport: size, javaScriptEnabled: false });
    for (const [name, [path, anchor]] of Object.entries(pages)) {
      const page = await context.newPage();
      await page.goto(`${pathToFileURL(join(site, path)).href}${anchor}`);
      const bytes = await page.screenshot({ type: "jpeg", quality: 50 });
      replaceFile(join(out, `${name}.jpg`), bytes);
      console.log(`.github/pictures/${name}.jpg, ${Math.ceil(bytes.length / 1024)} kB`);
      await page.close();
    }
  } finally {
    await browser.close();
  }
}

export const command: Command = { about, run };
