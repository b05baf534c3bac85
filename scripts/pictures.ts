import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { chromiumFlags, findChromium } from "./chromium.ts";
import { installation, run, UsageError } from "./options.ts";
import { writeWhole } from "./wholeFile.ts";

const about = `npm run pictures

Builds the demo farm and takes the README's pictures of it anew, into .github/pictures: the upper part of its home page, a field, a
summary and a plan, in light colors. Needs Chromium: CHROMIUM_PATH, or one of the usual places.`;

const size = { width: 1120, height: 840 } as const;
const pages = {
  home: "index.html",
  field: "fields/causeway.html",
  summary: "fields/causeway/summary.html",
  plan: "fields/netloft/plan.html",
} as const;

await run(async () => {
  const argv = process.argv.slice(2);
  if (argv.includes("--help") || argv.includes("-h")) {
    console.log(about);
    return 0;
  }
  if (argv.length > 0) throw new UsageError(`pictures takes no options but --help, and not "${argv[0]!}"`);
  const executablePath = findChromium();
  if (executablePath === undefined) throw new UsageError("Taking pictures needs Chromium: install it (Debian: apt-get install chromium) or set CHROMIUM_PATH to its program.");
  const site = mkdtempSync(join(tmpdir(), "field-history-pictures-"));
  try {
    const built = spawnSync(process.execPath, [join(installation, "scripts", "build.ts"), "--content", join(installation, "content"), "--out", site], { stdio: ["ignore", "ignore", "inherit"] });
    if (built.status !== 0) return 1;
    await take(executablePath, site, join(installation, ".github", "pictures"));
    return 0;
  } finally {
    rmSync(site, { recursive: true, force: true });
  }
});

/** WebP, because the four together must not weigh more than the README's text deserves; playwright itself offers only PNG and JPEG. */
async function take(executablePath: string, site: string, out: string): Promise<void> {
  const { chromium } = await import("playwright-core");
  const browser = await chromium.launch({ executablePath, args: chromiumFlags });
  mkdirSync(out, { recursive: true });
  try {
    const context = await browser.newContext({ viewport: size, javaScriptEnabled: false });
    for (const [name, path] of Object.entries(pages)) {
      const page = await context.newPage();
      await page.goto(pathToFileURL(join(site, path)).href);
      const session = await context.newCDPSession(page);
      const { data } = await session.send("Page.captureScreenshot", { format: "webp", quality: 60 });
      const bytes = Buffer.from(data, "base64");
      writeWhole(join(out, `${name}.webp`), bytes);
      console.log(`.github/pictures/${name}.webp, ${Math.ceil(bytes.length / 1024)} kB`);
      await page.close();
    }
  } finally {
    await browser.close();
  }
}
