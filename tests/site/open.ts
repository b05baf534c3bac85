import { createServer, type Server } from "node:http";
import { readFileSync, statSync } from "node:fs";
import type { AddressInfo } from "node:net";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { chromium, type Browser, type BrowserContextOptions, type Page } from "playwright-core";
import { inject } from "vitest";

let running: Promise<Browser> | undefined;
/** The browser of every browser test. */
export const connect = (): Promise<Browser> => (running ??= chromium.connect(inject("browser")));

export interface Opened {
  readonly page: Page;
  /** Console errors, page errors and failed requests so far; a clean page has none. */
  readonly trouble: string[];
  /** Every address asked for. */
  readonly asked: string[];
}

const tabs = new Map<string, Promise<Opened>>();
const usual = { viewport: { width: 1280, height: 900 }, colorScheme: "light", reducedMotion: "no-preference" } as const;

/**
 * A page that takes note of everything that goes wrong on it. It is the tab that a test before has left, if one was opened with the
 * same options, and as it was when new: to Chromium a new tab is a new process, which takes longer than most pages take to load.
 */
export const openPage = async (options: BrowserContextOptions = {}): Promise<Opened> => {
  const known = JSON.stringify(options);
  const left = tabs.get(known);
  if (left === undefined) {
    const fresh = openTab({ ...usual, ...options });
    tabs.set(known, fresh);
    return fresh;
  }
  const { page, trouble, asked } = await left;
  await page.goto("about:blank");
  const { viewport, colorScheme, reducedMotion } = { ...usual, ...options };
  await page.setViewportSize(viewport!);
  await page.emulateMedia({ media: null, colorScheme, reducedMotion });
  await page.mouse.move(0, 0);
  trouble.length = asked.length = 0;
  return { page, trouble, asked };
};

const openTab = async (options: BrowserContextOptions): Promise<Opened> => {
  const context = await (await connect()).newContext(options);
  const page = await context.newPage();
  const trouble: string[] = [];
  const asked: string[] = [];
  page.on("console", (m) => {
    if (m.type() === "error" || m.type() === "warning") trouble.push(`console: ${m.text()}`);
  });
  page.on("pageerror", (e) => trouble.push(`page: ${e.message}`));
  page.on("requestfailed", (r) => trouble.push(`failed: ${r.url()}`));
  page.on("response", (r) => {
    if (r.status() >= 400) trouble.push(`${r.status()}: ${r.url()}`);
  });
  page.on("request", (r) => asked.push(r.url()));
  return { page, trouble, asked };
};

/** At the end of a file of tests: what it did to its tabs is nothing to the next. */
export const closeBrowser = async (): Promise<void> => {
  const browser = running;
  running = undefined;
  tabs.clear();
  await (await browser)?.close();
};

export const fileAddress = (path: string): string => pathToFileURL(join(inject("site"), path)).href;

const types: Record<string, string> = { html: "text/html", css: "text/css", js: "text/javascript", csv: "text/csv" };

/** A plain static host: the site below /a/b/, no directory index, nothing else. */
export const serve = async (): Promise<{ server: Server; address: (path: string) => string }> => {
  const site = inject("site");
  const server = createServer((request, response) => {
    const path = decodeURIComponent(new URL(request.url ?? "/", "http://localhost").pathname);
    const file = path.startsWith("/a/b/") ? join(site, path.slice(5)) : "";
    try {
      if (!statSync(file).isFile()) throw new Error("not a file");
      response.writeHead(200, { "content-type": types[file.split(".").at(-1) ?? ""] ?? "application/octet-stream" });
      response.end(readFileSync(file));
    } catch {
      response.writeHead(404);
      response.end();
    }
  });
  await new Promise<void>((ready) => server.listen(0, "127.0.0.1", ready));
  const { port } = server.address() as AddressInfo;
  return { server, address: (path) => `http://127.0.0.1:${port}/a/b/${path}` };
};
