import { allowedWords } from "./nearMiss.ts";

/** Why an entry of a folder is refused, or `undefined` for one to be read. */
export type Judge = (name: string, isFolder: boolean) => string | undefined;

const idName = /^[a-z0-9]+(-[a-z0-9]+)*$/;

const unknown = (name: string, wanted: readonly string[]): string => `is not a record known here; ${allowedWords(name, wanted)}`;

/** Accepts a file whose name fits; `wanted` says in words which do. */
export const fileNamed =
  (fits: (name: string) => boolean, wanted: string): Judge =>
  (name, folder) => {
    if (!fits(name)) return unknown("", [wanted]);
    return folder ? "must be a file" : undefined;
  };

/** Accepts `<id>.yaml`. */
export const yamlRecord = fileNamed(
  (name) => name.endsWith(".yaml") && idName.test(name.slice(0, -".yaml".length)),
  "a file named <id>.yaml in lower-case letters, digits and hyphens",
);

/** Accepts a folder named by an id. */
export const idFolder: Judge = (name, folder) =>
  folder && idName.test(name) ? undefined : unknown("", ["a folder named in lower-case letters, digits and hyphens"]);

export const exactly =
  (files: readonly string[], folders: readonly string[]): Judge =>
  (name, folder) => {
    if ((folder ? folders : files).includes(name)) return undefined;
    if (files.includes(name)) return "must be a file";
    return folders.includes(name) ? "must be a folder" : unknown(name, [...files, ...folders]);
  };
