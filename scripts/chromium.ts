import { spawnSync } from "node:child_process";
import { accessSync, constants, existsSync, statSync } from "node:fs";
import type { Browser } from "playwright-core";
import { UsageError } from "./options.ts";

const usualPlaces = [
  "/usr/bin/chromium",
  "/usr/bin/chromium-browser",
  "/usr/bin/google-chrome",
  "/snap/bin/chromium",
  "/opt/google/chrome/chrome",
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
  "C:\\Program Files\\Chromium\\Application\\chrome.exe",
  "C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe",
];

const runs = (path: string): boolean => {
  try {
    accessSync(path, constants.X_OK);
    return statSync(path).isFile();
  } catch {
    return false;
  }
};

/** The browser to test with: CHROMIUM_PATH, or one of the usual places. */
export const findChromium = (): string | undefined => {
  const given = process.env["CHROMIUM_PATH"];
  if (given !== undefined && given !== "") return runs(given) ? given : undefined;
  return usualPlaces.find(runs);
};

export const chromiumAdvice =
  "The browser tests need Chromium: install it (Debian: apt-get install chromium) or set CHROMIUM_PATH to its program.";

/** Find Chromium, or install Debian's where this is Debian and we may; `undefined` when neither works. */
export const findOrInstallChromium = (): string | undefined => {
  const found = findChromium();
  if (found !== undefined || process.env["CHROMIUM_PATH"]) return found;
  if (!existsSync("/etc/debian_version") || process.getuid?.() !== 0) return undefined;
  console.log("No Chromium here; installing Debian's for the browser tests.");
  const quiet = {
    stdio: ["ignore", "ignore", "inherit"] as ("ignore" | "inherit")[],
    env: { ...process.env, DEBIAN_FRONTEND: "noninteractive" },
  };
  spawnSync("apt-get", ["update", "-qq"], quiet);
  spawnSync("apt-get", ["install", "-y", "-qq", "--no-install-recommends", "chromium", "fonts-liberation"], quiet);
  return findChromium();
};

/** Flags that keep Chromium quiet where there is no network, and let it run as root. */
export const chromiumFlags = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

/** Start Chromium, told by its first line where it does not start: `CHROMIUM_PATH` may name any program. */
export const startChromium = async (executablePath: string): Promise<Browser> => {
  const { chromium } = await import("playwright-core");
  try {
    return await chromium.launch({ executablePath, args: chromiumFlags });
  } catch (cause) {
    const [why = ""] = (cause as Error).message.replace(/^browserType\.launch: /, "").split("\n");
    throw new UsageError(`${executablePath} did not start as Chromium does (${why}); set CHROMIUM_PATH to Chromium's program`);
  }
};
