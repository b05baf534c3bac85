import { join } from "node:path";
import { parentPort } from "node:worker_threads";
import { readChecks } from "../src/records/reading/readChecks.ts";
import { checksView } from "../src/views/guidelines/checksView.ts";
import { installation } from "./options.ts";

/** Beside a build: work the installation's check values out, and hand over all that their page shows. */
parentPort!.postMessage(checksView(readChecks(join(installation, "tests", "cases"), join(installation, "content"))));
