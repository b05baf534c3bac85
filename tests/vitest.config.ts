import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";
import { LongestFirst } from "./longestFirst.ts";

const root = fileURLToPath(new URL("..", import.meta.url));

/** Two projects: `unit` needs nothing but the code; `site` builds the demo farm once and opens it in a browser. */
export default defineConfig({
  root,
  test: {
    pool: "forks",
    // Every core: most of the time goes by waiting for commands that a test has started.
    maxWorkers: "100%",
    testTimeout: 30_000,
    // The modules under test hold no state but memos of what they are given, so files of tests may share them: loading them took half the time.
    isolate: false,
    sequence: { sequencer: LongestFirst },
    projects: [
      { extends: true, test: { name: "unit", include: ["tests/**/*.test.ts"], exclude: ["tests/site/**"] } },
      {
        extends: true,
        test: {
          name: "site",
          include: ["tests/site/**/*.test.ts"],
          globalSetup: ["tests/site/setup.ts"],
          setupFiles: ["tests/site/built.ts"],
          testTimeout: 60_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
});
