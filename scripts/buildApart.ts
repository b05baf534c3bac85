import { spawnSync } from "node:child_process";
import { join } from "node:path";
import { installation } from "./options.ts";

export interface Wanted {
  readonly content: string;
  readonly out: string;
  readonly today?: string | undefined;
  readonly audience?: string | undefined;
}

/** Build a site in a process of its own, for a command that goes on with it; false when it could not be built, which the build has explained. */
export const buildApart = (wanted: Wanted): boolean => {
  const options = Object.entries(wanted).flatMap(([name, value]: [string, string | undefined]) =>
    value === undefined ? [] : [`--${name}`, value],
  );
  return (
    spawnSync(process.execPath, [join(installation, "scripts", "main.ts"), "build", ...options], { stdio: ["ignore", "ignore", "inherit"] })
      .status === 0
  );
};
