import type { Command } from "./command.ts";

/** Every command by its name; only the one that is asked for is loaded. */
export const commands: Readonly<Record<string, () => Promise<{ readonly command: Command }>>> = {
  build: () => import("./build.ts"),
  check: () => import("./check.ts"),
  dev: () => import("./dev.ts"),
  interpret: () => import("./interpret.ts"),
  plan: () => import("./plan.ts"),
  archive: () => import("./archive.ts"),
  bundle: () => import("./bundle.ts"),
  pdf: () => import("./pdf.ts"),
  pictures: () => import("./pictures.ts"),
  import: () => import("./import.ts"),
  new: () => import("./new.ts"),
  zones: () => import("./zones.ts"),
  redraw: () => import("./redraw.ts"),
  rates: () => import("./rates.ts"),
  schemas: () => import("./schemas.ts"),
  test: () => import("./test.ts"),
  bench: () => import("./bench.ts"),
};
