import { expect, it } from "vitest";
import * as fc from "fast-check";
import { paths, relativeHref, siteFolders } from "../../../src/views/paths.ts";

it.each([
  ["index.html", "fields/north.html", "fields/north.html"],
  ["fields/north.html", "index.html", "../index.html"],
  ["fields/north.html", "fields/south.html", "south.html"],
  ["fields/north/samplings/2025-10-18.html", "fields/north.html", "../../north.html"],
  ["fields/north/samplings/2025-10-18.html", "guidelines/a.html", "../../../guidelines/a.html"],
  ["index.html", "data/a b#c%.csv", "data/a%20b%23c%25.csv"],
])("from %s to %s is %s", (from, to, href) => {
  expect(relativeHref(from, to)).toBe(href);
});

it("leads to its target from anywhere, by the rules of URLs", () => {
  const segment = fc.stringMatching(/^[a-z0-9 #%?ü.-]{1,8}$/).filter((s) => !/^\.+$/.test(s));
  const path = fc.array(segment, { minLength: 1, maxLength: 4 }).map((parts) => parts.join("/"));
  fc.assert(
    fc.property(path, path, (from, to) => {
      const base = new URL(from.split("/").map(encodeURIComponent).join("/"), "http://host/a/b/");
      const reached = new URL(relativeHref(from, to), base);
      expect(decodeURIComponent(reached.pathname)).toBe(`/a/b/${to}`);
    }),
    { seed: 20251018, numRuns: 500 },
  );
});

it("names every folder of a site, so that a build knows what is not of one", () => {
  const tops = Object.values(paths).map((path) => (typeof path === "string" ? path : (path as (...parts: unknown[]) => string)(2, 2))).filter((path) => path.includes("/"));
  expect(new Set(tops.map((path) => path.split("/")[0]))).toEqual(siteFolders);
});
