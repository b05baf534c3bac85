import { once } from "node:events";
import { parentPort, workerData } from "node:worker_threads";
import { setFarm } from "../src/handover.ts";
import type { Farm } from "../src/records/model.ts";
import type { Answered, Errand } from "./sharedRendering.ts";

/** What this thread needs of the built pages: Astro's own entry, as its default prerenderer uses it. */
interface Entry {
  readonly app: {
    setInternals(internals: unknown): void;
    setOptions(options: unknown): void;
    render(request: Request, options: { routeData: unknown }): Promise<Response>;
    readonly manifest: { readonly routes: readonly { readonly routeData: { readonly component: string } }[] };
  };
}

/** Beside a build: render the pages that are asked for, from a copy of its farm. */
const port = parentPort!;
setFarm(workerData as Farm);
const [address] = (await once(port, "message")) as [string];
const { app } = (await import(address)) as Entry;
// No page has styles or scripts of Astro's own, which is all that it would look for here.
app.setInternals({ pagesByKeys: new Map() });
app.setOptions({ settings: { scripts: [] }, logger: { options: { destination: { write: () => true } } } });
const routes = new Map(app.manifest.routes.map(({ routeData }) => [routeData.component, routeData]));

const render = async ({ id, url, component }: Errand): Promise<void> => {
  try {
    const response = await app.render(new Request(url), { routeData: routes.get(component) });
    const body = await response.arrayBuffer();
    port.postMessage({ id, status: response.status, type: response.headers.get("content-type") ?? "", body } satisfies Answered, [body]);
  } catch (error) {
    port.postMessage({ id, error } satisfies Answered);
  }
};
port.on("message", (errand: Errand) => void render(errand));
