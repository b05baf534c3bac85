import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { setTimeout } from "node:timers/promises";
import { afterAll, inject } from "vitest";
import { closeBrowser } from "./open.ts";

/** The demo farm is built while other tests run; a file of browser tests begins once its site is there. */
const [site, failure] = [inject("site"), inject("failure")];
// A build puts its site in place as a whole.
for (let tries = 0; !existsSync(join(site, "index.html")); tries++) {
  if (existsSync(failure) || tries > 6000) throw new Error(`the demo farm does not build:\n${existsSync(failure) ? readFileSync(failure, "utf8") : "it takes too long"}`);
  await setTimeout(100);
}

afterAll(closeBrowser);
