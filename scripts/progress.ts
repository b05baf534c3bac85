import { filesBelow } from "./checkLinks.ts";

export interface Rendered {
  readonly done: number;
  readonly total: number;
  readonly seconds: number;
}

/**
 * One line on a running build, at most `width` characters: "Writing the site: 812 of 2,206 files, 14 s".
 */
export const progressLine = ({ done, total, seconds }: Rendered, width: number): string =>
  `Writing the site: ${thousands(done)} of ${thousands(total)} files, ${Math.floor(seconds)} s`.slice(0, Math.max(0, width));

export interface Built {
  readonly farm: string;
  readonly fields: number;
  readonly samplings: number;
  readonly warnings: number;
  readonly files: number;
  readonly seconds: number;
  /** The site's folder. */
  readonly folder: string;
  /** Its first page. */
  readonly first: string;
}

/** What a build says at its end, on three lines: how much there is, how long it took and where it is, how it is opened. */
export const summary = ({ farm, fields, samplings, warnings, files, seconds, folder, first }: Built): string =>
  [
    `${farm}: ${several(fields, "field")}, ${several(samplings, "sampling")}, ${warnings === 0 ? "no warnings" : several(warnings, "warning")}.`,
    `${several(files, "file")} in ${seconds.toFixed(1)} s, in ${folder}`,
    `Open ${first} with any browser.`,
  ].join("\n");

/**
 * Show a line on the error stream while a site is written into `folder`, overwritten in place; returns what takes it away again.
 * Counted are the farm's own files, `planned`: the renderer leaves others in the folder until it is done.
 * Nothing is shown where nobody watches: the stream is no terminal, the terminal cannot go back, or a CI runs the build.
 */
export const showProgress = (
  folder: string,
  planned: ReadonlyMap<string, unknown>,
  stream: NodeJS.WriteStream = process.stderr,
  env: NodeJS.ProcessEnv = process.env,
): (() => void) => {
  if (!stream.isTTY || env["TERM"] === "dumb" || (env["CI"] ?? "") !== "") return () => undefined;
  const began = performance.now();
  let done = 0;
  const show = (): void => {
    done = written(folder)?.filter((file) => planned.has(file)).length ?? done;
    const width = (stream.columns || 80) - 1;
    stream.write(`\r\u001b[2K${progressLine({ done, total: planned.size, seconds: (performance.now() - began) / 1000 }, width)}`);
  };
  show();
  const timer = setInterval(show, 250);
  timer.unref();
  return () => {
    clearInterval(timer);
    stream.write("\r\u001b[2K");
  };
};

/** `undefined` when a folder goes away while it is read: the renderer tidies up as it works, and a build must not fail for its progress. */
const written = (folder: string): string[] | undefined => {
  try {
    return filesBelow(folder);
  } catch {
    return undefined;
  }
};

const thousands = (n: number): string => String(n).replace(/\B(?=(\d{3})+$)/g, ",");

const several = (n: number, singular: string): string => `${thousands(n)} ${n === 1 ? singular : `${singular}s`}`;
