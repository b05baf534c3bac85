import { createServer, type Server } from "node:http";
import { readFileSync, statSync } from "node:fs";
import type { AddressInfo } from "node:net";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { chromium, type Browser, type BrowserContextOptions, type Page } from "playwright-core";
import { inject } from "vitest";

export const connect = (): Promise<Browser> => chromium.connect(inject("browser"));

export interface Opened {
  readonly page: Page;
  /** Console errors, page errors and failed requests so far; a clean page has none. */
  readonly trouble: string[];
  /** Every address asked for. */
  readonly asked: string[];
}

/** A fresh page that takes note of everything that goes wrong on it. */
export const openPage = async (browser: Browser, options: BrowserContextOptions = {}): Promise<Opened> => {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, ...options });
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
