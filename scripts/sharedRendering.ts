import { readdirSync } from "node:fs";
import { availableParallelism } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { Worker } from "node:worker_threads";
import type { AstroIntegration, AstroPrerenderer } from "astro";
import type { Farm } from "../src/records/model.ts";

/** A thread pays for its start, which is loading the pages' code and a copy of the farm, with about so many files rendered. */
const filesToPay = 1000;

/** How many threads help to render so many files: none for a small farm, and never more than there are other cores. */
export const helpersFor = (files: number, cores = availableParallelism()): number => Math.max(0, Math.min(cores - 1, Math.floor(files / filesToPay)));

type Render = AstroPrerenderer["render"];
type Rendered = Awaited<ReturnType<Render>>;

/** What a helper is told to render, and what it answers: a body, or the error that stopped it. */
export interface Errand {
  readonly id: number;
  readonly url: string;
  /** The page's source, "src/pages/index.astro", by which its route is found. */
  readonly component: string;
}
export type Answered = { readonly id: number } & ({ readonly status: number; readonly type: string; readonly body: ArrayBuffer } | { readonly error: unknown });

interface Job {
  readonly request: Request;
  readonly options: Parameters<Render>[1];
  readonly resolve: (rendered: Rendered) => void;
  readonly reject: (cause: unknown) => void;
}

/** So many errands lie ready at a helper that it never waits while this thread renders a page of its own. */
const ready = 8;

/** Pages of what this thread has worked out already: the check values, and what it took to list the rate maps and the guidelines. */
const onlyHere = (component: string): boolean => /\/(checks|compare|guidelines|rates|season|spreader-sheets)\b/.test(component);

/** Pages of the whole farm first, then each field's own: these work out most and keep it, so they stay together with the helpers. */
const rank = (component: string): number => (!component.includes("[") || component.includes("/calendar/") ? 0 : component.endsWith("fields/[field].astro") || component.endsWith("balance.csv.ts") ? 1 : 2);

/**
 * Render the pages in several threads: the helpers take them from the front of one queue, this thread from its back, until they
 * meet. Astro asks for every page at once and writes each as it comes; what a page says depends on the farm alone, so the
 * site is the same however the pages were shared out. `work`: the folder Astro writes into.
 */
export const sharedRendering = (farm: Farm, work: string, helpers: number): { integration: AstroIntegration; stop: () => Promise<unknown> } => {
  const workers = Array.from({ length: helpers }, () => new Worker(new URL("renderWorker.ts", import.meta.url), { workerData: farm, execArgv: [] }));
  const queue: Job[] = [];
  const here: Job[] = [];
  const out = new Map<number, Job>();
  const load = new Map<Worker, number>(workers.map((w) => [w, 0]));
  let begun = false;
  let next = 0;

  const send = (worker: Worker): void => {
    while (load.get(worker)! < ready) {
      const job = queue.shift();
      if (!job) return;
      const errand: Errand = { id: next++, url: job.request.url, component: job.options.routeData.component };
      out.set(errand.id, job);
      load.set(worker, load.get(worker)! + 1);
      worker.postMessage(errand);
    }
  };

  const receive = (worker: Worker, answered: Answered): void => {
    const job = out.get(answered.id)!;
    out.delete(answered.id);
    load.set(worker, load.get(worker)! - 1);
    send(worker);
    if ("error" in answered) job.reject(answered.error);
    else job.resolve(new Response(answered.body, { status: answered.status, headers: { "content-type": answered.type } }));
  };

  const begin = async (render: Render): Promise<void> => {
    queue.sort((a, b) => rank(a.options.routeData.component) - rank(b.options.routeData.component));
    workers.forEach(send);
    for (let job = here.pop() ?? queue.pop(); job; job = here.pop() ?? queue.pop()) {
      await render(job.request, job.options).then(job.resolve, job.reject);
      // Let what has come in from the helpers be written.
      await new Promise(setImmediate);
    }
    begun = false;
  };

  const setup = (): void => {
    const folder = join(work, ".prerender");
    const entry = readdirSync(folder).find((name) => name.startsWith("prerender-entry."))!;
    for (const worker of workers) {
      worker.postMessage(pathToFileURL(join(folder, entry)).href);
      worker.on("message", (answered: Answered) => receive(worker, answered));
      worker.on("error", (cause) => {
        for (const job of out.values()) job.reject(cause);
      });
    }
  };

  const integration: AstroIntegration = {
    name: "shared-rendering",
    hooks: {
      "astro:build:start": ({ setPrerenderer }) =>
        setPrerenderer((alone) => ({
          ...alone,
          setup: async () => {
            await alone.setup?.();
            setup();
          },
          render: (request, options) =>
            new Promise((resolve, reject) => {
              (onlyHere(options.routeData.component) ? here : queue).push({ request, options, resolve, reject });
              if (begun) return;
              begun = true;
              setImmediate(() => void begin((r, o) => alone.render(r, o)));
            }),
        })),
    },
  };
  return { integration, stop: () => Promise.all(workers.map((w) => w.terminate())) };
};
