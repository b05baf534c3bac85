import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { AstroPrerenderer } from "astro";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { helpersFor, sharedRendering } from "../../scripts/sharedRendering.ts";
import type { Farm } from "../../src/records/model.ts";

describe("helpersFor", () => {
  it.each([
    [129, 8, 0],
    [999, 8, 0],
    [1000, 8, 1],
    [2876, 2, 1],
    [2876, 8, 2],
    [2876, 1, 0],
  ])("%i files on %i cores: %i", (files, cores, helpers) => {
    expect(helpersFor(files, cores)).toBe(helpers);
  });
});

/** Built pages in small: each says its address and whether this thread or a helper rendered it; one of them is broken. */
const entry = `import { isMainThread } from "node:worker_threads";
const components = ["src/pages/index.astro", "src/pages/checks.astro", "src/pages/fields/[field].astro", "src/pages/fields/[field]/timeline.astro"];
export const app = {
  manifest: { routes: components.map((component) => ({ routeData: { component } })) },
  setInternals() {},
  setOptions() {},
  async render(request, { routeData }) {
    if (request.url.endsWith("broken")) throw new TypeError("no such field");
    return new Response([request.url, routeData.component, isMainThread ? "here" : "helper"].join(" "), { headers: { "content-type": "text/plain" } });
  },
};`;

describe("sharedRendering", () => {
  let work: string;
  let stop: () => Promise<unknown>;
  let shared: AstroPrerenderer;

  beforeEach(async () => {
    work = mkdtempSync(join(tmpdir(), "field-history-"));
    mkdirSync(join(work, ".prerender"));
    const file = join(work, ".prerender", "prerender-entry.abc.mjs");
    writeFileSync(file, entry);
    const { app } = (await import(file)) as { app: { render: AstroPrerenderer["render"] } };
    const sharing = sharedRendering({ name: "Small farm" } as Farm, work, 2);
    stop = sharing.stop;
    const alone = { name: "alone", getStaticPaths: () => Promise.resolve([]), render: (request: Request, options: Parameters<AstroPrerenderer["render"]>[1]) => app.render(request, options) };
    const begin = sharing.integration.hooks["astro:build:start"]!;
    await begin({ setPrerenderer: (given: unknown) => (shared = (given as (alone: AstroPrerenderer) => AstroPrerenderer)(alone)) } as never);
    await shared.setup!();
  });

  afterEach(async () => {
    await stop();
    rmSync(work, { recursive: true });
  });

  const ask = async (path: string, component: string): Promise<string> => {
    const rendered = await shared.render(new Request(`http://localhost/${path}`), { routeData: { component } as never });
    return (rendered as Response).text();
  };

  it("answers every page with its own words, and the check values here", async () => {
    const components = ["src/pages/checks.astro", "src/pages/fields/[field].astro", "src/pages/fields/[field]/timeline.astro", "src/pages/index.astro"];
    const asked = Array.from({ length: 200 }, (_, i) => ({ path: `page-${i}`, component: components[i % 4]! }));
    const said = await Promise.all(asked.map(({ path, component }) => ask(path, component)));
    said.forEach((text, i) => expect(text).toMatch(new RegExp(`/page-${i} ${asked[i]!.component.replaceAll("[", "\\[")} (here|helper)$`)));
    expect(said.filter((_, i) => i % 4 === 0).every((text) => text.endsWith("here"))).toBe(true);
  });

  it("refuses a page that cannot be rendered, as rendering alone would, and answers the rest", async () => {
    const asked = ["a", "broken", "b"].map((path) => ask(path, "src/pages/index.astro"));
    await expect(asked[1]).rejects.toThrow("no such field");
    expect((await Promise.all([asked[0], asked[2]])).map((text) => text!.split(" ")[0])).toEqual(["http://localhost/a", "http://localhost/b"]);
  });

  it("is asked again after all was answered", async () => {
    await ask("first", "src/pages/index.astro");
    expect(await ask("second", "src/pages/index.astro")).toContain("/second");
  });
});
